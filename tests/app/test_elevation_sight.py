"""What the developed elevation shows: zoomed, panned, brought into sight, and painted no more than need be."""

import itertools

import pytest
from PySide6.QtCore import QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.document import Document
from app.elevation import ElevationView, lettering
from app.elevation.content import wall_contents
from core.edits import resize_opening
from core.setout.result import SetOut
from tests.app.elevation_hand import NONE, along, body, drag


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


@pytest.mark.parametrize("wide_px", [960, 1280, 1600, 2400])
def test_the_width_and_the_height_of_an_opening_do_not_cover_each_other(
    view: ElevationView, document: Document, wide_px: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    lettered: dict[str, QRectF] = {}
    monkeypatch.setattr(lettering, "pill", lambda _painter, box, text, *_: lettered.update({text: box}))
    document.commit_edit(lambda room: resize_opening(room, "window", width_mm=912, height_mm=900), "Size the window")
    document.select("window")
    view.resize(wide_px, 360)
    view.grab()
    sizes = [box for text, box in lettered.items() if text in ("912 mm", "900 mm")]
    assert len(sizes) == 2 or "912 × 900 mm" in lettered
    assert not any(one.intersects(other) for one, other in itertools.combinations(sizes, 2))


def test_the_wheel_zooms_about_the_pointer(view: ElevationView) -> None:
    at = view.wall_to_screen(1, 1200.0, 900.0)
    scale = view.camera.scale
    wheel(view, at, 3)
    assert view.camera.scale > scale * 1.5
    place = view.screen_to_wall(at)
    assert place is not None
    assert place == pytest.approx((1, 1200.0, 900.0), abs=1e-3)


def test_going_to_a_wall_that_is_in_sight_moves_nothing_where_it_grows_no_larger(view: ElevationView, document: Document) -> None:
    view.resize(4000, 320)
    view.fit()
    before = view.camera
    view.go_to_wall(3)
    assert (view.camera, document.wall) == (before, 3)
    view.resize(1400, 900)
    view.go_to_wall(0)
    assert view.camera.scale > before.scale


def test_space_and_a_drag_pan_without_touching_the_room(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    before, start = document.room, body(view, document.room.opening("window"))
    place = view.screen_to_wall(start)
    qtbot.keyPress(view, Qt.Key.Key_Space)
    drag(view, start, start + QPointF(50, 30))
    qtbot.keyRelease(view, Qt.Key.Key_Space)
    assert view.screen_to_wall(start + QPointF(50, 30)) == pytest.approx(place, abs=1e-3)
    assert document.room == before


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
