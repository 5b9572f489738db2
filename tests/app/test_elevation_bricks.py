"""Bricks on the elevation: true to the bond, never waited for, kept across edits."""

from collections.abc import Callable, Iterator
from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, QPointF, QRect, Qt
from PySide6.QtGui import QImage, QPainter
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.document import Document
from app.elevation import ElevationView, bricks
from app.elevation.brick_marks import LEAST_COURSE_PX, special_colour
from app.elevation.bricks import BrickWork, FaceBricks
from app.elevation.content import wall_contents
from app.elevation.pictures import WallPictures
from core.bond import StockError, bond_for, bond_of
from core.edits import move_opening
from core.frame import as_hung
from core.room import Room
from core.setout.result import Face, Panel, SetOut

COURSE_MM = 9.6


@pytest.fixture
def view(qtbot: QtBot, document: Document) -> ElevationView:
    document.work_out()
    view = ElevationView(document)
    view.resize(900, 600)
    qtbot.addWidget(view)
    with qtbot.waitExposed(view):
        view.show()
    view.setFocus()
    return view


@pytest.fixture
def bonded(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The marks of the panels that a bond was worked out for."""
    found: list[str] = []

    def counted(setout: SetOut, panel: Panel) -> object:
        found.append(panel.mark)
        return bond_of(setout, panel)

    monkeypatch.setattr(bricks, "bond_of", counted)
    return found


def zoom_until(view: ElevationView, is_enough: Callable[[float], bool]) -> None:
    """Press plus until a course is as high as wanted."""
    while not is_enough(view.camera.scale * COURSE_MM):
        QTest.keyClick(view, Qt.Key.Key_Plus)


def all_laid(qtbot: QtBot, work: BrickWork) -> None:
    """Let idle time pass until nothing is left to bond."""
    qtbot.wait(20)
    qtbot.waitUntil(lambda: work.is_done, timeout=20_000)


def faces(document: Document) -> Iterator[tuple[Panel, Face, FaceBricks]]:
    """Every face of the set-out with its bricks, bonded here and now."""
    for panel in document.setout.panels:
        yield from ((panel, face, found) for face, found in zip(panel.faces, bricks._bricks(document.setout, panel), strict=True))


def test_a_panel_shows_as_many_joints_and_holes_as_its_bond_has(document: Document) -> None:
    document.work_out()
    seen = set()
    for panel, face, found in faces(document):
        if len(panel.faces) > 1 or panel.design in seen:
            continue
        seen.add(panel.design)
        bond = bond_for(document.setout, panel.design)
        width = face.right - face.left
        ends = [
            {end for laid in layer.laid if laid.side in (None, 0) for end in (laid.at, laid.at + laid.length)} - {0, width}
            for layer in bond.layers
        ]
        assert len(found.joints) == sum(map(len, ends))
        assert len(found.holes) == len(face.mounts)
    assert {"full", "half-height", "shaped NWH"} <= seen


def test_holes_are_where_the_mounting_points_are(document: Document) -> None:
    document.work_out()
    for _, face, found in faces(document):
        mounts = {(mount.x_pitches - face.left, mount.z_half_plates - 2 * face.bottom) for mount in face.mounts}
        assert set(found.holes) == mounts


def test_around_a_corner_the_legs_end_by_turns(document: Document) -> None:
    """In every layer one leg runs through the corner's square and the other leg shows its end there."""
    document.work_out()
    corners = 0
    for panel in document.setout.panels:
        if panel.kind != "corner":
            continue
        left, right = bricks._bricks(document.setout, panel)
        ends = [sorted(box[1] for sort, box in one.boxes if sort == "other leg") for one in (left, right)]
        layers = {low for one in (left, right) for _, low, _ in one.joints}
        assert not set(ends[0]) & set(ends[1])
        assert set(ends[0]) | set(ends[1]) == layers
        corners += 1
    assert corners


def test_a_panel_that_hangs_turned_about_is_drawn_mirrored(document: Document) -> None:
    setout = document.work_out()
    shaped = next(panel for panel in setout.panels if panel.kind == "shaped")
    (face,) = shaped.faces
    mirrored = mirror(face)
    assert mirrored.holes != face.holes
    (found,) = bricks._bricks(setout, shaped)
    (turned,) = bricks._bricks(setout, replace(shaped, mark="turned", faces=(mirrored,)))
    width = face.right - face.left
    assert {(width - x, low, high) for x, low, high in found.joints} == set(turned.joints)
    assert turned.joints != found.joints


def mirror(face: Face) -> Face:
    """The face turned about the upright line through its middle."""
    both = face.left + face.right
    rings = [tuple(sorted((both - x, z) for x, z in ring)) for ring in (face.outline, *face.holes)]
    boxes = [
        ((ring[0][0], ring[0][1]), (ring[-1][0], ring[0][1]), (ring[-1][0], ring[-1][1]), (ring[0][0], ring[-1][1]))
        for ring in rings
    ]
    mounts = tuple(replace(mount, x_pitches=both - mount.x_pitches) for mount in face.mounts)
    return replace(face, outline=boxes[0], holes=tuple(boxes[1:]), mounts=mounts)


def test_nothing_is_bonded_while_courses_are_too_low_to_show(view: ElevationView, bonded: list[str], qtbot: QtBot) -> None:
    view.fit()
    qtbot.wait(3 * bricks.QUIET_MS)
    assert view.camera.scale * COURSE_MM < LEAST_COURSE_PX
    assert not bonded


def test_zooming_in_shows_bricks_in_idle_time(view: ElevationView, bonded: list[str], qtbot: QtBot) -> None:
    zoom_until(view, lambda course: course >= LEAST_COURSE_PX)
    view.repaint()
    assert not bonded
    before = view.grab().toImage()
    all_laid(qtbot, view._bricks)
    assert bonded
    assert view.grab().toImage() != before


def test_no_bond_is_worked_out_while_a_gesture_runs(
    view: ElevationView, document: Document, bonded: list[str], qtbot: QtBot
) -> None:
    document.preview(move_opening(document.room, "window", left_mm=1300.0))
    zoom_until(view, lambda course: course >= LEAST_COURSE_PX)
    view.repaint()
    qtbot.wait(4 * bricks.QUIET_MS)
    assert not bonded
    assert not view._bricks.is_done
    document.cancel()
    all_laid(qtbot, view._bricks)
    assert bonded


def test_bricks_once_known_are_kept_across_an_edit(
    view: ElevationView, document: Document, bonded: list[str], qtbot: QtBot
) -> None:
    zoom_until(view, lambda course: course >= LEAST_COURSE_PX)
    all_laid(qtbot, view._bricks)
    known = set(bonded)
    bonded.clear()
    assert document.commit(move_opening(document.room, "outlet-1", sill_mm=340.0), "up")
    document.work_out()
    view.repaint()
    all_laid(qtbot, view._bricks)
    again = {panel.design for panel in document.setout.panels if panel.mark in bonded}
    assert known
    assert "full" not in again


@pytest.mark.parametrize("scale", [0.6, 1.4])
def test_a_picture_that_bricks_came_to_is_the_picture_painted_with_them(document: Document, qtbot: QtBot, scale: float) -> None:
    document.work_out()
    work = BrickWork(document)
    contents, pictures = wall_contents(document.setout), WallPictures(work)
    work.laid.connect(pictures.repaint)
    views = [QRect(600, 300, 900, 500), QRect(0, 0, 700, 500)]
    for content, view in zip(contents, [*views, *views], strict=False):
        drawn(pictures, content, scale, view)
        all_laid(qtbot, work)
        assert drawn(pictures, content, scale, view) == drawn(WallPictures(work), content, scale, view)


def drawn(pictures: WallPictures, content: object, scale: float, view: QRect) -> QImage:
    image = QImage(view.size(), QImage.Format.Format_RGB32)
    image.fill(0)
    painter = QPainter(image)
    pictures.draw(painter, content, scale, -view.topLeft(), QRect(QPoint(0, 0), view.size()))  # type: ignore[arg-type]
    painter.end()
    return image


def test_a_panel_that_the_stock_cannot_fill_keeps_its_plain_fill(room: Room, qtbot: QtBot) -> None:
    bare = tuple(part.model_copy(update={"is_stocked": False}) for part in room.parts)
    document = Document(room.model_copy(update={"parts": bare}))
    with pytest.raises(StockError):
        bond_for(document.work_out(), "full")
    work = BrickWork(document)
    placed = wall_contents(document.setout)[0].faces[5]
    assert work.of(placed) is None
    all_laid(qtbot, work)
    assert work.of(placed) is None
    assert work.is_done


def test_parts_taken_out_of_stock_are_drawn_no_longer(room: Room, qtbot: QtBot) -> None:
    document = Document(room)
    document.work_out()
    work = BrickWork(document)
    placed = next(face for face in wall_contents(document.setout)[0].faces if face.kind == "full")
    work.of(placed)
    all_laid(qtbot, work)
    before = work.of(placed)
    parts = tuple(p.model_copy(update={"is_stocked": False}) if p.name == "brick 2x4" else p for p in room.parts)
    document.commit(room.model_copy(update={"parts": parts}), "no 2x4")
    document.work_out()
    work.of(placed)
    all_laid(qtbot, work)
    after = work.of(placed)
    assert before is not None
    assert after is not None
    assert len(after.joints) > len(before.joints)


def test_a_locating_plate_is_told_from_a_tile_without_colour() -> None:
    """Black on paper and screen beside the lightest part of all; any grey copy keeps them apart."""
    grounds = [special_colour("full", sort).lightness() for sort in ("locating plate", "plate", "tile")]
    assert grounds == sorted(grounds)
    assert grounds[1] - grounds[0] > 100


def test_a_double_click_on_an_opening_picks_no_panel(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    window = document.room.opening("window")
    middle = view.wall_to_screen(window.wall, window.left_mm + window.width_mm / 2, window.sill_mm + window.height_mm / 2)
    with qtbot.assertNotEmitted(view.panel_picked, wait=50):
        QTest.mouseDClick(view, Qt.MouseButton.LeftButton, pos=QPointF(middle).toPoint())


def test_moved_holes_are_drawn_where_they_go_once_the_set_out_is_worked_out(document: Document, qtbot: QtBot) -> None:
    """Pin-hole bricks and mounting points alike; a sketch, and a moment that nobody looks at bricks, work nothing out."""
    hung = as_hung(document.work_out())
    work = BrickWork(document)
    assert work.is_done
    marks = {panel.mark: panel for panel in hung.setout.panels}
    moved = [placed for content in wall_contents(document.setout) for placed in content.faces if placed.mark in hung.moved]
    assert moved
    for placed in moved:
        work.of(placed)
    all_laid(qtbot, work)
    for placed in moved:
        face = next(f for f in marks[placed.mark].faces if (f.wall, f.outline) == (placed.face.wall, placed.face.outline))
        found = work.of(placed)
        assert found is not None
        assert set(found.holes) == {(m.x_pitches - face.left, m.z_half_plates - 2 * face.bottom) for m in face.mounts}
        assert work.mounts(placed) == face.mounts
    assert any(work.mounts(placed) != placed.face.mounts for placed in moved)
