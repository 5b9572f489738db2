"""What is said to a screen reader of a part that is drawn and not made of widgets."""

from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtWidgets import QWidget


def describe(widget: QWidget, words: str, *, aloud: bool = False) -> None:
    """Keep words as the widget's description; ``aloud`` has them read out as well, where a screen reader listens."""
    if words != widget.accessibleDescription():
        widget.setAccessibleDescription(words)
    if aloud and words and QAccessible.isActive():
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(widget, words))
