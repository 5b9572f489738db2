"""Rooms with boxes of parts that tests share."""

from collections import Counter
from collections.abc import Mapping

from core.bond import bonds_for
from core.crew.standing import standing
from core.crew.work import hanging_order
from core.edits.buying import count_boxes
from core.room import Room
from core.setout import solve
from core.setout.result import SetOut
from core.takeoff import Material
from tests.core.bond.rooms import room


def square(size_mm: float = 1600.0) -> Room:
    """A small square room, one row of full panels."""
    return room(size_mm=size_mm)


def to_build(setout: SetOut) -> list[str]:
    """The marks still to build, in hanging order."""
    states = standing(setout).by_mark
    return [panel.mark for panel in hanging_order(setout) if states[panel.mark] == "to build"]


def takes(setout: SetOut) -> Counter[str]:
    """What the panels still to build take, laid as their designs."""
    bonds, wanted = bonds_for(setout), set(to_build(setout))
    total: Counter[str] = Counter()
    for panel in setout.panels:
        if panel.mark in wanted:
            total.update(bonds[panel.design].parts)
    return +total


def with_boxes(setout: SetOut, counts: Mapping[str, int], colour: str | None = None) -> SetOut:
    """The set-out after somebody counted the boxes."""
    found = setout.room
    for part, number in counts.items():
        found = count_boxes(found, Material(part, colour), number)
    return solve(found)
