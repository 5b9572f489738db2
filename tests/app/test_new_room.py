"""Sketching a room with a real mouse and keyboard: new rooms, and walls drawn anew round what a room has."""

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

import pytest
from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtWidgets import QApplication, QDialog, QLineEdit, QToolButton
from pytestqt.qtbot import QtBot

from app.new_room import NewRoomDialog
from app.plan.commands import legs_of
from app.plan.recess_dialog import RecessDialog
from app.plan.sketch_dialog import SketchDialog
from app.plan.square_dialog import SquareDialog
from app.window import Window
from core.room import Point
from core.survey import traverse
from tests.app.answers import Answers

LEFT = Qt.MouseButton.LeftButton
KEY = Qt.Key


@pytest.fixture
def dialog(qtbot: QtBot) -> Iterator[NewRoomDialog]:
    dialog = NewRoomDialog("mm")
    qtbot.addWidget(dialog)
    with qtbot.waitExposed(dialog):
        dialog.show()
    yield dialog
    dialog.close()


@pytest.fixture
def pen(dialog: NewRoomDialog, qtbot: QtBot) -> "Pen":
    dialog.go(1)
    return Pen(dialog, qtbot)


class Pen:
    """A hand with mouse and keyboard over the dialog's paper."""

    def __init__(self, dialog: SketchDialog, qtbot: QtBot) -> None:
        self.dialog, self.paper, self._bot = dialog, dialog.draw.paper, qtbot
        self.hand = dialog.draw.hand

    def at(self, point: Point) -> QPoint:
        return self.paper.to_px(point).toPoint()

    def click(self, point: Point, keys: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        self._bot.mouseMove(self.paper, self.at(point))
        self._bot.mouseClick(self.paper, LEFT, keys, self.at(point))

    def point(self, point: Point) -> None:
        self._bot.mouseMove(self.paper, self.at(point))

    def type(self, *texts: str) -> None:
        """Each text and Enter."""
        for text in texts:
            self._bot.keyClicks(self.paper, text)
            self._bot.keyClick(self.paper, KEY.Key_Return)

    def press(self, *keys: Qt.Key, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        for key in keys:
            self._bot.keyClick(self.paper, key, held)


def run(window: Window, command: str, act: Any) -> None:
    """Trigger a command and act in the dialog that it opens; a fault in there ends the dialog and is raised."""
    faults: list[BaseException] = []

    def within() -> None:
        dialog = QApplication.activeModalWidget()
        try:
            act(dialog)
        except BaseException as fault:
            faults.append(fault)
        if isinstance(dialog, QDialog) and dialog.isVisible():
            dialog.reject()

    QTimer.singleShot(0, window, within)
    window.actions_by_name[command].trigger()
    if faults:
        raise faults[0]


def test_a_room_is_drawn_with_the_keyboard_alone(pen: Pen) -> None:
    pen.press(KEY.Key_Return)
    pen.type("3048", "4.2 m", "10'")
    pen.press(KEY.Key_Return, KEY.Key_Return)
    room = pen.dialog.room
    assert isinstance(pen.dialog, NewRoomDialog)
    assert room is not None
    assert room.corners_mm == ((0, 0), (0, 3048), (4200, 3048), (4200, 0))


def test_arrow_keys_say_which_way_a_wall_goes_and_anticlockwise_will_do(pen: Pen) -> None:
    pen.press(KEY.Key_Return)
    for arrow, length in ((KEY.Key_Right, "4000"), (KEY.Key_Up, "3000"), (KEY.Key_Left, "4000")):
        pen.press(arrow)
        pen.type(length)
    pen.press(KEY.Key_Return, KEY.Key_Return)
    assert pen.dialog.room.corners_mm == ((0, 0), (0, 3000), (4000, 3000), (4000, 0))


def test_shift_and_arrows_turn_by_45_degrees(pen: Pen) -> None:
    pen.press(KEY.Key_Return)
    pen.press(KEY.Key_Up)
    pen.press(KEY.Key_Right, held=Qt.KeyboardModifier.ShiftModifier)
    assert pen.hand.heading_deg == 45


def test_a_room_is_drawn_by_clicking_and_lines_lock_to_right_angles(pen: Pen) -> None:
    for point in ((0, 0), (120, 3000), (4000, 3090), (4060, 60)):
        pen.click(point)
    corners = pen.hand.sketch.points_mm
    for (ax, ay), (bx, by) in pairwise(corners):
        assert ax == bx or ay == by
    pen.click(corners[0])
    assert pen.hand.sketch.is_closed
    assert pen.dialog.figures["walls"].text() == "4"


def test_alt_frees_a_wall_from_right_angles(pen: Pen, qtbot: QtBot) -> None:
    pen.click((0, 0))
    qtbot.mousePress(pen.paper, LEFT, Qt.KeyboardModifier.AltModifier, pen.at((1000, 2000)))
    (x0, y0), (x1, y1) = pen.hand.sketch.points_mm
    assert x1 - x0 == pytest.approx(1000, abs=30)
    assert y1 - y0 == pytest.approx(2000, abs=30)


def test_a_typed_length_goes_where_the_pointer_points_and_is_shown_large(pen: Pen, qtbot: QtBot) -> None:
    pen.click((0, 0))
    pen.point((2000, 100))
    assert pen.hand.end is not None
    assert pen.hand.end[0] - pen.hand.sketch.points_mm[0][0] == pytest.approx(2000, abs=20)
    assert pen.dialog.figures["this wall"].text().endswith("0 mm")
    qtbot.keyClicks(pen.paper, "10' 6 1/2\"")
    assert pen.dialog.figures["this wall"].text().startswith("10' 6 1/2\"")
    pen.press(KEY.Key_Return)
    (x0, y0), (x1, y1) = pen.hand.sketch.points_mm
    assert (x1 - x0, y1 - y0) == (pytest.approx(3213.1), 0)


def test_backspace_takes_back_a_figure_then_a_corner(pen: Pen, qtbot: QtBot) -> None:
    pen.press(KEY.Key_Return)
    pen.type("3000")
    qtbot.keyClicks(pen.paper, "45")
    pen.press(KEY.Key_Backspace)
    assert pen.hand.typed == "4"
    pen.press(KEY.Key_Backspace, KEY.Key_Backspace)
    assert pen.hand.sketch.points_mm == ((0, 0),)


def test_escape_gives_the_sketch_up_backspace_brings_it_back_and_a_second_escape_leaves(pen: Pen) -> None:
    pen.press(KEY.Key_Return)
    pen.type("3000", "2000")
    pen.press(KEY.Key_Escape)
    assert pen.hand.sketch.points_mm == ()
    pen.press(KEY.Key_Backspace)
    assert len(pen.hand.sketch.points_mm) == 3
    pen.press(KEY.Key_Escape)
    assert pen.dialog.isVisible()
    pen.press(KEY.Key_Escape)
    assert not pen.dialog.isVisible()
    assert pen.dialog.room is None


def test_a_crossing_wall_is_refused_at_once_and_said(pen: Pen) -> None:
    pen.press(KEY.Key_Return)
    pen.type("3000", "3000", "1000")
    pen.type("4000")
    assert "wall D would cross or touch wall A" in pen.dialog.fault.text()
    assert pen.dialog.fault.property("refused")
    assert len(pen.hand.sketch.points_mm) == 4


@pytest.mark.parametrize(
    ("text", "said"), [("0", "wall A would be 0 mm long"), ("3//4", "not a length"), ("300 m", "wall A would")]
)
def test_a_silly_length_is_refused(pen: Pen, text: str, said: str) -> None:
    pen.press(KEY.Key_Return)
    pen.type(text)
    assert said in pen.dialog.fault.text()
    assert len(pen.hand.sketch.points_mm) == 1


def test_typed_walls_that_nearly_close_ask_how_to_share_out_and_nothing_is_shared_unasked(pen: Pen, qtbot: QtBot) -> None:
    pen.press(KEY.Key_Return)
    pen.type("3048", "3048", "3050", "3048")
    panel = pen.dialog.draw.miss
    assert panel.isVisible()
    assert "2 mm" in panel.words.text()
    pen.dialog.accept()
    assert pen.dialog.isVisible()
    assert "choose how to share" in pen.dialog.fault.text()
    qtbot.mouseClick(panel.choices["transit"], LEFT)
    assert pen.hand.sketch.is_closed
    pen.dialog.accept()
    assert pen.dialog.room.corners_mm == ((0, 0), (0, 3048.9997), (3048, 3048.9997), (3048, 0))


def test_how_to_share_out_is_chosen_by_keyboard_too(pen: Pen, qtbot: QtBot) -> None:
    pen.press(KEY.Key_Return)
    pen.type("3048", "3048", "3050", "3048")
    choice = pen.dialog.draw.miss.choices["last wall"]
    choice.setFocus()
    qtbot.keyClick(choice, KEY.Key_Space)
    pen.press(KEY.Key_Return)
    assert pen.dialog.room.corners_mm == ((0, 0), (0, 3048), (3048, 3048), (3048, -2))


def test_the_plan_has_a_button_that_opens_the_sketch(window: Window, qtbot: QtBot) -> None:
    opened: list[QDialog] = []

    def leave() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, SketchDialog)
        opened.append(dialog)
        dialog.reject()

    QTimer.singleShot(0, window, leave)
    qtbot.mouseClick(window.plan.findChild(QToolButton), LEFT)
    assert opened


def test_backspace_after_sharing_out_asks_again(pen: Pen, qtbot: QtBot) -> None:
    pen.press(KEY.Key_Return)
    pen.type("3048", "3048", "3050", "3048")
    qtbot.mouseClick(pen.dialog.draw.miss.choices["compass"], LEFT)
    pen.press(KEY.Key_Backspace)
    assert pen.dialog.draw.miss.isVisible()
    assert pen.dialog.draw.miss.rule is None


def test_a_closed_room_can_be_opened_again(pen: Pen) -> None:
    pen.press(KEY.Key_Return)
    pen.type("3000", "3000", "3000")
    pen.press(KEY.Key_Return)
    assert pen.hand.sketch.is_closed
    pen.press(KEY.Key_Backspace)
    assert not pen.hand.sketch.is_closed
    assert len(pen.hand.sketch.points_mm) == 4


def test_all_that_is_sketched_stays_in_sight(pen: Pen) -> None:
    pen.press(KEY.Key_Return)
    pen.type("40 m", "30 m")
    for point in pen.hand.sketch.points_mm:
        assert pen.paper.rect().contains(pen.at(point))


def test_a_ready_shape_follows_its_sizes_and_shows_the_one_being_typed(dialog: NewRoomDialog, qtbot: QtBot) -> None:
    qtbot.mouseClick(dialog.shape.buttons["L"], LEFT)
    line = dialog.shape.lines["corner width"]
    qtbot.waitUntil(line.isVisible)
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "5'")
    assert [d.text for d in dialog.shape.paper.dimensions] == ["corner width  1524 mm"]
    assert dialog.figures["walls"].text() == "6"
    qtbot.keyClick(line, KEY.Key_Return)
    assert dialog.room is not None
    assert dialog.room.wall_length_mm(3) == 1524


def test_a_size_that_does_not_fit_is_named_and_the_dialog_stays(dialog: NewRoomDialog) -> None:
    dialog.shape.buttons["Bay"].click()
    dialog.shape.lines["bay depth"].setText("9000")
    dialog.accept()
    assert dialog.isVisible()
    assert "bay depth" in dialog.fault.text()


def test_a_pasted_list_fills_the_table_and_its_miss_is_shared_as_chosen(dialog: NewRoomDialog, qtbot: QtBot) -> None:
    dialog.go(2)
    QApplication.clipboard().setText("3048 R 3048 R 3050 R 3048 R")
    dialog.list.table.setFocus()
    qtbot.keyClick(dialog.list.table, KEY.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert dialog.list.table.item(2, 0).text() == "3050 mm"
    assert "2 mm" in dialog.list.miss.words.text()
    assert "2 mm down" in dialog.list.miss.words.text()
    qtbot.mouseClick(dialog.list.miss.choices["compass"], LEFT)
    assert "0.5 mm" in dialog.list.miss.effect.text()
    dialog.accept()
    assert dialog.room is not None
    assert dialog.room.wall_length_mm(0) == pytest.approx(3048.5, abs=1e-3)


def test_a_list_typed_and_entered_by_keyboard_begins_a_room(dialog: NewRoomDialog, qtbot: QtBot) -> None:
    dialog.go(2)
    qtbot.keyClicks(dialog.list.line, "10' R 12' 6\" R 10' R 12' 6\"")
    qtbot.keyClick(dialog.list.line, KEY.Key_Return)
    assert dialog.focusWidget() is dialog.list.table
    dialog.accept()
    assert dialog.room is not None
    assert [round(dialog.room.wall_length_mm(wall)) for wall in range(4)] == [3048, 3810, 3048, 3810]


@pytest.mark.parametrize(
    ("text", "said"),
    [("3048 R 3048 R x R 3048 R", "wall C"), ("3048 R 3048 R 350 R 3048 R", "wall A or C"), ("1000 R 2000", "found 2 walls")],
)
def test_a_list_that_makes_no_room_is_refused_by_its_entry(dialog: NewRoomDialog, text: str, said: str) -> None:
    dialog.go(2)
    dialog.list.paste(text)
    dialog.accept()
    assert dialog.isVisible()
    assert said in dialog.fault.text()


def test_a_table_cell_can_be_corrected(dialog: NewRoomDialog) -> None:
    dialog.go(2)
    dialog.list.paste("3048 R 3048 R 3050 R 3048 R")
    dialog.list.table.item(2, 0).setText("3048")
    assert not dialog.list.miss.isVisible()
    dialog.list.table.item(1, 0).setText("wide")
    dialog.accept()
    assert "wall B: 'wide' is not a length" in dialog.fault.text()


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
