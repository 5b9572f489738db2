"""What the window explains: panels and openings under the pointer and by key, and the board's figures; never amid a drag."""

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QHelpEvent, QImage, QPainter
from PySide6.QtWidgets import QApplication, QToolTip, QWidget
from pytestqt.qtbot import QtBot

from app.document import Document
from app.elevation import ElevationView
from app.elevation.fills import paint_swatch, panel_brush
from app.kind_key import KindKey
from app.window import Window
from core import edits
from core.room import Room
from core.setout.metric import face_box_mm
from core.setout.result import Panel
from core.sheets.wording import KIND_NAMES
from tests.app.elevation_hand import along, body, move, press, release


@pytest.fixture
def room(room: Room) -> Room:
    """The demo room with its window a little off the joints, so that two panels are shaped by it."""
    return edits.move_opening(room, "window", left_mm=1080.0, sill_mm=870.0)


def shaped_by_window(document: Document) -> Panel:
    return next(p for p in document.work_out().panels if p.kind == "shaped" and p.faces[0].wall == 1)


def pixel(view: ElevationView, document: Document, panel: Panel) -> QPointF:
    """A pixel on the panel, near its lower left corner."""
    left, bottom, _, _ = face_box_mm(document.setout, panel.faces[0])
    for dx in (40.0, 250.0):
        pos = view.wall_to_screen(panel.faces[0].wall, left + dx, bottom + 30.0)
        if (found := view.panel_at(pos)) and found.mark == panel.mark and view.opening_at(pos) is None:
            return pos
    raise AssertionError(panel.mark)


def rest_on(widget: QWidget, pos: QPoint) -> str:
    QToolTip.hideText()
    QApplication.sendEvent(widget, QHelpEvent(QEvent.Type.ToolTip, pos, widget.mapToGlobal(pos)))
    return QToolTip.text()


def test_a_panel_under_the_pointer_says_why_it_is_as_it_is(view: ElevationView, document: Document) -> None:
    panel = shaped_by_window(document)
    lines = rest_on(view, pixel(view, document, panel).toPoint()).splitlines()
    assert lines[0].startswith(panel.mark)
    assert any(line.startswith("shaped: the right edge and the") for line in lines)
    assert any("× 1.5 for its kind" in line for line in lines)
    assert "window moved 4 mm to the left leaves it whole, by a quick set-out" in lines


def test_an_opening_under_the_pointer_names_the_panels_it_cuts(view: ElevationView, document: Document) -> None:
    panel = shaped_by_window(document)
    words = rest_on(view, body(view, document.room.opening("window")).toPoint())
    assert words.startswith("window, 912 mm × 608 mm")
    assert panel.mark in words


def test_a_key_says_the_same_of_what_is_selected(window: Window, document: Document, qtbot: QtBot) -> None:
    panel = shaped_by_window(document)
    document.select(panel.mark)
    QToolTip.hideText()
    qtbot.keyClick(window.elevation, Qt.Key.Key_Y)
    by_key = QToolTip.text()
    assert "leaves it whole" in by_key
    assert window.elevation.accessibleDescription() == by_key
    window.elevation.fit()
    assert rest_on(window.elevation, pixel(window.elevation, document, panel).toPoint()) == by_key


def test_nothing_is_explained_amid_a_drag(view: ElevationView, document: Document) -> None:
    panel = shaped_by_window(document)
    at = pixel(view, document, panel).toPoint()
    start = body(view, document.room.opening("window"))
    described = view.accessibleDescription()
    press(view, start)
    move(view, along(view, 1, start, 160.0))
    assert rest_on(view, at) == ""
    assert view.explain() == ""
    assert "window is selected" in view.accessibleDescription() != described
    release(view, along(view, 1, start, 160.0))


def test_the_inspector_says_why_of_a_selected_panel(window: Window, document: Document) -> None:
    document.select(shaped_by_window(document).mark)
    text = window.inspector.opening.readout.text()
    assert "shaped: the right edge and the" in text
    assert "to set up its design once" in text


def test_every_figure_of_the_board_says_how_it_comes_about(window: Window, document: Document) -> None:
    setout = document.work_out()
    said = [rest_on(view, QPoint(5, 5)) for view in window.board._figures]
    assert said == [text for _, text in window.board.explanations]
    assert [view.accessibleDescription() for view in window.board._figures] == said
    assert said[0].endswith(f"= {setout.tally.panels}.")
    assert f"at least {setout.minutes.bound:.0f} min" in said[1]


@pytest.mark.parametrize("kind", list(KIND_NAMES))
def test_the_key_to_the_kinds_is_filled_as_the_walls_are(kind: str) -> None:
    sizes = 30, 20
    key, wall = (QImage(*sizes, QImage.Format.Format_RGB32) for _ in range(2))
    painter = QPainter(key)
    paint_swatch(painter, kind, key.rect())  # type: ignore[arg-type]
    painter.end()
    painter = QPainter(wall)
    painter.fillRect(wall.rect(), panel_brush(kind, 1.0))  # type: ignore[arg-type]
    painter.end()
    inside = key.rect().adjusted(8, 8, -8, -8)
    assert key.copy(inside) == wall.copy(inside)


def test_the_board_shows_crossed_hatches_for_shaped_panels_alone(qtbot: QtBot) -> None:
    """A closer and a shaped panel are told apart in the key by more than their hue, as on the walls."""
    board = KindKey()
    qtbot.addWidget(board)
    board.show_counts({}, {}, "")
    picture = board.grab().toImage().convertToFormat(QImage.Format.Format_Grayscale8)
    colours = {}
    for place, kind in enumerate(KIND_NAMES):
        box = board._box(place)
        swatch = picture.copy(box.left() + 3, box.top() + 8, 16, 8)
        colours[kind] = {swatch.pixel(x, y) for x in range(swatch.width()) for y in range(swatch.height())}
    assert len(colours["closer"]) > 1
    assert len(colours["shaped"]) > 1
    assert len(colours["full"]) == 1
