"""What a screen reader is told: everything that takes the keyboard has a name, and drawn views say what is selected."""

import importlib
import pkgutil
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QApplication, QDialog, QLabel, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from app.document import Document
from app.inspector.readout import Readout
from app.pack_dialog import PackDialog
from app.plan.words import outline_words
from app.window import Window
from core.edits import set_wall_length
from tests.app.answers import Answers


def name_of(widget: QWidget) -> str:
    """The name that Qt tells a screen reader: the one given, a button's words, or those of the label beside it."""
    found = QAccessible.queryAccessibleInterface(widget)
    return found.text(QAccessible.Text.Name) if found else ""


def nameless(top: QWidget) -> list[str]:
    """What takes the keyboard in a window and has no name, by where it is."""
    takers = [w for w in (top, *top.findChildren(QWidget)) if w.focusPolicy() != Qt.FocusPolicy.NoFocus and w.isVisibleTo(top)]
    return [path_of(widget) for widget in takers if not is_part_of_another(widget) and not name_of(widget).strip()]


def is_part_of_another(widget: QWidget) -> bool:
    """Whether it is only the inside of a widget that has the name: a spin box's line, a list's viewport."""
    return widget.objectName().startswith("qt_") or widget.focusProxy() is not None


def path_of(widget: QWidget) -> str:
    names = []
    one: QWidget | None = widget
    while one is not None:
        names.append(type(one).__name__)
        one = one.parentWidget()
    return " < ".join(names)


DIALOGS = {
    "keys": "PageDialog",
    "figures": "PageDialog",
    "cautions": "PageDialog",
    "about": "PageDialog",
    "sketch": "SketchDialog",
    "recess": "RecessDialog",
    "square": "SquareDialog",
    "copy_wall": "CopyWallDialog",
    "new": "SketchDialog",
    "compare": "CompareDialog",
    "bench": "BenchDialog",
    "standing": "RoomDialog",
    "swap": "SwapDialog",
}
"""The actions that open a dialog of our own, and its class or the class that it comes from."""


def own_dialogs() -> set[str]:
    """The names of all dialog classes in the program."""
    import app

    for module in pkgutil.walk_packages(app.__path__, "app."):
        if not module.name.endswith("__main__"):
            importlib.import_module(module.name)
    return {kind.__name__ for kind in QDialog.__subclasses__() if kind.__module__.startswith("app.")}


def test_every_dialog_of_the_program_is_walked_here() -> None:
    assert own_dialogs() == {*DIALOGS.values(), PackDialog.__name__}


def test_in_the_dialog_of_the_pack_what_takes_the_keyboard_has_a_name(qtbot: QtBot, tmp_path: Path) -> None:
    dialog = PackDialog(tmp_path, can_lay=True, lays=True)
    qtbot.addWidget(dialog)
    assert nameless(dialog) == []


@pytest.mark.parametrize("action", sorted(DIALOGS))
def test_in_every_dialog_what_takes_the_keyboard_has_a_name(
    window: Window, document: Document, answers: Answers, demo_room_path: Path, qtbot: QtBot, action: str
) -> None:
    answers.path = demo_room_path
    document.set_wall(1)
    document.select(document.work_out().panels[-1].mark)
    seen: list[str] = []

    def look() -> None:
        for dialog in QApplication.topLevelWidgets():
            if isinstance(dialog, QDialog) and dialog.isVisible():
                seen.extend(kind.__name__ for kind in type(dialog).__mro__)
                seen.extend(f"nameless {path}" for path in nameless(dialog))
                dialog.close()

    QTimer.singleShot(50, look)
    window.actions_by_name[action].trigger()
    qtbot.waitUntil(lambda: bool(seen))
    assert DIALOGS[action] in seen
    assert [one for one in seen if one.startswith("nameless")] == []


def test_in_every_leaf_of_the_window_what_takes_the_keyboard_has_a_name(window: Window, document: Document) -> None:
    document.work_out()
    for place in range(window.leaves.count()):
        window.leaves.turn_to(place)
        QApplication.processEvents()
        assert nameless(window) == []


@pytest.mark.parametrize("names", [("window",), ("window", "door"), ("A-1-02",), ("A-1-02", "A-1-03", "door"), ()])
def test_whatever_is_chosen_the_inspectors_fields_have_names(window: Window, document: Document, names: tuple[str, ...]) -> None:
    document.work_out()
    document.chosen.choose(names)
    assert nameless(window) == []


def test_the_field_that_finds_has_a_name(window: Window) -> None:
    window.finder.open()
    assert nameless(window) == []


def test_the_elevation_says_what_is_selected(window: Window, document: Document, qtbot: QtBot) -> None:
    assert window.elevation.accessibleName() == "Developed elevation"
    qtbot.keyClick(window.elevation, Qt.Key.Key_Tab)
    assert window.elevation.accessibleDescription().startswith("outlet-1 is selected")
    document.chosen.choose(("outlet-1", "door", document.work_out().panels[0].mark))
    assert window.elevation.accessibleDescription().startswith("2 openings and 1 panel selected")


def test_the_plan_says_which_wall_or_corner_is_current(window: Window, document: Document, qtbot: QtBot) -> None:
    document.set_wall(1)
    assert window.plan.accessibleDescription().startswith("Wall B is current")
    window.plan.setFocus()
    qtbot.keyClick(window.plan, Qt.Key.Key_End)
    assert window.plan.accessibleDescription().startswith("The corner of walls A and B is chosen")
    assert "B 3048 mm" in window.plan.accessibleDescription()


def test_a_drag_has_the_plan_say_nothing_new(window: Window, document: Document) -> None:
    before = window.plan.accessibleDescription()
    document.preview_edit(lambda room: set_wall_length(room, 1, 3352.8))
    assert window.plan.accessibleDescription() == before
    document.finish("Lengthen")
    assert "B 3352.8 mm" in window.plan.accessibleDescription()


def test_a_sketch_is_told_by_its_walls() -> None:
    square = ((0.0, 0.0), (0.0, 2000.0), (3000.0, 2000.0), (3000.0, 0.0))
    assert outline_words((), "mm", closed=False) == "nothing drawn yet"
    assert outline_words(square[:3], "mm", closed=False) == "2 walls, open: 2000 mm, 3000 mm"
    assert outline_words(square, "mm", closed=True) == "4 walls, closed: 2000 mm, 3000 mm, 2000 mm, 3000 mm"


@pytest.mark.parametrize("leaf", range(6))
def test_every_drawn_view_of_a_leaf_has_a_name_and_says_what_it_shows(window: Window, document: Document, leaf: int) -> None:
    document.work_out()
    window.leaves.turn_to(leaf)
    QApplication.processEvents()
    drawn = [w for w in window.leaves.currentWidget().findChildren(QWidget) if is_drawn(w) and w.isVisibleTo(window)]
    assert [path_of(w) for w in drawn if not name_of(w) or not (w.accessibleDescription() or isinstance(w, Readout))] == []


def is_drawn(widget: QWidget) -> bool:
    """Whether a class of ours paints the widget itself, so that Qt knows nothing of what is on it.

    Fields and labels say their text themselves.
    """
    if isinstance(widget, QLineEdit | QLabel):
        return False
    return any("paintEvent" in vars(kind) for kind in type(widget).__mro__ if kind.__module__.startswith("app."))
