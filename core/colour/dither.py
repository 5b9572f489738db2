"""From light to the nearest of a few colours: cell by cell, or with what is missed handed on to the cells beside."""

import numpy as np
from numpy.typing import NDArray

from core.colour.lab import Floats, distances, lab

Picks = NDArray[np.int16]
"""Which colour a cell takes, by its number."""

_SHARES = ((0, 1, 7 / 16), (1, -1, 3 / 16), (1, 0, 5 / 16), (1, 1, 1 / 16))
"""Lines down, columns right and the share each neighbour takes: R. W. Floyd and L. Steinberg, 1976."""
_REACH = 0.5
"""Errors carry no further than this beyond black and white, lest a tone out of reach of all colours bleed over half a wall."""


def nearest(light: Floats, colours: Floats) -> Picks:
    """The nearest colour of every cell. ``light`` has the shape (lines, columns, 3), ``colours`` (n, 3), both linear sRGB."""
    found: Picks = distances(lab(light.reshape(-1, 3)), lab(colours)).argmin(axis=1).astype(np.int16)
    return found.reshape(light.shape[:2])


def dithered(light: Floats, colours: Floats) -> Picks:
    """As ``nearest``, every cell's error handed on to the right and downwards.

    A cell waits only for those above and to its left, so a front of cells, each two columns left of the one above, goes at once.
    """
    lines, columns = light.shape[:2]
    # One column and line more on every side take what would be handed out of the picture.
    due = np.zeros((lines + 1, columns + 2, 3))
    due[:lines, 1:-1] = light
    found = np.zeros((lines, columns), dtype=np.int16)
    in_lab = lab(colours)
    for front in range(columns + 2 * (lines - 1)):
        rows = np.arange(max(0, -(-(front - columns + 1) // 2)), min(lines - 1, front // 2) + 1)
        if not rows.size:
            continue
        across = front - 2 * rows
        wanted = np.clip(due[rows, across + 1], -_REACH, 1 + _REACH)
        picks = distances(lab(wanted), in_lab).argmin(axis=1)
        found[rows, across] = picks
        missed = wanted - colours[picks]
        for down, right, share in _SHARES:
            due[rows + down, across + 1 + right] += share * missed
    return found
