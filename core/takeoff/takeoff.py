"""The take-off: what every panel, design, row, wall and the whole room takes.

Invariant: the room is the sum of its panels, the starter ring and the timber, and so is the sum of its walls. A corner panel
counts with the wall its mark names, the one on its right.
"""

from collections import Counter, defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import TypeVar

from core.bond.result import Bond
from core.setout.result import Panel, SetOut
from core.takeoff.material import SCREW, Count, Material, packer, times
from core.takeoff.ring import Ring, starter_ring

DesignParts = Mapping[str, Mapping[str, int]]
"""Parts by name for each design, plugs included, as bonding finds them."""
_THINNEST_PACKER_MM = 0.1

Key = TypeVar("Key", int, str)

_Sort = tuple[int, tuple[tuple[int, int], ...]]
"""Panels of one sort take the same: the one count of what they are laid of, and how many points are screwed on which wall."""


@dataclass(frozen=True)
class TakeOff:
    """Counts of materials. Panels that take the same share one count; treat counts as read-only."""

    per_panel: Mapping[str, Count]
    """What one panel takes, by mark: what it is laid of, screws and packers."""
    laid: Mapping[str, Count]
    """What one panel is laid of, by mark; plugs are, screws and packers are not."""
    by_design: Mapping[str, Count]
    """What all panels of a design take."""
    by_row: Mapping[int, Count]
    """What the panels of a row take."""
    by_wall: Mapping[int, Count]
    """What a wall takes: its panels, its stretch of the starter ring, its timber."""
    panels: Count
    ring: Ring
    timber: Count
    room: Count
    without_parts: tuple[str, ...]
    """Designs whose parts are not known; their panels count screws and packers only."""


def parts_of(bonds: Mapping[str, Bond]) -> DesignParts:
    """The parts of every bonded design."""
    return {name: bond.parts for name, bond in bonds.items()}


def take_off(
    setout: SetOut,
    parts: DesignParts,
    *,
    timber: Mapping[int, Count] | None = None,
    own: Mapping[str, Count] | None = None,
) -> TakeOff:
    """The take-off of a set-out. ``timber`` is by wall; without it the panels and the starter ring are counted.

    ``own`` gives what a panel is laid of, by mark, where that is not its design's parts: in colours, or in a bond of its own.
    """
    counter = _PanelCounter(setout, parts, own or {})
    per_panel = {panel.mark: counter.count(panel) for panel in setout.panels}
    ring = starter_ring(setout)
    by_design = _summed(setout, per_panel, lambda panel: panel.design)
    panels = _total(by_design)
    found = TakeOff(
        per_panel=per_panel,
        laid={panel.mark: counter.laid(panel) for panel in setout.panels},
        by_design=by_design,
        by_row=_summed(setout, per_panel, lambda panel: panel.row),
        by_wall=_with(_summed(setout, per_panel, _mark_wall), ring.by_wall()),
        panels=panels,
        ring=ring,
        timber=Counter(),
        room=panels + _total(ring.by_wall()),
        without_parts=tuple(design.name for design in setout.designs if design.name not in parts),
    )
    return with_timber(found, timber) if timber else found


def with_timber(takeoff: TakeOff, timber: Mapping[int, Count]) -> TakeOff:
    """A take-off without timber, and the timber of every wall."""
    total = _total(timber)
    return replace(takeoff, by_wall=_with(takeoff.by_wall, timber), timber=total, room=takeoff.room + total)


class _PanelCounter:
    """Counts what panels take, each sort of panel once."""

    def __init__(self, setout: SetOut, parts: DesignParts, own: Mapping[str, Count]) -> None:
        self._packing_mm = {shell.wall: shell.packing_mm for shell in setout.walls}
        self._parts = {
            name: Counter({Material(part): number for part, number in bricks.items() if number}) for name, bricks in parts.items()
        }
        self._own = own
        self._kept: dict[_Sort, Count] = {}
        self._nothing: Count = Counter()

    def laid(self, panel: Panel) -> Count:
        """What a panel is laid of."""
        own = self._own.get(panel.mark)
        return own if own is not None else self._parts.get(panel.design, self._nothing)

    def count(self, panel: Panel) -> Count:
        """What a panel takes, screws and packers included."""
        points = tuple((face.wall, len(face.mounts)) for face in panel.faces)
        laid = self.laid(panel)
        sort = (id(laid), points)
        if sort not in self._kept:
            self._kept[sort] = laid + self._hardware(points)
        return self._kept[sort]

    def _hardware(self, points: tuple[tuple[int, int], ...]) -> Count:
        """A screw and a packer for every mounting point."""
        found: Count = Counter()
        for wall, number in points:
            if number:
                found[Material(SCREW)] += number
                if self._packing_mm[wall] >= _THINNEST_PACKER_MM:
                    found[packer(self._packing_mm[wall])] += number
        return found


def _mark_wall(panel: Panel) -> int:
    """The wall a panel's mark names: where its last face is."""
    return panel.faces[-1].wall


def _summed(setout: SetOut, per_panel: Mapping[str, Count], key: Callable[[Panel], Key]) -> dict[Key, Count]:
    """Counts added up by a key of the panel; equal panels are counted first and multiplied once."""
    sorts: defaultdict[Key, Counter[int]] = defaultdict(Counter)
    kept: dict[int, Count] = {}
    for panel in setout.panels:
        count = per_panel[panel.mark]
        kept[id(count)] = count
        sorts[key(panel)][id(count)] += 1
    found: dict[Key, Count] = {}
    for name, numbers in sorts.items():
        total: Count = Counter()
        for one, number in numbers.items():
            total.update(times(kept[one], number))
        found[name] = total
    return found


def _with(counts: Mapping[int, Count], more: Mapping[int, Count]) -> dict[int, Count]:
    """The counts of walls and more of some of them, in the walls' order."""
    return {wall: counts.get(wall, Counter()) + more.get(wall, Counter()) for wall in sorted({*counts, *more})}


def _total(counts: Mapping[Key, Count]) -> Count:
    found: Count = Counter()
    for count in counts.values():
        found.update(count)
    return found
