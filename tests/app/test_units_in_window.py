"""A room shown in feet and inches: the window says no length in millimetres, but for sizes that are made and sold so."""

import re
from collections.abc import Iterator
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QAbstractItemView, QComboBox, QLabel, QListView, QTabWidget, QWidget
from pytestqt.qtbot import QtBot

from app.checks import CHECK_ROLE
from app.document import Document
from app.framing.leaf import FrameLeaf
from app.window import Window
from core import edits
from core.edits.studs import set_regular
from core.edits.timberwork import put_reading
from core.room import MeasuredFrame, Opening, RegularFrame, Room
from core.setout.result import Check

BARE = re.compile(r"\d mm\b")
"""A figure in millimetres; those of things made in millimetres have a no-break space before their unit."""
LONGEST_MS = 30_000
ROLES = (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleDescriptionRole)


@pytest.fixture
def room() -> Room:
    """A small den in feet and inches: frames of every kind, a measured face, a door up to the ceiling, an outlet."""
    corners = ((0.0, 0.0), (0.0, 1600.0), (1600.0, 1600.0), (1600.0, 0.0))
    openings = (
        Opening(id="window", kind="window", wall=1, left_mm=500, sill_mm=304, width_mm=608, height_mm=304),
        Opening(id="door", kind="door", wall=3, left_mm=500, sill_mm=0, width_mm=608, height_mm=910),
        Opening(id="outlet", kind="outlet", wall=2, left_mm=1000, sill_mm=300, width_mm=60, height_mm=100),
    )
    made = Room(name="Reading den", corners_mm=corners, clad_height_mm=910.0, openings=openings, display_units="ft-in")
    made = edits.set_frame(made, 0, MeasuredFrame(mode="measured", centres_mm=(19.0, 420.0, 830.0, 1230.0, 1581.0)))
    made = edits.set_frame(made, 1, RegularFrame(mode="regular", spacing_mm=406.4))
    for x_mm in (0.0, 800.0, 1600.0):
        made = put_reading(made, 0, None, x_mm=x_mm, z_mm=400.0, depth_mm=x_mm / 400)
    return made


def texts_of(widget: QWidget) -> Iterator[str]:
    """Everything a widget letters, tips and tells a screen reader."""
    yield from (widget.toolTip(), widget.statusTip(), widget.windowTitle())
    yield from (widget.accessibleName(), widget.accessibleDescription())
    for name in ("text", "placeholderText", "toPlainText"):
        if callable(read := getattr(widget, name, None)):
            yield str(read())
    if isinstance(widget, QComboBox):
        yield from (widget.itemText(place) for place in range(widget.count()))
    if isinstance(widget, QTabWidget):
        yield from (widget.tabText(place) for place in range(widget.count()))
    if isinstance(widget, QAbstractItemView) and (model := widget.model()) is not None:
        columns = 1 if isinstance(widget, QListView) else model.columnCount()
        for column in range(columns):
            yield str(model.headerData(column, Qt.Orientation.Horizontal))
            yield from (str(model.index(row, column).data(role) or "") for row in range(model.rowCount()) for role in ROLES)


def said_in(window: QWidget) -> set[str]:
    """All texts of a window, its actions' included."""
    said = {text for widget in [window, *window.findChildren(QWidget)] for text in texts_of(widget)}
    for action in window.findChildren(QAction):
        said |= {action.text(), action.toolTip(), action.statusTip()}
    return said


def bare(texts: set[str], room: Room) -> set[str]:
    """Those with a length in millimetres; a screw's own name may hold one."""
    found = set()
    for text in texts:
        for screw in room.timberwork.screws:
            text = text.replace(screw.name, "")
        if BARE.search(text):
            found.add(text)
    return found


def test_no_leaf_says_a_length_in_millimetres_to_who_reads_feet_and_inches(window: Window, qtbot: QtBot) -> None:
    document = window.document
    document.work_out()
    said = set[str]()
    for place in range(window.leaves.count()):
        leaf = window.leaves.turn_to(place)
        if isinstance(leaf, FrameLeaf):
            qtbot.waitUntil(lambda leaf=leaf: leaf.plan is not None, timeout=LONGEST_MS)
            assert "'" in leaf.given.heading.text()
        for wall in range(document.room.wall_count):
            document.set_wall(wall)
            said |= said_in(window)
    for opening in document.room.openings:
        document.select(opening.id)
        said |= said_in(window)
    assert len(said) > 500
    assert bare(said, document.room) == set()
    if isinstance(leaf := window.leaves.turn_to(window.framing), FrameLeaf):
        leaf._aside.close()


def test_the_same_texts_are_in_millimetres_where_the_room_is(window: Window) -> None:
    """The law above can fail: the checks alone hold several bare figures once the room is shown in millimetres."""
    window.document.commit(edits.set_units(window.document.room, "mm"), "Millimetres")
    assert len(bare(said_in(window), window.document.room)) > 3


def test_a_refused_edit_is_told_in_the_units_shown(document: Document) -> None:
    assert not document.commit_edit(lambda room: set_regular(room, 1, spacing_mm=1.0), "Spacing")
    assert document.refusal == 'the spacing is 1/16"; it must be from 1 15/16" to 16\' 4 7/8"'
    assert not document.commit_edit(lambda room: edits.set_clad_height(room, 25.4e3), "Height")
    assert document.refusal == "clad height: found 83' 4\", must be at most 39' 4 7/16\""


def test_the_list_of_checks_follows_a_change_of_units_and_its_places_stay(window: Window) -> None:
    def shown() -> list[Check]:
        model = window.checks.model
        return [model.index(row, 0).data(CHECK_ROLE) for row in range(model.rowCount())]

    before = shown()
    window.document.commit(edits.set_units(window.document.room, "mm"), "Millimetres")
    after = shown()
    assert before != after
    assert [replace(check, text="") for check in before] == [replace(check, text="") for check in after]


def test_labels_are_read_by_the_walk(window: Window) -> None:
    """The walk sees what a label says: one planted in the window is found."""
    planted = QLabel("304.8 mm", window)
    assert "304.8 mm" in bare(said_in(window), window.document.room)
    planted.deleteLater()
