"""The room standing up: where things lie in the picture, what hides what, and that it turns and picks by hand and by key."""

import math
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QToolButton, QWidget
from pytestqt.qtbot import QtBot
from shapely import LineString

from app.document import Document
from app.elevation.content import wall_contents
from app.elevation.strip import WallPoint
from app.spatial import RoomDialog
from app.spatial.forms import WallForm, joined, run_together
from app.spatial.room_painter import RoomPicture
from app.spatial.viewpoint import HIGHEST_DEGREES, LOWEST_DEGREES, Extent, Projection, Viewpoint, far_to_near
from core import edits
from core.room import Room
from core.setout import sketch
from core.setout.metric import face_box_mm
from tests.generate import SMALL_KIT, rooms, seeded_room

turns = st.floats(0, 359.9)
tilts = st.floats(LOWEST_DEGREES, HIGHEST_DEGREES)
VIEW = QRectF(0, 0, 1000, 700)


def picture_of(room: Room, viewpoint: Viewpoint) -> RoomPicture:
    setout = sketch(room)
    forms = [WallForm.of(room, content) for content in wall_contents(setout)]
    extent = Extent.of(room.corners_mm, room.clad_height_mm)
    return RoomPicture(room, forms, Projection.fitting(viewpoint, extent, VIEW))


@pytest.fixture
def asked() -> list[Path]:
    """Where the next picture is to go; empty for a person who gives up."""
    return []


@pytest.fixture
def shown() -> list[str]:
    return []


@pytest.fixture
def dialog(document: Document, asked: list[Path], shown: list[str], qtbot: QtBot) -> Iterator[RoomDialog]:
    def ask(_parent: QWidget, _proposal: Path) -> Path | None:
        return asked.pop() if asked else None

    dialog = RoomDialog(document, shown.append, ask=ask)
    qtbot.addWidget(dialog)
    with qtbot.waitExposed(dialog):
        dialog.show()
    dialog.view.setFocus()
    yield dialog
    dialog.close()


def middle_of(dialog: RoomDialog, mark: str) -> QPoint:
    """The pixel in the middle of a panel's first standing face."""
    picture = dialog.view.picture
    setout = dialog.view._document.setout
    panel = next(p for p in setout.panels if p.mark == mark)
    face = next(f for f in panel.faces if picture.stands(f.wall))
    left, bottom, right, top = face_box_mm(setout, face)
    return picture.place(WallPoint(face.wall, (left + right) / 2, (bottom + top) / 2)).toPoint()


def standing_mark(dialog: RoomDialog) -> str:
    setout, picture = dialog.view._document.setout, dialog.view.picture
    return next(p.mark for p in setout.panels if p.kind == "full" and picture.stands(p.faces[0].wall))


@given(turn=turns, tilt=tilts)
def test_lengths_across_the_view_and_upright_ones_are_foreshortened_as_parallel_projection_says(turn: float, tilt: float) -> None:
    """Factors of turning about two axes, as in any axonometric representation (ISO 5456-3, from memory)."""
    projection = Projection(Viewpoint(turn, tilt), (0.0, 0.0), 0.5, QPointF(0, 0))
    foot, head = projection.point(700.0, -300.0, 0.0), projection.point(700.0, -300.0, 1000.0)
    assert head.x() == pytest.approx(foot.x())
    assert foot.y() - head.y() == pytest.approx(1000 * 0.5 * math.cos(math.radians(tilt)))
    away = math.radians(turn)
    across = projection.point(math.cos(away), -math.sin(away)) - projection.point(0, 0)
    assert (across.x(), across.y()) == (pytest.approx(0.5), pytest.approx(0.0, abs=1e-9))


def test_at_the_isometric_angles_the_three_axes_are_equally_long() -> None:
    """Isometric: one scale on all three axes, tilt arctan(1/sqrt(2)), about 35.26 degrees (ISO 5456-3, from memory)."""
    projection = Projection(Viewpoint(45.0, math.degrees(math.atan(1 / math.sqrt(2)))), (0.0, 0.0), 1.0, QPointF(0, 0))
    origin = projection.point(0, 0)
    lengths = [QPointF(p - origin) for p in (projection.point(1, 0), projection.point(0, 1), projection.point(0, 0, 1))]
    assert [math.hypot(p.x(), p.y()) for p in lengths] == [pytest.approx(math.sqrt(2 / 3))] * 3


@settings(max_examples=40)
@given(room=rooms(kit=SMALL_KIT, most_rows=1, most_openings=0), turn=turns)
def test_no_wall_is_painted_over_by_one_behind_it(room: Room, turn: float) -> None:
    """Checked with shapely: from a place on a wall, the line to the viewer must not meet a wall that was painted earlier."""
    viewpoint = Viewpoint(turn, 30.0)
    walls = [room.wall_ends_mm(wall) for wall in range(room.wall_count)]
    order = far_to_near(viewpoint, walls)
    assert sorted(order) == list(range(room.wall_count))
    lines = [LineString([viewpoint.across_and_away(*end) for end in wall]) for wall in walls]
    for place, wall in enumerate(order):
        for share in (0.13, 0.5, 0.87):
            at = lines[wall].interpolate(share, normalized=True)
            sight = LineString([(at.x, at.y - 1.0), (at.x, at.y - 1e6)])
            nearer = {other for other in range(len(lines)) if other != wall and lines[other].crosses(sight)}
            wide = {other for other in nearer if abs(lines[other].coords[0][0] - lines[other].coords[-1][0]) > 2.0}
            assert not wide & set(order[:place])


@settings(max_examples=25)
@given(room=rooms(kit=SMALL_KIT, most_rows=2), turn=turns)
def test_what_is_picked_in_the_middle_of_a_visible_panel_is_that_panel_or_something_before_it(room: Room, turn: float) -> None:
    picture = picture_of(room, Viewpoint(turn, 35.0))
    setout = sketch(room)
    names = {o.id for o in room.openings}
    for panel in setout.panels:
        for face in panel.faces:
            if not picture.stands(face.wall) or len(face.outline) > 4 or face.holes:
                continue
            left, bottom, right, top = face_box_mm(setout, face)
            pos = picture.place(WallPoint(face.wall, (left + right) / 2, (bottom + top) / 2))
            if not picture.is_covered(face.wall, pos):
                assert picture.hit(pos) in {panel.mark, *names}


def test_in_a_convex_room_the_walls_cut_away_are_those_between_viewer_and_room(room: Room) -> None:
    """Looking along the plan's y, the near wall of a rectangle is the one along y = 0."""
    picture = picture_of(room, Viewpoint(10.0, 35.0))
    near = {w for w in range(4) if room.wall_ends_mm(w)[0][1] == 0 == room.wall_ends_mm(w)[1][1]}
    assert near.isdisjoint(picture.standing)
    assert len(picture.standing) == 2


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize("turn", [0.0, 90.0, 137.0])
def test_every_corner_of_the_room_lies_in_the_picture(seed: int, turn: float) -> None:
    room = seeded_room(seed, kit=SMALL_KIT, most_rows=2)
    picture = picture_of(room, Viewpoint(turn, 35.0))
    for x, y in room.corners_mm:
        for z in (0.0, room.clad_height_mm):
            assert VIEW.adjusted(-1, -1, 1, 1).contains(picture.projection.point(x, y, z))


@given(st.lists(st.tuples(st.integers(0, 40), st.integers(1, 9)), max_size=12))
def test_joined_spans_cover_the_same_whole_numbers(spans: list[tuple[int, int]]) -> None:
    made = [(low, low + length) for low, length in spans]
    cells = {cell for low, high in made for cell in range(low, high)}
    found = joined(made)
    assert {cell for low, high in found for cell in range(low, high)} == cells
    assert all(a[1] < b[0] for a, b in pairwise(found))


def test_kept_fills_have_the_area_of_the_faces(document: Document) -> None:
    boxes = [(face.left, face.bottom, face.right, face.top) for p in document.setout.panels for face in p.faces if face.wall == 1]
    together = run_together(boxes)
    assert len(together) < len(boxes) / 2
    assert sum((r - x) * (t - b) for x, b, r, t in together) == sum((r - x) * (t - b) for x, b, r, t in boxes)


def test_arrows_turn_and_tilt_in_small_steps_and_home_goes_back(dialog: RoomDialog, qtbot: QtBot) -> None:
    view, at = dialog.view, dialog.view.viewpoint
    qtbot.keyClick(view, Qt.Key.Key_Right)
    qtbot.keyClick(view, Qt.Key.Key_Up)
    assert (view.viewpoint.turn_degrees, view.viewpoint.tilt_degrees) == (at.turn_degrees + 5, at.tilt_degrees + 5)
    qtbot.keyClick(view, Qt.Key.Key_Left, Qt.KeyboardModifier.AltModifier)
    assert view.viewpoint.turn_degrees == at.turn_degrees + 4
    for _ in range(30):
        qtbot.keyClick(view, Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    assert view.viewpoint.tilt_degrees == LOWEST_DEGREES
    qtbot.keyClick(view, Qt.Key.Key_Home)
    assert view.viewpoint == at


def test_buttons_turn_too(dialog: RoomDialog, qtbot: QtBot) -> None:
    buttons = {button.accessibleName(): button for button in dialog.findChildren(QToolButton)}
    before = dialog.view.viewpoint
    qtbot.mouseClick(buttons["Turn to the left"], Qt.MouseButton.LeftButton)
    qtbot.mouseClick(buttons["Look from higher up"], Qt.MouseButton.LeftButton)
    assert dialog.view.viewpoint == before.turned(-5).tilted(5)


def test_a_drag_turns_and_selects_nothing(dialog: RoomDialog, document: Document, qtbot: QtBot) -> None:
    view = dialog.view
    start = middle_of(dialog, standing_mark(dialog))
    before = view.viewpoint
    qtbot.mousePress(view, Qt.MouseButton.LeftButton, pos=start)
    qtbot.mouseMove(view, start + QPoint(40, 0))
    qtbot.mouseMove(view, start + QPoint(80, 0))
    qtbot.mouseRelease(view, Qt.MouseButton.LeftButton, pos=start + QPoint(80, 0))
    assert view.viewpoint.turn_degrees > before.turn_degrees
    assert document.selection is None


def test_a_click_selects_the_panel_under_it_in_the_document(dialog: RoomDialog, document: Document, qtbot: QtBot) -> None:
    mark = standing_mark(dialog)
    qtbot.mouseClick(dialog.view, Qt.MouseButton.LeftButton, pos=middle_of(dialog, mark))
    assert document.selection == mark
    assert mark in dialog.view.accessibleDescription()
    qtbot.mouseClick(dialog.view, Qt.MouseButton.LeftButton, pos=QPoint(3, 3))
    assert document.selection is None


def test_a_click_on_an_opening_selects_it_and_one_on_a_cut_away_foot_its_wall(
    dialog: RoomDialog, document: Document, qtbot: QtBot
) -> None:
    view = dialog.view
    window = document.room.opening("window")
    view.look_at(window.wall)
    document.set_wall(0)
    place = WallPoint(window.wall, window.left_mm + window.width_mm / 2, window.sill_mm + window.height_mm / 2)
    qtbot.mouseClick(view, Qt.MouseButton.LeftButton, pos=view.picture.place(place).toPoint())
    assert document.selection == "window"
    gone = next(w for w in range(4) if not view.picture.stands(w) and w != document.wall)
    qtbot.mouseClick(view, Qt.MouseButton.LeftButton, pos=view.picture.place(WallPoint(gone, 1500.0, 0.0)).toPoint())
    assert (document.selection, document.wall) == (None, gone)


def test_control_and_arrows_go_from_panel_to_panel_and_turn_what_is_cut_away(
    dialog: RoomDialog, document: Document, qtbot: QtBot
) -> None:
    control = Qt.KeyboardModifier.ControlModifier
    document.set_wall(0)
    qtbot.keyClick(dialog.view, Qt.Key.Key_Right, control)
    assert document.selection is not None
    assert document.selection.startswith("A-1-")
    seen = set()
    for _ in range(sum(p.row == 0 for p in document.setout.panels)):
        qtbot.keyClick(dialog.view, Qt.Key.Key_Right, control)
        seen.add(document.selection)
        assert any(dialog.view.picture.stands(f.wall) for f in document.selected_panel.faces)  # type: ignore[union-attr]
    assert seen == {p.mark for p in document.setout.panels if p.row == 0}
    qtbot.keyClick(dialog.view, Qt.Key.Key_Up, control)
    assert document.selected_panel is not None
    assert document.selected_panel.row == 1


def test_enter_asks_for_the_selection_square_on(dialog: RoomDialog, document: Document, shown: list[str], qtbot: QtBot) -> None:
    document.select("window")
    qtbot.keyClick(dialog.view, Qt.Key.Key_Return)
    document.select(None)
    document.set_wall(2)
    qtbot.keyClick(dialog.view, Qt.Key.Key_Return)
    assert shown == ["opening window", "wall C"]


def test_zooming_keeps_what_lies_under_the_pointer(dialog: RoomDialog, qtbot: QtBot) -> None:
    view = dialog.view
    at = QPointF(300, 250)
    wall = view.picture.standing[0]
    local = view.picture.transforms[wall].inverted()[0].map(at)
    view._zoom_about(2.0, at)
    after = view.picture.transforms[wall].map(local)
    assert (after.x(), after.y()) == (pytest.approx(at.x()), pytest.approx(at.y()))
    qtbot.keyClick(view, Qt.Key.Key_0)
    assert view._sight.zoom == 1.0


def test_the_picture_follows_the_document_and_keeps_walls_that_stay(dialog: RoomDialog, document: Document) -> None:
    before = list(dialog.view._forms)
    document.work_out()
    before = list(dialog.view._forms)
    document.commit_edit(lambda room: edits.move_opening(room, "window", left_mm=1200.0), "Move")
    after = dialog.view._forms
    assert after[1] is not before[1]
    assert any(now is was for now, was in zip(after, before, strict=True))
    document.commit_edit(lambda room: edits.step_wall(room, 0, 1500, 608), "Step")
    assert len(dialog.view._forms) == document.room.wall_count


def test_a_png_holds_the_picture_and_an_svg_its_shapes(
    dialog: RoomDialog, asked: list[Path], tmp_path: Path, qtbot: QtBot
) -> None:
    for name in ("room.png", "room.svg"):
        asked.append(tmp_path / name)
        qtbot.mouseClick(dialog.save_button, Qt.MouseButton.LeftButton)
    image = QImage(str(tmp_path / "room.png"))
    assert image.width() == 2 * dialog.view.width()
    assert len({image.pixel(x, image.height() // 2) for x in range(0, image.width(), 7)}) > 5
    root = ElementTree.fromstring((tmp_path / "room.svg").read_bytes())
    paths = [path.get("d") for path in root.iter("{http://www.w3.org/2000/svg}path")]
    assert len(paths) > 20
    assert all(paths)


def test_a_picture_that_cannot_be_written_says_so_and_giving_up_writes_none(
    dialog: RoomDialog, asked: list[Path], tmp_path: Path, qtbot: QtBot
) -> None:
    qtbot.mouseClick(dialog.save_button, Qt.MouseButton.LeftButton)
    assert not dialog.notice.isVisible()
    asked.append(tmp_path / "nowhere" / "room.png")
    qtbot.mouseClick(dialog.save_button, Qt.MouseButton.LeftButton)
    assert "cannot be written" in dialog.notice.text()
