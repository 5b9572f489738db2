"""The plan: clicks pick walls, drags and keys move corners, and every drag is one step to undo."""

from itertools import combinations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QImage, QPainter
from pytestqt.qtbot import QtBot

from app.document import Document
from app.plan import PlanView
from app.plan.drawing import PlanDrawing
from app.plan.scale import MARGIN_PX, fit_points
from core.edits.revise import build
from core.room import Point, Room

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def plan(document: Document, qtbot: QtBot) -> PlanView:
    plan = PlanView(document)
    qtbot.addWidget(plan)
    plan.resize(400, 400)
    plan.show()
    return plan


def at(plan: PlanView, point: Point) -> QPoint:
    return plan.scale_now().to_px(point).toPoint()


def drag(qtbot: QtBot, plan: PlanView, start: QPoint, by: QPoint, keys: Qt.KeyboardModifier) -> None:
    qtbot.mousePress(plan, LEFT, keys, start)
    for part in (1, 2, 3):
        qtbot.mouseMove(plan, start + by * part / 3)
    qtbot.mouseRelease(plan, LEFT, keys, start + by)


def test_clicking_near_a_wall_makes_it_current(plan: PlanView, document: Document, qtbot: QtBot) -> None:
    qtbot.mouseClick(plan, LEFT, pos=at(plan, (3048, 1500)) - QPoint(6, 0))
    assert document.wall == 2


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("side_px", [240, 130])
@pytest.mark.parametrize("wall", range(8))
def test_no_letter_lies_over_another_in_a_small_plan_of_an_alcove(wall: int, side_px: int) -> None:
    corners = ((0, 0), (0, 2440), (1260, 2440), (1260, 3050), (2170, 3050), (2170, 2440), (3540, 2440), (3540, 0))
    document = Document(build(Room, name="Den", display_units="ft-in", corners_mm=corners, clad_height_mm=2130))
    document.set_wall(wall)
    image = QImage(side_px, side_px, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    scale = fit_points(document.room.corners_mm, image.width(), image.height(), MARGIN_PX)
    places = PlanDrawing(painter, document, scale).letter_places()
    painter.end()
    assert wall in places
    assert len(places) == 8 or side_px < 200
    assert not any(one.box.intersects(other.box) for one, other in combinations(places.values(), 2))


def test_clicking_an_opening_selects_it(plan: PlanView, document: Document, qtbot: QtBot) -> None:
    qtbot.mouseClick(plan, LEFT, pos=at(plan, (1500, 3048)))
    assert document.selection == "window"
    assert document.wall == 1


def test_dragging_a_corner_keeps_a_square_room_square(plan: PlanView, document: Document, qtbot: QtBot) -> None:
    drag(qtbot, plan, at(plan, (3048, 3048)), QPoint(20, -10), Qt.KeyboardModifier.NoModifier)
    corners = document.room.corners_mm
    assert corners[2][0] > 3048
    assert corners[2][1] > 3048
    assert corners[1] == (0, corners[2][1])
    assert corners[3] == (corners[2][0], 0)
    assert all(value % 10 == 0 for value in corners[2])
    assert document.undo_stack.count() == 1


def test_a_click_beside_a_corner_with_a_trembling_hand_moves_nothing(plan: PlanView, document: Document, qtbot: QtBot) -> None:
    before = document.room
    drag(qtbot, plan, at(plan, (3048, 3048)) + QPoint(5, 3), QPoint(2, -1), Qt.KeyboardModifier.NoModifier)
    assert plan.corner == 2
    assert document.room is before
    assert document.undo_stack.count() == 0


def test_escape_gives_up_a_drag(plan: PlanView, document: Document, qtbot: QtBot) -> None:
    before = document.room
    start = at(plan, (3048, 3048))
    qtbot.mousePress(plan, LEFT, pos=start)
    qtbot.mouseMove(plan, start + QPoint(20, 0))
    assert document.room != before
    qtbot.keyClick(plan, Qt.Key.Key_Escape)
    qtbot.mouseRelease(plan, LEFT, pos=start + QPoint(20, 0))
    assert document.room is before
    assert document.undo_stack.count() == 0


def test_arrows_move_the_chosen_corner_and_undo_as_one(plan: PlanView, document: Document, qtbot: QtBot) -> None:
    before = document.room
    qtbot.keyClick(plan, Qt.Key.Key_End)
    qtbot.keyClick(plan, Qt.Key.Key_End)
    assert plan.corner == 1
    qtbot.keyClick(plan, Qt.Key.Key_Up)
    qtbot.keyClick(plan, Qt.Key.Key_Up)
    assert document.room.corners_mm[1] == (0, 3068)
    assert document.room.corners_mm[2] == (3048, 3068)
    document.undo_stack.undo()
    assert document.room is before


def test_shift_and_alt_move_a_corner_finely_and_alone(plan: PlanView, document: Document, qtbot: QtBot) -> None:
    qtbot.keyClick(plan, Qt.Key.Key_End)
    qtbot.keyClick(plan, Qt.Key.Key_End)
    qtbot.keyClick(plan, Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.AltModifier)
    assert document.room.corners_mm[1:3] == ((0, 3049), (3048, 3048))


def test_insert_bends_the_current_wall_and_delete_straightens_it(plan: PlanView, document: Document, qtbot: QtBot) -> None:
    before = document.room
    document.set_wall(2)
    qtbot.keyClick(plan, Qt.Key.Key_Insert)
    assert document.room.corners_mm[3] == (3198, 1528)
    assert plan.corner == 3
    qtbot.keyClick(plan, Qt.Key.Key_Delete)
    assert document.room == before


def test_a_corner_that_would_cut_an_opening_off_is_refused(plan: PlanView, document: Document, qtbot: QtBot) -> None:
    start = at(plan, (3048, 0))
    with qtbot.waitSignal(document.refused) as emitted:
        drag(qtbot, plan, start, at(plan, (1000, 0)) - start, Qt.KeyboardModifier.NoModifier)
    assert "move or remove the opening first" in emitted.args[0]
    assert document.room.wall_length_mm(3) >= document.room.opening("door").right_mm


def test_dragging_a_wall_moves_it_parallel_as_one_step(plan: PlanView, document: Document, qtbot: QtBot) -> None:
    drag(qtbot, plan, at(plan, (3048, 1500)), QPoint(20, 7), Qt.KeyboardModifier.NoModifier)
    corners = document.room.corners_mm
    assert corners[2][0] == corners[3][0] > 3048
    assert (corners[2][1], corners[3][1]) == (3048, 0)
    assert document.undo_stack.count() == 1
    assert document.undo_stack.undoText() == "Move wall C"


def test_a_wall_dragged_onto_an_opening_is_refused_by_name(plan: PlanView, document: Document, qtbot: QtBot) -> None:
    start = at(plan, (3048, 1500))
    with qtbot.waitSignal(document.refused) as emitted:
        drag(qtbot, plan, start, at(plan, (900, 1500)) - start, Qt.KeyboardModifier.NoModifier)
    assert "too short for" in emitted.args[0]
    assert len(document.room.openings) == 3


def test_lengths_are_shown_large_while_a_wall_is_dragged(plan: PlanView, document: Document, qtbot: QtBot) -> None:
    document.set_wall(2)
    plan.setFocus()
    start = at(plan, (3048, 1500))
    still = plan.grab().toImage()
    qtbot.mousePress(plan, LEFT, pos=start)
    qtbot.mouseMove(plan, start + QPoint(3, 0))
    qtbot.mouseMove(plan, start + QPoint(9, 0))
    middle = at(plan, (1524, 3048)) + QPoint(0, 24)
    assert plan.grab().toImage().pixelColor(middle - QPoint(18, 8)) != still.pixelColor(middle - QPoint(18, 8))
    qtbot.keyClick(plan, Qt.Key.Key_Escape)
    qtbot.mouseRelease(plan, LEFT, pos=start)
    assert document.undo_stack.count() == 0
    assert plan.grab().toImage() == still


def test_arrows_move_the_current_wall_while_no_corner_is_chosen(plan: PlanView, document: Document, qtbot: QtBot) -> None:
    document.set_wall(1)
    qtbot.keyClick(plan, Qt.Key.Key_Up)
    qtbot.keyClick(plan, Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier)
    qtbot.keyClick(plan, Qt.Key.Key_Left)
    assert document.room.corners_mm == ((0, 0), (0, 3059), (3048, 3059), (3048, 0))
    assert document.undo_stack.count() == 1


def test_escape_goes_back_from_the_corner_to_the_wall(plan: PlanView, qtbot: QtBot) -> None:
    qtbot.keyClick(plan, Qt.Key.Key_End)
    qtbot.keyClick(plan, Qt.Key.Key_Escape)
    assert plan.corner is None


def test_the_plan_says_once_when_the_walls_have_changed(plan: PlanView, document: Document, qtbot: QtBot) -> None:
    said: list[int] = []
    plan.outline_changed.connect(lambda: said.append(1))
    drag(qtbot, plan, at(plan, (3048, 1500)), QPoint(20, 0), Qt.KeyboardModifier.NoModifier)
    assert len(said) == 1
    document.undo_stack.undo()
    assert len(said) == 2


def test_the_current_wall_is_drawn_in_the_accent(plan: PlanView, document: Document) -> None:
    def colour_on_wall_c() -> str:
        picture: QImage = plan.grab().toImage()
        return picture.pixelColor(at(plan, (3048, 1500))).name()

    before = colour_on_wall_c()
    document.set_wall(2)
    assert colour_on_wall_c() != before
