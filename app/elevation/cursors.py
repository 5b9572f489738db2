"""The cursor that tells what a press would do."""

from PySide6.QtCore import Qt

from app.elevation.hits import BODY, Grip


def cursor_shape(grip: Grip | None, *, panning: bool, ready: bool) -> Qt.CursorShape:
    """The shape over a part of an opening, or while panning or ready to pan."""
    if panning:
        return Qt.CursorShape.ClosedHandCursor
    if ready:
        return Qt.CursorShape.OpenHandCursor
    if grip is None:
        return Qt.CursorShape.ArrowCursor
    if grip == BODY:
        return Qt.CursorShape.SizeAllCursor
    if len(grip) == 1:
        return Qt.CursorShape.SizeHorCursor if grip & {"left", "right"} else Qt.CursorShape.SizeVerCursor
    falls = grip in ({"left", "head"}, {"right", "sill"})
    return Qt.CursorShape.SizeFDiagCursor if falls else Qt.CursorShape.SizeBDiagCursor
