"""What a person sees without asking: where words stand on the screen, which window is in front, where the keyboard goes.

Runs in the watched program. Everything here reads; nothing is pressed, typed or set.
"""

from collections.abc import Callable, Iterator, Mapping
from types import BuiltinMethodType

from PySide6.QtCore import QModelIndex, QPoint, QRect, QRectF, Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QApplication,
    QComboBox,
    QGroupBox,
    QLabel,
    QLineEdit,
    QMenu,
    QMenuBar,
    QMessageBox,
    QStatusBar,
    QTabBar,
    QWidget,
)

from app.window import Window
from core.setout.metric import face_box_mm

Box = tuple[int, int, int, int]
"""Left, top, width, height on the screen."""
Found = tuple[Box, str]
"""Where something is, and what it is."""
WORDS = ("text", "title", "windowTitle", "placeholderText")


def front() -> QWidget | None:
    """The window that takes keys: a modal dialog before the others, the newest first."""
    modal = QApplication.activeModalWidget()
    if modal is not None:
        return modal
    shown = [one for one in QApplication.topLevelWidgets() if one.isVisible() and one.windowType() in _KINDS]
    dialogs = [one for one in shown if not isinstance(one, Window)]
    return (dialogs or shown or [None])[-1]


_KINDS = (Qt.WindowType.Window, Qt.WindowType.Dialog)


def front_window() -> tuple[int, str, str] | None:
    """Its number on the display, its title, its kind; None while there is none or a menu is open, which takes keys by itself."""
    popup, window = QApplication.activePopupWidget(), front()
    if window is None:
        return None
    title = window.windowTitle() if not isinstance(window, QMessageBox) else f"{window.windowTitle()}: {window.text()}"
    return (0 if popup else int(window.winId()), title, type(popup or window).__name__)


def focus() -> str:
    """Where the keyboard goes: the kind of part, and its name."""
    part = QApplication.focusWidget()
    return f"{type(part).__name__} {_name(part)}" if part else ""


def words(wanted: str, kind: str = "") -> list[Found]:
    """The parts in front that are lettered or named so, the whole word before its beginning."""
    whole: list[Found] = []
    begun: list[Found] = []
    for box, said, what in _lettered():
        if kind and kind != what:
            continue
        if said == wanted:
            whole.append((box, what))
        elif said.startswith(wanted):
            begun.append((box, what))
    return whole or begun


def texts() -> list[str]:
    """All words shown in the window in front, and in its status line."""
    return [said for _box, said, _what in _lettered()]


def value(name: str) -> str | None:
    """What stands in the field of that name."""
    for part in _parts():
        if _name(part) == name:
            if isinstance(part, QLineEdit):
                return part.text()
            if isinstance(part, QComboBox):
                return part.currentText()
    return None


def cell(table: str, row: str | int, column: str) -> list[Found]:
    """A cell by the words of its row and its column's title; the row's place where it is a number."""
    for part in _parts():
        if isinstance(part, QAbstractItemView) and part.accessibleName().startswith(table):
            return _cells(part, row, column)
    return []


def rows(table: str) -> list[list[str]]:
    """What a table says, row by row."""
    for part in _parts():
        if isinstance(part, QAbstractItemView) and part.accessibleName().startswith(table):
            model = part.model()
            return [
                [str(model.index(row, column).data()) for column in range(model.columnCount())] for row in range(model.rowCount())
            ]
    return []


def opening(name: str) -> Box | None:
    """Where an opening is on the elevation."""
    window = _main()
    found = next((one for one in window.document.room.openings if one.id == name), None)
    return None if found is None else on_wall(found.wall, found.left_mm, found.sill_mm, found.right_mm, found.head_mm)


def panel(mark: str) -> Box | None:
    """Where a panel's last face is on the elevation."""
    setout = _main().document.setout
    found = next((one for one in setout.panels if one.mark == mark), None)
    return None if found is None else on_wall(found.faces[-1].wall, *face_box_mm(setout, found.faces[-1]))


def on_wall(wall: int, left_mm: float, bottom_mm: float, right_mm: float, top_mm: float) -> Box:
    """Where a piece of a wall is on the screen."""
    view = _main().elevation
    foot, head = view.wall_to_screen(wall, left_mm, bottom_mm), view.wall_to_screen(wall, right_mm, top_mm)
    here = QRectF(foot, head).normalized().toRect()
    return _box(QRect(view.mapToGlobal(here.topLeft()), here.size()))


def is_settled() -> bool:
    """Whether the set-out on show is the one worked out in full."""
    return _main().document.is_full


def _main() -> Window:
    return next(one for one in QApplication.topLevelWidgets() if isinstance(one, Window))


def _parts() -> Iterator[QWidget]:
    """What can be reached now: the open menu or list, else the window in front."""
    top = QApplication.activePopupWidget() or front()
    if top is not None:
        yield from (part for part in (top, *top.findChildren(QWidget)) if part.isVisible())


def _lettered() -> Iterator[tuple[Box, str, str]]:
    """Every lettered or named part with where it is seen, what it says and its kind."""
    for part in _parts():
        if isinstance(part, QMenu | QMenuBar):
            for action in part.actions():
                if action.isVisible() and action.text():
                    yield _seen(part, part.actionGeometry(action)), _plain(action.text()), "menu"
        elif isinstance(part, QTabBar):
            for place in range(part.count()):
                yield _seen(part, part.tabRect(place)), _plain(part.tabText(place)), "tab"
        elif isinstance(part, QAbstractItemView):
            model = part.model()
            for row in range(min(model.rowCount(), 400) if model else 0):
                index = model.index(row, 0)
                yield _seen(part.viewport(), part.visualRect(index)), str(index.data()), "item"
        said, buddy = _said(part), part.buddy() if isinstance(part, QLabel) else None
        if buddy is not None:
            yield _seen(buddy, buddy.rect()), said, _kind(buddy)
        for one in dict.fromkeys((said, _plain(part.accessibleName()))):
            if one:
                yield _seen(part, part.rect()), one, _kind(part)


def _said(part: QWidget) -> str:
    for name in WORDS:
        ask = getattr(part, name, None)
        # Some parts have attributes of their own under such a name.
        if isinstance(ask, BuiltinMethodType) and not isinstance(part, QLineEdit):
            text = ask()
            if isinstance(text, str) and text:
                return _plain(text)
    if isinstance(part, QStatusBar):
        return part.currentMessage()
    return ""


def _kind(part: QWidget) -> str:
    for kind, word in ((QLabel, "label"), (QLineEdit, "line"), (QComboBox, "box"), (QGroupBox, "group")):
        if isinstance(part, kind):
            return word
    return "button" if hasattr(part, "click") else "part"


def _name(part: QWidget) -> str:
    return part.accessibleName() or _said(part) or part.objectName()


def _plain(text: str) -> str:
    return text.split("\t")[0].replace("&", "")


def _cells(view: QAbstractItemView, row: str | int, column: str) -> list[Found]:
    model = view.model()
    titles = [str(model.headerData(one, Qt.Orientation.Horizontal)) for one in range(model.columnCount())]
    at = titles.index(column)
    for number in range(model.rowCount()):
        if number == row or any(str(model.index(number, one).data()) == row for one in range(model.columnCount())):
            index: QModelIndex = model.index(number, at)
            return [(_seen(view.viewport(), view.visualRect(index)), str(index.data()))]
    return []


def _seen(part: QWidget, place: QRect) -> Box:
    """The piece of a part that is not scrolled out of sight; empty where none is."""
    seen = place.intersected(part.visibleRegion().boundingRect())
    return _box(QRect(part.mapToGlobal(seen.topLeft()), seen.size()))


def _box(rect: QRect) -> Box:
    corner: QPoint = rect.topLeft()
    return corner.x(), corner.y(), max(0, rect.width()), max(0, rect.height())


ANSWERS: Mapping[str, Callable[..., object]] = {
    one.__name__: one for one in (front_window, focus, words, texts, value, cell, rows, opening, panel, on_wall, is_settled)
}
