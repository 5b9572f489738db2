"""A new room drawn on paper, by mouse or by keys alone."""

from itertools import pairwise

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication, QDialog, QToolButton
from pytestqt.qtbot import QtBot

from app.new_room import NewRoomDialog
from app.plan.sketch_dialog import SketchDialog
from app.window import Window
from tests.app.plan.pen import Pen

LEFT = Qt.MouseButton.LeftButton
KEY = Qt.Key


def test_a_room_is_drawn_with_the_keyboard_alone(pen: Pen) -> None:
    pen.press(KEY.Key_Return)
    pen.type("3048", "4.2 m", "10'")
    pen.press(KEY.Key_Return, KEY.Key_Return)
    room = pen.dialog.room
    assert isinstance(pen.dialog, NewRoomDialog)
    assert room is not None
    assert room.corners_mm == ((0, 0), (0, 3048), (4200, 3048), (4200, 0))


def test_control_and_a_figure_choose_the_way_from_the_name(dialog: NewRoomDialog, qtbot: QtBot) -> None:
    qtbot.keyClicks(dialog.focusWidget(), "Den")
    assert dialog.name.text() == "Den"
    for key, way in ((KEY.Key_2, dialog.draw), (KEY.Key_3, dialog.list), (KEY.Key_1, dialog.shape)):
        qtbot.keyClick(dialog.focusWidget(), key, Qt.KeyboardModifier.ControlModifier)
        qtbot.waitUntil(lambda way=way: dialog.way is way)


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
