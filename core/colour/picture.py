"""A picture brought onto a grid: every cell of it the mean light of what lies under the cell."""

from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from core.colour.dither import Picks, dithered, nearest
from core.colour.lab import Floats, light_of, linear
from core.colouring import PictureRule

Spans = tuple[tuple[float, float], ...]
"""Begin and end of cells, as parts of the picture's width or height, from the left and from the top."""


@lru_cache(maxsize=16)
def picks_of(picture: PictureRule, across: Spans, down: Spans, colours: tuple[str, ...]) -> Picks:
    """Which of the colours, written ``#rrggbb``, every cell takes: shape (len(down), len(across)).

    Spans may reach beyond the picture on either side; what lies there does not count.
    """
    light = linear(np.frombuffer(picture.cells, dtype=np.uint8).reshape(picture.lines, picture.columns, 3) / 255)
    seen = np.tensordot(_shares(down, picture.lines), light, axes=(1, 0))
    seen = np.tensordot(_shares(across, picture.columns), seen, axes=(1, 1)).swapaxes(0, 1)
    choose = dithered if picture.way == "dithered" else nearest
    return choose(seen, np.array([light_of(colour) for colour in colours]))


def _shares(spans: Sequence[tuple[float, float]], count: int) -> Floats:
    """How much of each span every cell of the picture takes up, shape (spans, count); rows add up to 1."""
    edges = np.arange(count + 1)
    found = np.zeros((len(spans), count))
    for row, (begin, end) in zip(found, spans, strict=True):
        low, high = max(0.0, begin) * count, min(1.0, end) * count
        row[:] = np.clip(np.minimum(edges[1:], high) - np.maximum(edges[:-1], low), 0.0, None)
        row /= row.sum()
    return found
