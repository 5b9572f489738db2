"""The colours of each scheme: our own, and chosen so that hue never carries a meaning alone.

What the kit covers is cool and quiet, what must be made specially is warm; blue and orange stay apart for colour-blind eyes.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from core.setout.result import Level, PanelKind


@dataclass(frozen=True, slots=True)
class Colours:
    """One scheme. Every colour is ``#rrggbb``; every painter of the window takes its colours from the one that is shown."""

    is_dark: bool
    paper: str
    bench: str
    card: str
    field: str
    """Ground of what can be typed into."""
    edge: str
    ink: str
    quiet_ink: str
    field_edge: str
    board: str
    chalk: str
    quiet_chalk: str
    fewer: str
    more: str
    accent: str
    accent_wash: str
    on_accent: str
    panel_fills: Mapping[PanelKind, str]
    panel_edge: str
    opening_fill: str
    opening_edge: str
    timber: str
    timber_edge: str
    mount_misses: str
    snap_line: str
    shell: str
    level_inks: Mapping[Level, str]
    sheet: str
    """Ground of the bench's pages."""
    laid: str
    to_come: str
    pale_ink: str
    """Lines of the course below."""
    pale_ground: str
    pale_text: str
    knob_ground: str
    hole_ground: str
    hatch: str

    @property
    def mount_lands(self) -> str:
        return self.accent

    @property
    def text_pairs(self) -> tuple[tuple[str, str], ...]:
        """Every ink and the grounds it is written on."""
        grounds = (self.paper, self.bench, self.card, self.field, self.opening_fill, self.timber, self.accent_wash)
        return (
            *((self.ink, ground) for ground in (*grounds, *self.panel_fills.values(), self.sheet, self.hole_ground)),
            *((self.quiet_ink, ground) for ground in (self.paper, self.bench, self.card)),
            *((chalk, self.board) for chalk in (self.chalk, self.quiet_chalk, self.fewer, self.more)),
            *((ink, ground) for ink in self.level_inks.values() for ground in (self.card, self.bench, self.accent_wash)),
            (self.on_accent, self.accent),
            (self.accent, self.card),
            (self.accent, self.bench),
            (self.card, self.mount_misses),
            (self.card, self.snap_line),
            (self.pale_text, self.pale_ground),
        )

    @property
    def mark_pairs(self) -> tuple[tuple[str, str], ...]:
        """Every line and mark that means something, and the grounds it is drawn on."""
        marks = (self.panel_edge, self.accent, self.mount_misses, self.timber_edge, self.snap_line)
        return (
            *((mark, fill) for mark in marks for fill in (*self.panel_fills.values(), self.card)),
            *((self.field_edge, ground) for ground in (self.field, self.card, self.bench)),
            (self.timber_edge, self.timber),
        )


LIGHT = Colours(
    is_dark=False,
    paper="#f8f6f1",
    bench="#ece8de",
    card="#fffdf8",
    field="#ffffff",
    edge="#b9b1a0",
    ink="#20262b",
    quiet_ink="#565b5f",
    field_edge="#7d766a",
    board="#1d3138",
    chalk="#f6f2e6",
    quiet_chalk="#b7c4c6",
    fewer="#8fd3ff",
    more="#ffb45c",
    accent="#0b5c8a",
    accent_wash="#d6e7f1",
    on_accent="#ffffff",
    panel_fills=MappingProxyType(
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
    ),
    panel_edge="#4a5358",
    opening_fill="#ffffff",
    opening_edge="#20262b",
    timber="#d8bf94",
    timber_edge="#755a2a",
    mount_misses="#ab350a",
    snap_line="#7b2d8b",
    shell="#8fa5ad",
    level_inks=MappingProxyType({"error": "#a3270b", "warning": "#7a4b00", "note": "#2c566f"}),
    sheet="#ffffff",
    laid="#c9cecb",
    to_come="#b9b1a0",
    pale_ink="#9aa0a3",
    pale_ground="#f1f2f1",
    pale_text="#666c70",
    knob_ground="#d4d6d4",
    hole_ground="#ffe9b8",
    hatch="#8a9093",
)

DARK = Colours(
    is_dark=True,
    paper="#171c1f",
    bench="#1e2427",
    card="#262d31",
    field="#161b1d",
    edge="#515c61",
    ink="#eceae3",
    quiet_ink="#b3b9b8",
    field_edge="#8b959a",
    board="#0d171b",
    chalk="#f6f2e6",
    quiet_chalk="#b7c4c6",
    fewer="#8fd3ff",
    more="#ffb45c",
    accent="#84c3ec",
    accent_wash="#18435d",
    on_accent="#0c2130",
    panel_fills=MappingProxyType(
        {
            "full": "#3b4143",
            "half-height": "#304754",
            "half-width": "#2a4d62",
            "quarter": "#245270",
            "corner": "#245243",
            "closer": "#5b4a10",
            "shaped": "#6e3d12",
            "shaped-corner": "#6b2f4b",
        }
    ),
    panel_edge="#a3aeb3",
    opening_fill="#101416",
    opening_edge="#eceae3",
    timber="#5d4a2b",
    timber_edge="#d9b87a",
    mount_misses="#ff9a6e",
    snap_line="#dba6ec",
    shell="#6f8790",
    level_inks=MappingProxyType({"error": "#ffa38d", "warning": "#f2c063", "note": "#97cdec"}),
    sheet="#191e20",
    laid="#566064",
    to_come="#6b7679",
    pale_ink="#6f797d",
    pale_ground="#262c2f",
    pale_text="#a2aaac",
    knob_ground="#454e52",
    hole_ground="#5c470c",
    hatch="#7f888c",
)
SCHEMES: Mapping[str, Colours] = MappingProxyType({"light": LIGHT, "dark": DARK})
