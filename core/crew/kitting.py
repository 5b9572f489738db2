"""Kitting lists: which parts are counted out for which bench, round by round, in the order in which panels are wanted."""

from collections import Counter
from dataclasses import dataclass
from itertools import islice

from core.crew.standing import standing
from core.crew.work import hanging_order
from core.setout.result import Panel, SetOut
from core.takeoff import DesignParts


@dataclass(frozen=True)
class KitList:
    """What one bench gets at once: panels to build, left to right in hanging order, and all their parts."""

    round: int
    bench: int
    panels: tuple[Panel, ...]
    parts: Counter[str]

    @property
    def designs(self) -> dict[str, int]:
        """How many panels of each design, in the order in which they come."""
        return dict(Counter(panel.design for panel in self.panels))


def kit_lists(setout: SetOut, parts: DesignParts) -> tuple[KitList, ...]:
    """Lists for every panel still to build; rounds and benches count from 1."""
    crew = setout.room.crew
    states = standing(setout).by_mark
    waiting = iter([panel for panel in hanging_order(setout) if states[panel.mark] == "to build"])
    found: list[KitList] = []
    while panels := tuple(islice(waiting, crew.kits_per_bench)):
        round_before, bench = divmod(len(found), crew.benches)
        needed: Counter[str] = Counter()
        for panel in panels:
            needed.update(parts.get(panel.design, {}))
        found.append(KitList(round_before + 1, bench + 1, panels, +needed))
    return tuple(found)
