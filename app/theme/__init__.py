"""The window's look: the scheme of colours that is shown, how large its letters are, and what depends on neither.

Painters read ``shown`` and ``px`` whenever they paint. What they keep from one painting to the next they keep with ``kept``.
"""

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from functools import _lru_cache_wrapper, lru_cache
from types import MappingProxyType
from typing import TypeVar

from PySide6.QtGui import QColor

from app.theme.colours import DARK, LIGHT, Colours
from app.theme.contrast import contrast
from core.language import marked
from core.room import OpeningKind
from core.setout.result import Level, PanelKind

__all__ = [
    "DARK",
    "LIGHT",
    "Colours",
    "big_px",
    "contrast",
    "grey",
    "kept",
    "on_paper",
    "px",
    "shaded",
    "shown",
    "times",
    "wear",
]

HATCHED_KINDS: frozenset[PanelKind] = frozenset({"closer", "shaped", "shaped-corner"})
"""Kinds that also carry a pattern, so they show without colour."""
LEVEL_SIGNS: Mapping[Level, str] = MappingProxyType({"error": marked("STOP"), "warning": marked("LOOK"), "note": marked("NOTE")})
"""Words, not hues, tell the levels apart."""
OPENING_NAMES: Mapping[OpeningKind, str] = MappingProxyType(
    {
        "door": marked("Door"),
        "window": marked("Window"),
        "outlet": marked("Outlet"),
        "switch": marked("Switch"),
        "niche": marked("Niche"),
    }
)

TEXT_PX = 14
SMALL_PX = 12
HEADING_PX = 13
BIG_PX = 40
"""Read at arm's length across a bench."""

Result = TypeVar("Result")

shown: Colours = LIGHT
"""The scheme on show. Only ``wear`` and ``on_paper`` put another in its place."""
_times = 1.0
"""How many times as large as drawn for its letters are."""
_forgetting: list[Callable[[], None]] = []


def times() -> float:
    """How many times as large as usual letters are shown."""
    return _times


def px(size_px: float) -> int:
    """A size that grows with the letters, in whole pixels."""
    return round(size_px * _times)


def big_px(size_px: float) -> int:
    """The size of letters that are large as it is: they grow by as many pixels as text does."""
    return round(size_px) + px(TEXT_PX) - TEXT_PX


def wear(colours: Colours, times: float) -> None:
    """Take up a scheme and a size of letters; what was kept of another is forgotten. Those who show something are not told."""
    global shown, _times
    if (colours, times) != (shown, _times):
        shown, _times = colours, times
        _forget_kept()


@contextmanager
def on_paper() -> Iterator[None]:
    """While this lasts everything is painted as on paper: light, in letters of the size they are drawn for."""
    before = shown, _times
    wear(LIGHT, 1.0)
    try:
        yield
    finally:
        wear(*before)


def kept(most: int) -> Callable[[Callable[..., Result]], "_lru_cache_wrapper[Result]"]:
    """Keep so many results of a function, like ``lru_cache``, until the look changes."""

    def keep(work_out: Callable[..., Result]) -> "_lru_cache_wrapper[Result]":
        cached = lru_cache(maxsize=most)(work_out)
        _forgetting.append(cached.cache_clear)
        return cached

    return keep


def _forget_kept() -> None:
    for forget in _forgetting:
        forget()


def grey(light: float) -> QColor:
    """A grey of a printed sheet, from 0 black to 1 white, as the bench's page shows it: the other way about in the dark."""
    if not shown.is_dark:
        return QColor.fromRgbF(light, light, light)
    ground = QColor(shown.sheet)
    more = (1.0 - light) * 0.55
    return QColor.fromRgbF(*(part + (1.0 - part) * more for part in (ground.redF(), ground.greenF(), ground.blueF())))


def shaded(colour: str, percent: int) -> QColor:
    """A shade for lines on a ground of that colour: darker by so much in the light scheme, lighter by twice that in the dark.

    The same step shows less where there is little light to begin with.
    """
    ground = QColor(colour)
    return ground.lighter(2 * percent - 100) if shown.is_dark else ground.darker(percent)
