"""Walls drawn anew, alcoves and chimney breasts, and diagonals taped: each dialog is at most one edit."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit
from pytestqt.qtbot import QtBot

from app.plan.commands import legs_of
from app.plan.recess_dialog import RecessDialog
from app.plan.sketch_dialog import SketchDialog
from app.plan.square_dialog import SquareDialog
from app.window import Window
from core.survey import traverse
from tests.app.answers import Answers
from tests.app.plan.pen import Pen, run

LEFT = Qt.MouseButton.LeftButton
KEY = Qt.Key


def test_walls_drawn_anew_are_one_edit_that_can_be_undone(window: Window, qtbot: QtBot) -> None:
    before = window.document.room

    def draw(dialog: SketchDialog) -> None:
        pen = Pen(dialog, qtbot)
        pen.press(KEY.Key_Return)
        pen.type("4000", "5000", "4000")
        pen.press(KEY.Key_Return, KEY.Key_Return)

    run(window, "sketch", draw)
    assert window.document.room.wall_length_mm(0) == 4000
    assert {o.id for o in window.document.room.openings} == {o.id for o in before.openings}
    assert window.document.undo_stack.count() == 1
    window.document.undo_stack.undo()
    assert window.document.room == before


@pytest.mark.parametrize("agreed", [False, True])
def test_openings_go_only_once_the_person_has_agreed(window: Window, answers: Answers, qtbot: QtBot, agreed: bool) -> None:
    before = window.document.room
    answers.yes = agreed

    def draw(dialog: SketchDialog) -> None:
        pen = Pen(dialog, qtbot)
        pen.press(KEY.Key_Return)
        pen.type("3000", "1500", "3000")
        pen.press(KEY.Key_Return, KEY.Key_Return)
        assert dialog.isVisible() is not agreed

    run(window, "sketch", draw)
    assert "door (ends at 2012 mm; wall D is 1500 mm long)" in answers.asked[0]
    assert "window" in answers.asked[0]
    assert [o.id for o in window.document.room.openings] == (["outlet-1"] if agreed else [o.id for o in before.openings])


def test_a_room_as_a_list_walks_back_to_itself(window: Window) -> None:
    legs = legs_of(window.document.room)
    assert traverse(legs).points_mm[:-1] == window.document.room.corners_mm


def test_a_chimney_breast_is_added_to_the_current_wall(window: Window, qtbot: QtBot) -> None:
    window.document.set_wall(2)

    def fill_in(dialog: RecessDialog) -> None:
        for name, text in (("width", "4'"), ("depth", "400"), ("position", "0.9 m")):
            line: QLineEdit = dialog.lines[name]
            line.setFocus()
            line.selectAll()
            qtbot.keyClicks(line, text)
        qtbot.keyClick(dialog.lines["position"], KEY.Key_Return)

    run(window, "recess", fill_in)
    room = window.document.room
    assert room.wall_count == 8
    assert [round(room.wall_length_mm(wall), 1) for wall in (2, 3, 4, 5, 6)] == [900, 400, 1219.2, 400, 928.8]
    assert window.document.undo_stack.count() == 1


def test_a_recess_that_would_cut_an_opening_says_so_and_changes_nothing(window: Window) -> None:
    window.document.set_wall(1)
    before = window.document.room

    def add(dialog: RecessDialog) -> None:
        dialog.lines["width"].setText("600")
        dialog.accept()
        assert "cut through window" in dialog.fault.text()
        assert dialog.isVisible()

    run(window, "recess", add)
    assert window.document.room is before


def test_taped_diagonals_tell_how_far_out_of_square_and_can_lean_the_room(window: Window, qtbot: QtBot) -> None:
    def tape(dialog: SquareDialog) -> None:
        qtbot.keyClicks(dialog.lines[0, 2], "4330")
        assert "Corner A/B is 27.6 mm out of square" in dialog.report.text()
        qtbot.mouseClick(dialog.lean, LEFT)

    run(window, "square", tape)
    (ax, ay), _, (cx, cy), _ = window.document.room.corners_mm
    assert ((ax - cx) ** 2 + (ay - cy) ** 2) ** 0.5 == pytest.approx(4330, abs=1e-3)
    assert len(window.document.room.openings) == 3


def test_a_diagonal_that_cannot_be_is_refused(window: Window, qtbot: QtBot) -> None:
    def tape(dialog: SquareDialog) -> None:
        qtbot.keyClicks(dialog.lines[0, 2], "9 m")
        assert "cannot lie across walls" in dialog.report.text()
        assert not dialog.lean.isEnabled()

    run(window, "square", tape)


def test_any_change_of_walls_shows_the_whole_room_again(window: Window) -> None:
    window.elevation.go_to_wall(2)
    zoomed = window.elevation.camera
    window.commands.step_wall()
    assert window.elevation.camera != zoomed
    left, right = (window.elevation.wall_to_screen(wall, 0, 0).x() for wall in (0, window.document.room.wall_count - 1))
    assert 0 <= left < right <= window.elevation.width()
    window.elevation.go_to_wall(1)
    window.document.undo_stack.undo()
    right_end = window.elevation.wall_to_screen(3, window.document.room.wall_length_mm(3), 0).x()
    assert right_end <= window.elevation.width()


def test_a_taped_diagonal_can_be_typed_at_once(window: Window, qtbot: QtBot) -> None:
    def tape(dialog: SquareDialog) -> None:
        focus = dialog.focusWidget()
        assert focus is next(iter(dialog.lines.values()))
        qtbot.keyClicks(focus, "4330")
        assert "27.6 mm out of square" in dialog.report.text()

    run(window, "square", tape)
