"""Which holes to move, so that panels moved alike are built by one sheet and moving costs less than the timber it saves.

A panel with moved holes is a design of its own: its sheet takes a set-up, which panels whose holes end up alike share. Blocking
or a doubling piece takes its minutes at every point. Sheets are taken one after the other, that first which saves most.
"""

import heapq
from collections import defaultdict
from collections.abc import Iterable, Sequence, Set
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import product

from core.bond.shape import PanelShape
from core.frame.places import Hole, Place, can_stand, holes_in

MOST_WAYS = 100
"""So many ways to move a panel's holes are tried at most."""
MOST_PLACES = 3
"""So many places are tried for each hole at most, the nearest."""
_BEYOND = 1e6
"""Minutes for a hole that nothing but a move helps: more than any set-up."""

Drilled = tuple[PanelShape, frozenset[Hole]]
"""A shape, and the holes it gets instead of its own; the same for a flat panel and its mirror image."""


@dataclass(frozen=True, slots=True)
class Wish:
    """A panel with holes that could go elsewhere, each with its places: those that ``must``, for want of any other remedy, and
    those that ``may``, since timber could be cut for them as well.
    """

    mark: str
    shape: PanelShape
    must: tuple[tuple[Hole, tuple[Place, ...]], ...]
    may: tuple[tuple[Hole, tuple[Place, ...]], ...]


@dataclass(frozen=True, slots=True)
class _Way:
    moves: tuple[tuple[Hole, Place], ...]
    saved: float
    steps: int

    def is_better_than(self, other: "_Way") -> bool:
        return (self.saved, -self.steps) > (other.saved, -other.steps)


def drilled(shape: PanelShape, holes: Set[Hole]) -> Drilled:
    """What makes two panels with moved holes alike."""
    base, is_turned, is_even = _based(shape)
    found = frozenset(_turned(base, holes) if is_turned else holes)
    # What is its own mirror image hangs either way.
    return base, frozenset(min(sorted(found), sorted(_turned(base, found)))) if is_even else found


def usual_way(shape: PanelShape) -> PanelShape:
    """The shape or its mirror image, the same whichever is given."""
    return _based(shape)[0]


@lru_cache(maxsize=1024)
def _based(shape: PanelShape) -> tuple[PanelShape, bool, bool]:
    """The shape or its mirror image, the same whichever is given; whether it is the other one, and whether they are the same."""
    base, is_turned = shape.canonical()
    return base, is_turned, base.corner is None and base.turned() == base


def _turned(shape: PanelShape, holes: Iterable[Hole]) -> list[Hole]:
    return [(leg, layer, shape.legs[0] - line) for leg, layer, line in holes]


def after(shape: PanelShape, moves: Iterable[tuple[Hole, Place]]) -> frozenset[Hole]:
    """The holes of a shape once some are moved."""
    moved = dict(moves)
    return (holes_in(shape) - moved.keys()) | {place.hole for place in moved.values()}


def chosen_moves(
    wishes: Sequence[Wish], *, setup: float, piece: float, barred: Set[Drilled] = frozenset()
) -> dict[str, dict[Hole, Place]]:
    """Which holes move where, by mark, for panels that are better off so.

    ``setup`` are the minutes of a sheet more, ``piece`` those of timber for one point. ``barred`` cannot be built.
    """
    alike: defaultdict[Wish, list[str]] = defaultdict(list)
    for wish in wishes:
        alike[replace(wish, mark="")].append(wish.mark)
    groups = list(alike.items())
    sheets: dict[tuple[int, frozenset[Hole]], dict[int, _Way]] = {}
    bases: dict[PanelShape, int] = {}
    no = {(bases.setdefault(base, len(bases)), holes) for base, holes in barred}
    for number, (wish, _) in enumerate(groups):
        base = bases.setdefault(_based(wish.shape)[0], len(bases))
        for holes, way in _ways(wish, piece):
            if (base, holes) not in no:
                known = sheets.setdefault((base, holes), {})
                if number not in known or way.is_better_than(known[number]):
                    known[number] = way
    taken = _taken(list(sheets.values()), [len(marks) for _, marks in groups], setup)
    return {mark: dict(way.moves) for number, way in taken.items() for mark in groups[number][1]}


def _taken(sheets: list[dict[int, _Way]], panels: list[int], setup: float) -> dict[int, _Way]:
    """The way of every group of panels that is moved, by group; ``panels`` are how many are in each.

    What a sheet saves only falls as others are taken.
    """
    done: dict[int, _Way] = {}

    def worth(sheet: dict[int, _Way]) -> tuple[float, int]:
        left = [(panels[number], way) for number, way in sheet.items() if number not in done]
        return sum(n * way.saved for n, way in left) - setup, -sum(n * way.steps for n, way in left)

    heap = [(-saved, -nearness, at) for at, sheet in enumerate(sheets) for saved, nearness in [worth(sheet)] if saved > 0]
    heapq.heapify(heap)
    while heap:
        was, far, at = heapq.heappop(heap)
        saved, nearness = worth(sheets[at])
        if (-saved, -nearness) != (was, far):
            if saved > 0:
                heapq.heappush(heap, (-saved, -nearness, at))
            continue
        for number, way in sheets[at].items():
            done.setdefault(number, way)
    return done


@lru_cache(maxsize=1024)
def _ways(wish: Wish, piece: float) -> tuple[tuple[frozenset[Hole], _Way], ...]:
    """The ways to move a panel's holes that leave pin-hole bricks room, with the holes of the sheet it then has.

    Either all move that can, or only those that must.
    """
    found = []
    for moving in dict.fromkeys(((*wish.must, *wish.may), wish.must)):
        most = MOST_PLACES
        while most > 1 and most ** len(moving) > MOST_WAYS:
            most -= 1
        saved = _BEYOND * len(wish.must) + piece * (len(moving) - len(wish.must))
        for picked in product(*(places[:most] for _, places in moving)) if moving else ():
            moves = tuple((hole, place) for (hole, _), place in zip(moving, picked, strict=True))
            holes = after(wish.shape, moves)
            if len(holes) == len(holes_in(wish.shape)) and can_stand(wish.shape, holes):
                found.append((drilled(wish.shape, holes)[1], _Way(moves, saved, sum(place.steps for place in picked))))
    return tuple(found)
