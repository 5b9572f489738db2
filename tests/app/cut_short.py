"""Whether everything in a window has room for its words."""

from PySide6.QtWidgets import QAbstractButton, QLabel, QScrollArea, QWidget

from app.window import Window


def cut_short(window: Window) -> list[str]:
    """Buttons and lines of words on show that have less room than they need, with both in pixels."""
    found = []
    for part in window.findChildren(QWidget):
        if not part.isVisible() or part.visibleRegion().isEmpty():
            continue
        if isinstance(part, QAbstractButton) and part.text() and part.width() < part.minimumSizeHint().width():
            found.append(f"{part.text()}: {part.width()} of {part.minimumSizeHint().width()} px")
        if isinstance(part, QLabel) and part.text() and not _fits(part) and not _scrolls(part):
            found.append(f"{part.text()}: {part.size().toTuple()} of {part.sizeHint().toTuple()} px")
    return found


def _fits(label: QLabel) -> bool:
    if label.wordWrap():
        return label.height() >= label.heightForWidth(label.width()) - 1
    return label.width() >= label.minimumSizeHint().width() and label.height() >= label.minimumSizeHint().height() - 1


def _scrolls(part: QWidget) -> bool:
    """Whether it lies in something of its own that scrolls."""
    above = part.parentWidget()
    while above is not None and not isinstance(above, Window):
        if isinstance(above, QScrollArea) and above.verticalScrollBar().maximum() > 0:
            return True
        above = above.parentWidget()
    return False
