"""The key at the foot of an elevation."""

from collections.abc import Callable

from core.drawing import Box, Item, Path, Pen, Text
from core.drawing.items import rectangle
from core.drawing.lettering import shorten
from core.language import tr
from core.setout.result import PanelKind
from core.sheets.draft import scale_bar
from core.sheets.symbols import corner_edge, mount, panel_fill, panel_outline

_ROW_MM = 6.0
_SYMBOL = Box(0.0, 0.0, 8.0, 4.4)
_DASHED = Pen(0.18, (2.0, 1.0), grey=0.45)

Symbol = Callable[[Box], list[Item]]


def legend(box: Box) -> list[Item]:
    """Eight symbols in two columns and the bar to check the scale with."""
    entries: tuple[tuple[Symbol, str], ...] = (
        (_panel("full"), tr("panel of the kit")),
        (_panel("closer"), tr("closer: plain, own width or height")),
        (_panel("shaped"), tr("shaped: notch or cut-out")),
        (_leg, tr("corner panel: goes on round the corner")),
        (_mount(lands=True), tr("mounting point, timber behind it")),
        (_mount(lands=False), tr("mounting point without timber: see frame list")),
        (_timber, tr("timber behind the panels")),
        (_opening, tr("opening, nothing here")),
    )
    items: list[Item] = []
    width = box.width / 2
    for i, (symbol, words) in enumerate(entries):
        x, y = box.left + (i // 4) * width, box.top + 1.0 + (i % 4) * (_ROW_MM - 0.6)
        cell = Box(x, y, x + _SYMBOL.width, y + _SYMBOL.height)
        items += symbol(cell)
        items.append(Text((cell.right + 2, cell.bottom - 1.0), shorten(words, width - 13, 2.5), 2.5))
    return [*items, *scale_bar(box)]


def _ring(box: Box) -> list[tuple[float, float]]:
    return [(box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom)]


def _panel(kind: PanelKind) -> Symbol:
    return lambda box: [*panel_fill(kind, _ring(box), ()), *panel_outline(kind, _ring(box), ())]


def _leg(box: Box) -> list[Item]:
    return [*_panel("corner")(box), corner_edge(box.left, box.top, box.bottom, 1.0)]


def _mount(*, lands: bool) -> Symbol:
    return lambda box: mount(box.centre, 0.6, lands=lands)


def _timber(box: Box) -> list[Item]:
    return [rectangle(Box(box.left + 2, box.top, box.right - 2, box.bottom), _DASHED)]


def _opening(box: Box) -> list[Item]:
    a, b, c, d = _ring(box)
    return [rectangle(box, Pen(0.5)), Path((a, c), Pen(0.13)), Path((b, d), Pen(0.13))]
