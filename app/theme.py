"""Colours and letter sizes of the window: our own, light, and chosen so that hue never carries a meaning alone.

What the kit covers is cool and quiet, what must be made specially is warm; blue and orange stay apart for colour-blind eyes.
"""

from collections.abc import Mapping
from types import MappingProxyType

from PySide6.QtGui import QColor, QPalette

from core.room import OpeningKind
from core.setout.result import Level, PanelKind

PAPER = "#f8f6f1"
BENCH = "#ece8de"
CARD = "#fffdf8"
EDGE = "#b9b1a0"
INK = "#20262b"
QUIET_INK = "#565b5f"
FIELD_EDGE = "#7d766a"

BOARD = "#1d3138"
BOARD_EDGE = "#3d555d"
CHALK = "#f6f2e6"
QUIET_CHALK = "#b7c4c6"
FEWER = "#8fd3ff"
MORE = "#ffb45c"

ACCENT = "#0b5c8a"
ACCENT_WASH = "#d6e7f1"
ON_ACCENT = "#ffffff"

PANEL_FILLS: Mapping[PanelKind, str] = MappingProxyType(
    {
        "full": "#e3e6e4",
        "half-height": "#cddfe6",
        "half-width": "#bcd6e2",
        "quarter": "#a9cbdc",
        "corner": "#b5dccf",
        "closer": "#f6dc9a",
        "shaped": "#f4b78a",
        "shaped-corner": "#e7a3b8",
    }
)
PANEL_EDGE = "#4a5358"
HATCHED_KINDS: frozenset[PanelKind] = frozenset({"closer", "shaped", "shaped-corner"})
"""Kinds that also carry a pattern, so they show without colour."""

OPENING_FILL = "#ffffff"
OPENING_EDGE = "#20262b"
OPENING_SELECTED = ACCENT
TIMBER = "#d8bf94"
TIMBER_EDGE = "#7a5f2e"
MOUNT_LANDS = "#0b5c8a"
MOUNT_MISSES = "#b3390b"
SNAP_LINE = "#7b2d8b"
SHELL = "#8fa5ad"

LEVEL_INKS: Mapping[Level, str] = MappingProxyType({"error": "#a3270b", "warning": "#7a4b00", "note": "#2c566f"})
LEVEL_SIGNS: Mapping[Level, str] = MappingProxyType({"error": "STOP", "warning": "LOOK", "note": "NOTE"})
"""Words, not hues, tell the levels apart."""

OPENING_NAMES: Mapping[OpeningKind, str] = MappingProxyType(
    {"door": "Door", "window": "Window", "outlet": "Outlet", "switch": "Switch", "niche": "Niche"}
)

TEXT_PX = 14
SMALL_PX = 12
HEADING_PX = 13
BIG_PX = 40
"""Read at arm's length across a bench."""

LEAST_TEXT_CONTRAST = 4.5


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two ``#rrggbb`` colours, 1 to 21, after WCAG 2.1 (relative luminance and contrast ratio)."""
    lighter, darker = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(colour: str) -> float:
    red, green, blue = (_linear(int(colour[i : i + 2], 16) / 255) for i in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else float(((channel + 0.055) / 1.055) ** 2.4)


TEXT_PAIRS: tuple[tuple[str, str], ...] = (
    *((INK, ground) for ground in (PAPER, BENCH, CARD, OPENING_FILL, TIMBER, ACCENT_WASH, *PANEL_FILLS.values())),
    *((QUIET_INK, ground) for ground in (PAPER, BENCH, CARD)),
    *((chalk, BOARD) for chalk in (CHALK, QUIET_CHALK, FEWER, MORE)),
    *((ink, ground) for ink in LEVEL_INKS.values() for ground in (CARD, BENCH, ACCENT_WASH)),
    (ON_ACCENT, ACCENT),
    (ACCENT, CARD),
    (ACCENT, BENCH),
)
"""Every ink and the grounds it is written on."""


def palette() -> QPalette:
    """The same colours for what the style draws itself."""
    roles = QPalette.ColorRole
    made = QPalette()
    for role, colour in (
        (roles.Window, BENCH),
        (roles.WindowText, INK),
        (roles.Base, "#ffffff"),
        (roles.AlternateBase, CARD),
        (roles.Text, INK),
        (roles.Button, CARD),
        (roles.ButtonText, INK),
        (roles.Highlight, ACCENT),
        (roles.HighlightedText, ON_ACCENT),
        (roles.PlaceholderText, QUIET_INK),
    ):
        made.setColor(role, QColor(colour))
    made.setColor(QPalette.ColorGroup.Disabled, roles.ButtonText, QColor(QUIET_INK))
    return made


def stylesheet() -> str:
    """The window's look as a Qt style sheet."""
    return f"""
    QMainWindow, QDialog, QMessageBox {{ background: {BENCH}; }}
    QWidget {{ color: {INK}; font-size: {TEXT_PX}px; }}
    QMenuBar {{ background: {BENCH}; padding: 2px 6px; }}
    QMenuBar::item:selected, QMenu::item:selected {{ background: {ACCENT}; color: {ON_ACCENT}; }}
    QMenu {{ background: {CARD}; border: 1px solid {EDGE}; }}
    QMenu::item {{ padding: 5px 26px; }}
    QMenu::item:disabled {{ color: {QUIET_INK}; }}
    QStatusBar {{ background: {BENCH}; color: {QUIET_INK}; }}
    QFrame#board {{ background: {BOARD}; border: none; }}
    QFrame#board QLabel {{ color: {CHALK}; background: transparent; }}
    QFrame#strip, QWidget#bench {{ background: {BENCH}; }}
    QFrame#card {{ background: {CARD}; border: 1px solid {EDGE}; border-radius: 3px; }}
    QLabel#heading {{ font-size: {HEADING_PX}px; font-weight: 700; color: {INK}; }}
    QLabel#quiet {{ font-size: {SMALL_PX}px; color: {QUIET_INK}; }}
    QLabel#fault {{ font-size: {SMALL_PX}px; color: {LEVEL_INKS["error"]}; }}
    QLineEdit {{ background: #ffffff; border: 1px solid {FIELD_EDGE}; border-radius: 2px; padding: 2px 6px;
        selection-background-color: {ACCENT}; selection-color: {ON_ACCENT}; }}
    QLineEdit:focus {{ border: 2px solid {ACCENT}; padding: 1px 5px; }}
    QLineEdit[wrong="true"] {{ border: 2px solid {LEVEL_INKS["error"]}; padding: 1px 5px; }}
    QPushButton, QToolButton {{ background: {CARD}; border: 1px solid {FIELD_EDGE}; border-radius: 2px; padding: 5px 12px; }}
    QPushButton:hover, QToolButton:hover {{ background: {ACCENT_WASH}; }}
    QPushButton:focus, QToolButton:focus {{ border: 2px solid {ACCENT}; padding: 4px 11px; }}
    QToolButton:checked {{ background: {ACCENT}; color: {ON_ACCENT}; font-weight: 700; }}
    QPushButton:disabled, QToolButton:disabled {{ color: {QUIET_INK}; background: {BENCH}; }}
    QListView {{ background: {CARD}; border: none; outline: none; }}
    QScrollArea#middle, QScrollArea#middle > QWidget > QWidget#inspector {{ background: {BENCH}; }}
    QSplitter::handle {{ background: {BENCH}; }}
    QScrollBar:vertical {{ background: {BENCH}; width: 12px; margin: 0; }}
    QScrollBar:horizontal {{ background: {BENCH}; height: 12px; margin: 0; }}
    QScrollBar::handle {{ background: {FIELD_EDGE}; border-radius: 4px; margin: 2px; min-height: 28px; min-width: 28px; }}
    QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
    QScrollBar::add-page, QScrollBar::sub-page {{ background: {BENCH}; }}
    QToolTip {{ background: {CARD}; color: {INK}; border: 1px solid {FIELD_EDGE}; padding: 3px; }}
    """
