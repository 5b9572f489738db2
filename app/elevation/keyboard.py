"""What each key means on the elevation, apart from what it then does."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from core.kit import Kit

ARROWS: dict[int, tuple[int, int]] = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, 1),
    Qt.Key.Key_Down: (0, -1),
}
LONG_STEP = 10


def arrow_step_mm(event: QKeyEvent, kit: Kit) -> tuple[float, float] | None:
    """How far an arrow key moves right and up: a pitch or a course, ten with Shift, a millimetre with Alt."""
    direction = ARROWS.get(event.key())
    if direction is None:
        return None
    modifiers = event.modifiers()
    across, up = kit.pitch_mm, kit.plate_mm * kit.plates_per_course
    if modifiers & Qt.KeyboardModifier.AltModifier:
        across = up = 1.0
    times = LONG_STEP if modifiers & Qt.KeyboardModifier.ShiftModifier else 1
    return direction[0] * across * times, direction[1] * up * times


def is_ours(event: QKeyEvent) -> bool:
    """Whether the elevation wants a key for itself although the window may hold a shortcut of the same name."""
    plain = not event.modifiers() & ~(Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.KeypadModifier)
    return event.key() in ARROWS or (plain and event.key() in OWN_KEYS)


OWN_KEYS = frozenset(
    {
        Qt.Key.Key_Plus,
        Qt.Key.Key_Equal,
        Qt.Key.Key_Minus,
        Qt.Key.Key_0,
        Qt.Key.Key_PageUp,
        Qt.Key.Key_PageDown,
        Qt.Key.Key_Delete,
        Qt.Key.Key_Escape,
        Qt.Key.Key_Space,
    }
)
