"""Openings on an elevation: their edges, a cross for the void, and a label with name and size."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import chain

from core.drawing import Box, Item, Path, Pen, Text, item_box
from core.drawing.items import rectangle
from core.drawing.lettering import shorten
from core.room import Opening
from core.setout.result import SetOut
from core.sheets.elevation_panels import led_label
from core.sheets.placing import Placer, around, block_box, stacked
from core.sheets.view import View
from core.units import format_length

_EDGE, _VOID = Pen(0.5), Pen(0.13)
LONGEST_NAME_MM = 45.0


@dataclass(slots=True)
class Holes:
    lines: list[Item] = field(default_factory=list)
    labels: list[Item] = field(default_factory=list)


def openings(setout: SetOut, view: View, placer: Placer) -> Holes:
    """Every opening that reaches into the view, cut to it; a label that does not fit inside stands beside it."""
    holes = Holes()
    for opening in setout.room.openings:
        if opening.wall != view.part.wall:
            continue
        box = view.clipped(opening.left_mm, opening.sill_mm, opening.right_mm, opening.head_mm)
        if box is None:
            continue
        holes.lines += [
            rectangle(box, _EDGE, fill=1.0),
            Path(((box.left, box.top), (box.right, box.bottom)), _VOID),
            Path(((box.left, box.bottom), (box.right, box.top)), _VOID),
        ]
        holes.labels += _label(setout, view, opening, box, placer)
    return holes


def opening_words(setout: SetOut, opening: Opening) -> tuple[str, ...]:
    """An opening's name, and its width and height, as lines."""
    units = setout.room.display_units
    width, height = (format_length(mm, units, with_unit=False) for mm in (opening.width_mm, opening.height_mm))
    return shorten(opening.id, LONGEST_NAME_MM, 2.5), f"{width} × {height}"


def _label(setout: SetOut, view: View, opening: Opening, box: Box, placer: Placer) -> list[Item]:
    words = opening_words(setout, opening)
    narrow = (words[0], *words[1].replace("× ", "×\n").split("\n"))
    for lines, height in ((words, 3.5), (words, 2.5), (narrow, 2.5)):
        found = placer.first_free(_fitting(lines, height, box))
        if found is not None:
            return [*(rectangle(item_box(line).grown(0.5), None, fill=1.0) for line in found), *found]
    placer.claim(box)
    inside = (stacked(spot, lines, 2.5) for lines in (words, narrow) for spot in around(box, 60.0))
    on_wall = (lines for lines in inside if view.field.holds(block_box(lines)))
    anywhere = (stacked(spot, words, 2.5) for spot in around(box, 60.0))
    found = placer.first_led(chain(on_wall, anywhere), box.centre)
    return [*led_label(found, box.centre), *found] if found else []


def _fitting(words: tuple[str, ...], height: float, box: Box) -> Iterator[tuple[Text, ...]]:
    for spot in around(box, 0.0, 3.0):
        lines = stacked(spot, words, height)
        if all(box.grown(-0.8).holds(item_box(line)) for line in lines):
            yield lines
