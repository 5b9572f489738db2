"""Kitting lists: which parts are counted out for which bench, round by round, in the order in which panels are wanted."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import islice

from core.crew.standing import standing
from core.crew.work import hanging_order
from core.setout.result import Panel, SetOut
from core.takeoff import Count


@dataclass(frozen=True)
class KitList:
    """What one bench gets at once: panels to build, left to right in hanging order, and all their parts."""

    round: int
    bench: int
    panels: tuple[Panel, ...]
    sheets: tuple[str, ...]
    """What each panel is built by: its design, or the bond of its own that it has instead."""
    parts: Count

    @property
    def designs(self) -> dict[str, int]:
        """How many panels of each design or own bond, in the order in which they come."""
        return dict(Counter(self.sheets))


def kit_lists(setout: SetOut, parts: Mapping[str, Count], own: Mapping[str, str] | None = None) -> tuple[KitList, ...]:
    """Lists for every panel still to build; rounds and benches count from 1.

    ``parts`` are what each panel is laid of, ``own`` what its bond is called where that is not its design's; both by mark.
    """
    crew = setout.room.crew
    states = standing(setout).by_mark
    waiting = iter([panel for panel in hanging_order(setout) if states[panel.mark] == "to build"])
    found: list[KitList] = []
    while panels := tuple(islice(waiting, crew.kits_per_bench)):
        round_before, bench = divmod(len(found), crew.benches)
        needed: Count = Counter()
        for panel in panels:
            needed.update(parts.get(panel.mark, {}))
        sheets = tuple((own or {}).get(panel.mark, panel.design) for panel in panels)
        found.append(KitList(round_before + 1, bench + 1, panels, sheets, +needed))
    return tuple(found)
