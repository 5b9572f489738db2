"""Small pictures and coloured rooms that tests share."""

import base64
from collections.abc import Sequence
from typing import Any

import numpy as np

from core.colouring import Colouring, PictureRule
from core.edits.revise import build, revise
from core.room import Room


def picture(lines: Sequence[Sequence[str]], **placed: Any) -> PictureRule:
    """A picture from colours written ``#rrggbb``, cell by cell from the top left."""
    data = b"".join(bytes.fromhex(cell[1:]) for line in lines for cell in line)
    return _picture(data, len(lines[0]), len(lines), placed)


def noise(columns: int, lines: int, seed: int, **placed: Any) -> PictureRule:
    """A picture nobody could love: every cell anything."""
    cells = np.random.default_rng(seed).integers(0, 256, size=(lines, columns, 3), dtype=np.uint8)
    return _picture(cells.tobytes(), columns, lines, placed)


def ramp(columns: int, lines: int, **placed: Any) -> PictureRule:
    """Black on the left, white on the right."""
    row = np.linspace(0, 255, columns).astype(np.uint8)
    cells = np.broadcast_to(row[None, :, None], (lines, columns, 3))
    return _picture(np.ascontiguousarray(cells).tobytes(), columns, lines, placed)


def _picture(data: bytes, columns: int, lines: int, placed: dict[str, Any]) -> PictureRule:
    place = {"wall": 0, "left_mm": 0.0, "bottom_mm": 0.0, "width_mm": 1000.0, "height_mm": 1000.0, "name": "test"} | placed
    return build(PictureRule, kind="picture", columns=columns, lines=lines, srgb=base64.b64encode(data).decode(), **place)


def coloured(room: Room, *rules: Any, **values: Any) -> Room:
    """The room with these rules and nothing else said about colours."""
    return revise(room, colouring=build(Colouring, rules=rules, **values))
