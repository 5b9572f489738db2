"""The developed elevation by mouse and keyboard: real events, and the document tells what came of them."""

from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.document import Document
from app.elevation import ElevationView
from app.elevation.content import wall_contents
from app.elevation.gestures import Guide, MoveOpening, Pointer
from app.elevation.strip import Strip, WallPoint
from core.room import Opening, Room
from core.setout import solve
from core.setout.result import SetOut
from core.snap import wall_lines

NONE, LEFT = Qt.KeyboardModifier.NoModifier, Qt.MouseButton.LeftButton


@pytest.fixture
def document(demo_room_path: Path, qapp: QApplication) -> Document:
    return Document(Room.model_validate_json(demo_room_path.read_text()), parent=qapp)


@pytest.fixture
def view(qtbot: QtBot, document: Document) -> ElevationView:
    view = ElevationView(document)
    view.resize(1600, 900)
    qtbot.addWidget(view)
    with qtbot.waitExposed(view):
        view.show()
    view.setFocus()
    return view


def body(view: ElevationView, opening: Opening) -> QPointF:
    """A pixel on the opening's body, off its middle so that no grip is near."""
    x_mm = opening.left_mm + opening.width_mm * 0.4
    return view.wall_to_screen(opening.wall, x_mm, opening.sill_mm + opening.height_mm * 0.4)


def send(view: ElevationView, kind: QEvent.Type, pos: QPointF, button: Qt.MouseButton, modifiers: Qt.KeyboardModifier) -> None:
    held = Qt.MouseButton.NoButton if kind == QEvent.Type.MouseButtonRelease else LEFT
    QApplication.sendEvent(view, QMouseEvent(kind, pos, view.mapToGlobal(pos), button, held, modifiers))


def press(view: ElevationView, pos: QPointF) -> None:
    send(view, QEvent.Type.MouseButtonPress, pos, LEFT, NONE)


def move(view: ElevationView, pos: QPointF, modifiers: Qt.KeyboardModifier = NONE) -> None:
    send(view, QEvent.Type.MouseMove, pos, Qt.MouseButton.NoButton, modifiers)


def release(view: ElevationView, pos: QPointF) -> None:
    send(view, QEvent.Type.MouseButtonRelease, pos, LEFT, NONE)


def drag(view: ElevationView, start: QPointF, end: QPointF, modifiers: Qt.KeyboardModifier = NONE) -> None:
    press(view, start)
    for step in range(1, 6):
        move(view, start + (end - start) * (step / 5), modifiers)
    release(view, end)


def along(view: ElevationView, wall: int, pos: QPointF, by_mm: float) -> QPointF:
    """The pixel so many millimetres to the right of another on the same wall."""
    return pos + view.wall_to_screen(wall, by_mm, 0) - view.wall_to_screen(wall, 0, 0)


def test_dragging_a_window_along_its_wall_moves_it_there(view: ElevationView, document: Document) -> None:
    window = document.room.opening("window")
    start = body(view, window)
    drag(view, start, along(view, window.wall, start, 240.0))
    moved = document.room.opening("window")
    assert moved.left_mm == pytest.approx(window.left_mm + 240.0, abs=24.0)
    assert (moved.wall, moved.sill_mm, moved.width_mm) == (window.wall, window.sill_mm, window.width_mm)


def test_a_drag_is_one_step_to_undo_and_undo_brings_the_identical_room_back(view: ElevationView, document: Document) -> None:
    before, setout = document.room, document.work_out()
    start = body(view, before.opening("window"))
    drag(view, start, along(view, 1, start, 400.0))
    assert document.undo_stack.count() == 1
    document.undo_stack.undo()
    assert document.room == before
    assert document.work_out() == setout


def test_after_a_drag_the_set_out_is_what_solving_the_room_afresh_gives(view: ElevationView, document: Document) -> None:
    start = body(view, document.room.opening("door"))
    drag(view, start, along(view, 3, start, -330.0))
    fresh = solve(document.room)
    assert document.work_out().tally == fresh.tally
    assert document.setout.panels == fresh.panels


def test_every_step_of_a_drag_shows_in_the_tally_before_the_button_is_let_go(view: ElevationView, document: Document) -> None:
    start = body(view, document.room.opening("window"))
    tallies = []
    press(view, start)
    for step in range(1, 9):
        move(view, along(view, 1, start, step * 90.0))
        tallies.append(document.setout.tally)
        assert document.setout.room == document.room
    release(view, along(view, 1, start, 720.0))
    assert len({(tally.panels, tally.designs_not_in_kit) for tally in tallies}) > 1


def test_a_window_goes_round_the_corner_to_the_wall_under_the_pointer(view: ElevationView, document: Document) -> None:
    window = document.room.opening("window")
    drag(view, body(view, window), view.wall_to_screen(2, 1500.0, window.sill_mm + window.height_mm * 0.4))
    moved = document.room.opening("window")
    assert moved.wall == 2
    assert moved.left_mm == pytest.approx(1500.0 - window.width_mm * 0.4, abs=24.0)
    assert document.undo_stack.count() == 1


def test_at_the_walls_end_a_drag_stops_instead_of_being_refused(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    window = document.room.opening("window")
    with qtbot.assertNotEmitted(document.refused):
        drag(view, body(view, window), view.wall_to_screen(1, 3040.0, 1100.0))
    moved = document.room.opening("window")
    assert moved.wall == 1
    assert moved.right_mm == pytest.approx(3048.0, abs=8.0)


def test_a_door_stays_on_the_floor(view: ElevationView, document: Document) -> None:
    start = body(view, document.room.opening("door"))
    drag(view, start, along(view, 3, start, 160.0) + QPointF(0, -60))
    assert document.room.opening("door").sill_mm == 0.0


def test_a_slip_of_the_hand_leaves_the_sill_but_a_real_lift_goes_to_a_course(view: ElevationView, document: Document) -> None:
    window = document.room.opening("window")
    start = body(view, window)
    drag(view, start, along(view, 1, start, 200.0) + QPointF(0, -4))
    assert document.room.opening("window").sill_mm == window.sill_mm
    start = body(view, document.room.opening("window"))
    drag(view, start, start + QPointF(0, 40))
    lowered = document.room.opening("window").sill_mm
    assert lowered < window.sill_mm
    edges = {round(row.z_plates + 3 * course, 3) for row in document.setout.rows for course in range(row.courses + 1)}
    edges |= {row.z_plates + row.height_plates for row in document.setout.rows}
    edges |= {row.z_plates + row.height_plates - 1 for row in document.setout.rows}
    assert {round(lowered / 3.2, 3), round((lowered + window.height_mm) / 3.2, 3)} & edges


def test_escape_amid_a_drag_puts_everything_back(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    before = document.room
    start = body(view, before.opening("window"))
    press(view, start)
    move(view, along(view, 1, start, 300.0))
    assert document.room != before
    qtbot.keyClick(view, Qt.Key.Key_Escape)
    move(view, along(view, 1, start, 350.0))
    release(view, along(view, 1, start, 350.0))
    assert document.room == before
    assert document.undo_stack.count() == 0


def test_a_click_selects_and_changes_nothing(view: ElevationView, document: Document) -> None:
    before = document.room
    pos = body(view, before.opening("window"))
    press(view, pos)
    move(view, pos + QPointF(1, 1))
    release(view, pos + QPointF(1, 1))
    assert document.selection == "window"
    assert document.room == before
    assert document.undo_stack.count() == 0


def test_a_click_on_a_panel_selects_it_and_on_nothing_deselects(view: ElevationView, document: Document) -> None:
    pos = view.wall_to_screen(2, 1000.0, 150.0)
    panel = view.panel_at(pos)
    assert panel is not None
    drag(view, pos, pos)
    assert document.selection == panel.mark
    drag(view, QPointF(800, 880), QPointF(800, 880))
    assert document.selection is None


@pytest.mark.parametrize(
    ("edge", "by_mm", "fixed"),
    [((1.0, 0.5), (160.0, 0.0), ("left_mm", "sill_mm")), ((0.0, 0.5), (-160.0, 0.0), ("right_mm", "sill_mm"))],
)
def test_dragging_a_side_resizes_and_keeps_the_other_side(
    view: ElevationView,
    document: Document,
    edge: tuple[float, float],
    by_mm: tuple[float, float],
    fixed: tuple[str, ...],
) -> None:
    window = document.room.opening("window")
    at = (window.left_mm + edge[0] * window.width_mm, window.sill_mm + edge[1] * window.height_mm)
    start, end = view.wall_to_screen(1, *at), view.wall_to_screen(1, at[0] + by_mm[0], at[1] + by_mm[1])
    inwards = QPointF(-2, 0) if edge[0] else QPointF(2, 0)
    drag(view, start + inwards, end + inwards)
    resized = document.room.opening("window")
    assert resized.width_mm == pytest.approx(window.width_mm + 160.0, abs=24.0)
    for name in fixed:
        assert getattr(resized, name) == pytest.approx(getattr(window, name), abs=1e-3)
    assert document.undo_stack.count() == 1


def test_dragging_a_corner_resizes_both_ways(view: ElevationView, document: Document) -> None:
    window = document.room.opening("window")
    start = view.wall_to_screen(1, window.right_mm, window.head_mm) + QPointF(-2, 2)
    drag(view, start, start + QPointF(20, -20))
    resized = document.room.opening("window")
    assert resized.width_mm > window.width_mm
    assert resized.height_mm > window.height_mm
    assert (resized.left_mm, resized.sill_mm) == (window.left_mm, window.sill_mm)


def test_a_drag_onto_another_opening_is_refused_and_the_last_good_place_stays(
    view: ElevationView, document: Document, qtbot: QtBot
) -> None:
    window, door = document.room.opening("window"), document.room.opening("door")
    with qtbot.waitSignal(document.refused):
        drag(view, body(view, window), view.wall_to_screen(3, door.left_mm + 400.0, 1200.0))
    left = document.room.opening("window")
    assert left.wall != 3 or left.right_mm <= door.left_mm or left.left_mm >= door.right_mm


def test_a_drag_ends_on_the_brick_grid_or_a_joint_or_a_stud(view: ElevationView, document: Document) -> None:
    start = body(view, document.room.opening("door"))
    drag(view, start, along(view, 3, start, -413.0))
    door, shell = document.room.opening("door"), document.setout.walls[3]
    offsets = [((edge - shell.start_mm) / 8.0) % 1 for edge in (door.left_mm, door.right_mm)]
    assert any(min(offset, 1 - offset) < 1e-6 for offset in offsets)


def test_a_drag_says_what_it_has_snapped_to(document: Document) -> None:
    window, strip = document.room.opening("window"), Strip.of(document.room)
    joints = {line.at_mm for line in wall_lines(document.setout, 2).along.strong if line.kind == "panel joint"}
    joint = max(at_mm for at_mm in joints if at_mm < 1500.0)
    grab = strip.place(WallPoint(window.wall, window.left_mm, window.sill_mm))
    gesture = MoveOpening(document, window, grab, strip)
    gesture.step(Pointer(at=strip.place(WallPoint(2, joint + 3.0, window.sill_mm)), pixel_mm=2.0))
    assert gesture.guides == (Guide(2, "across", joint, "panel joint"),)
    gesture.step(Pointer(at=strip.place(WallPoint(2, joint + 3.0, window.sill_mm)), pixel_mm=2.0, snapping=False))
    assert gesture.guides == ()
    gesture.cancel()


@pytest.mark.parametrize("modifier", [Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier])
def test_the_modifier_key_frees_a_drag_from_every_line(
    view: ElevationView, document: Document, modifier: Qt.KeyboardModifier
) -> None:
    view.go_to_wall(3)
    door = document.room.opening("door")
    start = body(view, door)
    drag(view, start, along(view, 3, start, -101.0), modifier)
    assert document.room.opening("door").left_mm == pytest.approx(door.left_mm - 101.0, abs=0.5)


def test_shift_keeps_a_drag_straight(view: ElevationView, document: Document) -> None:
    window = document.room.opening("window")
    start = body(view, window)
    drag(view, start, along(view, 1, start, 400.0) + QPointF(0, 30), Qt.KeyboardModifier.ShiftModifier)
    assert document.room.opening("window").sill_mm == window.sill_mm
    assert document.room.opening("window").left_mm > window.left_mm


@pytest.mark.parametrize(
    ("key", "modifiers", "moved"),
    [
        (Qt.Key.Key_Right, NONE, (8.0, 0.0)),
        (Qt.Key.Key_Left, NONE, (-8.0, 0.0)),
        (Qt.Key.Key_Up, NONE, (0.0, 9.6)),
        (Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier, (0.0, -96.0)),
        (Qt.Key.Key_Left, Qt.KeyboardModifier.ShiftModifier, (-80.0, 0.0)),
        (Qt.Key.Key_Right, Qt.KeyboardModifier.AltModifier, (1.0, 0.0)),
    ],
)
def test_arrow_keys_nudge_by_pitch_and_course(
    view: ElevationView,
    document: Document,
    qtbot: QtBot,
    key: Qt.Key,
    modifiers: Qt.KeyboardModifier,
    moved: tuple[float, float],
) -> None:
    window = document.room.opening("window")
    document.select("window")
    qtbot.keyClick(view, key, modifiers)
    nudged = document.room.opening("window")
    assert (nudged.left_mm - window.left_mm, nudged.sill_mm - window.sill_mm) == pytest.approx(moved)
    assert document.undo_stack.count() == 1
    document.undo_stack.undo()
    assert document.room.opening("window") == window


def test_a_held_arrow_key_is_one_step_to_undo(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    window = document.room.opening("window")
    document.select("window")
    for _ in range(5):
        qtbot.keyPress(view, Qt.Key.Key_Right)
    qtbot.keyRelease(view, Qt.Key.Key_Right)
    assert document.room.opening("window").left_mm == window.left_mm + 40.0
    assert document.undo_stack.count() == 1


def test_control_and_arrows_resize(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    window = document.room.opening("window")
    document.select("window")
    qtbot.keyClick(view, Qt.Key.Key_Right, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClick(view, Qt.Key.Key_Down, Qt.KeyboardModifier.ControlModifier)
    resized = document.room.opening("window")
    assert (resized.width_mm, resized.height_mm) == pytest.approx((window.width_mm + 8.0, window.height_mm - 9.6))
    assert (resized.left_mm, resized.sill_mm) == (window.left_mm, window.sill_mm)


def test_tab_goes_through_the_openings_in_the_order_of_the_walls(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    seen = []
    for _ in range(3):
        qtbot.keyClick(view, Qt.Key.Key_Tab)
        seen.append(document.selection)
    qtbot.keyClick(view, Qt.Key.Key_Backtab)
    assert seen == ["outlet-1", "window", "door"]
    assert document.selection == "window"


def test_delete_removes_the_selected_opening_and_undo_brings_it_back(
    view: ElevationView, document: Document, qtbot: QtBot
) -> None:
    before = document.room
    document.select("outlet-1")
    qtbot.keyClick(view, Qt.Key.Key_Delete)
    assert [opening.id for opening in document.room.openings] == ["door", "window"]
    document.undo_stack.undo()
    assert document.room == before


def wheel(view: ElevationView, at: QPointF, notches: int, modifiers: Qt.KeyboardModifier = NONE) -> None:
    event = QWheelEvent(
        at,
        view.mapToGlobal(at),
        QPoint(0, 0),
        QPoint(0, 120 * notches),
        Qt.MouseButton.NoButton,
        modifiers,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(view, event)


def test_the_wheel_zooms_about_the_pointer(view: ElevationView) -> None:
    at = view.wall_to_screen(1, 1200.0, 900.0)
    scale = view.camera.scale
    wheel(view, at, 3)
    assert view.camera.scale > scale * 1.5
    place = view.screen_to_wall(at)
    assert place is not None
    assert place == pytest.approx((1, 1200.0, 900.0), abs=1e-3)


def test_space_and_a_drag_pan_without_touching_the_room(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    before, start = document.room, body(view, document.room.opening("window"))
    place = view.screen_to_wall(start)
    qtbot.keyPress(view, Qt.Key.Key_Space)
    drag(view, start, start + QPointF(50, 30))
    qtbot.keyRelease(view, Qt.Key.Key_Space)
    assert view.screen_to_wall(start + QPointF(50, 30)) == pytest.approx(place, abs=1e-3)
    assert document.room == before


def test_keys_zoom_fit_and_go_from_wall_to_wall(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    fitted = view.camera
    qtbot.keyClick(view, Qt.Key.Key_Plus)
    assert view.camera.scale > fitted.scale
    qtbot.keyClick(view, Qt.Key.Key_Minus)
    assert view.camera.scale == pytest.approx(fitted.scale)
    qtbot.keyClick(view, Qt.Key.Key_PageUp)
    assert document.wall == 3
    assert view.rect().contains(view.wall_to_screen(3, 1500.0, 900.0).toPoint())
    qtbot.keyClick(view, Qt.Key.Key_0)
    assert view.camera == fitted


@pytest.mark.parametrize("scale", [1, 4])
def test_every_place_on_every_wall_comes_back_from_its_pixel(view: ElevationView, document: Document, scale: int) -> None:
    for _ in range(scale):
        view.zoom_in()
    for wall in range(document.room.wall_count):
        for x_mm, z_mm in ((0.5, 1.0), (1524.0, 990.0), (3047.5, 1979.0)):
            assert view.screen_to_wall(view.wall_to_screen(wall, x_mm, z_mm)) == pytest.approx((wall, x_mm, z_mm), abs=1e-6)


def test_a_fold_is_no_place_on_a_wall(view: ElevationView) -> None:
    end, start = view.wall_to_screen(0, 3048.0, 500.0), view.wall_to_screen(1, 0.0, 500.0)
    assert start.x() > end.x() + 4
    assert view.screen_to_wall((start + end) / 2) is None


def test_a_checks_place_is_brought_into_sight(view: ElevationView, document: Document) -> None:
    mark = document.setout.panels[-1].mark
    assert view.show_place(f"panel {mark}")
    assert document.selection == mark
    assert view.show_place("opening door")
    door = document.room.opening("door")
    assert view.rect().contains(body(view, door).toPoint())
    assert view.opening_at(body(view, door)) == door
    assert view.show_place("wall C")
    assert view.rect().contains(view.wall_to_screen(2, 1500.0, 900.0).toPoint())
    assert view.show_place("room")
    assert not view.show_place("opening cellar hatch")


def test_undo_amid_a_drag_ends_it(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    document.select("window")
    qtbot.keyClick(view, Qt.Key.Key_Right)
    start = body(view, document.room.opening("window"))
    press(view, start)
    move(view, along(view, 1, start, 300.0))
    document.undo_stack.undo()
    undone = document.room
    move(view, along(view, 1, start, 500.0))
    release(view, along(view, 1, start, 500.0))
    assert document.room == undone


def test_a_drag_repaints_the_walls_whose_content_changed_and_no_other(view: ElevationView, document: Document) -> None:
    """Also one that changed on the way and ended as it was."""
    seen: list[SetOut] = []
    document.changed.connect(seen.append)
    view.grab()
    pictures, contents = dict(view.pictures), wall_contents(document.setout)
    start = body(view, document.room.opening("window"))
    drag(view, start, along(view, 1, start, 120.0))
    view.grab()
    repainted = {wall for wall, picture in view.pictures.items() if pictures[wall] is not picture}
    changed = {now.shell.wall for setout in seen for now, was in zip(wall_contents(setout), contents, strict=True) if now != was}
    assert 1 in changed
    assert repainted == changed


@pytest.mark.parametrize("held", [Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier])
def test_escape_ends_a_drag_while_a_key_holds_snapping_off(
    view: ElevationView, document: Document, qtbot: QtBot, held: Qt.KeyboardModifier
) -> None:
    before = document.room
    start = body(view, before.opening("window"))
    press(view, start)
    move(view, along(view, 1, start, 300.0), held)
    qtbot.keyClick(view, Qt.Key.Key_Escape, held)
    release(view, along(view, 1, start, 300.0))
    assert document.room is before
