"""Widgets that bring the ground below them along: when they change, nothing that lies below them is painted."""

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtWidgets import QWidget


class Opaque(QObject):
    """Has a widget taken for one that paints all of itself, which it must do. Lives as long as the widget."""

    def __init__(self, widget: QWidget) -> None:
        super().__init__(widget)
        self._widget = widget
        widget.installEventFilter(self)
        widget.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.Polish, QEvent.Type.StyleChange):
            # A style sheet that gives a ground has just taken it away.
            self._widget.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        return False
