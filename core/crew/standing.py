"""How far the build has come: what the recorded facts mean for the panels of a set-out."""

from collections import Counter, defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from core.progress import STATES, PanelRecord, PanelState
from core.setout.result import Panel, SetOut

Place = tuple[int, int, int, str]
"""Wall, bottom in plates, left pitch and design."""

DONE: frozenset[PanelState] = frozenset({"hung", "taken out"})
"""Nothing is left to do for a panel in these states."""


@dataclass(frozen=True, slots=True)
class Orphan:
    """A panel that exists but has no place in the set-out any more. ``fits`` are marks of its design still to build."""

    record: PanelRecord
    fits: tuple[str, ...]
    suggestion: str | None
    """One of ``fits``, given to no other orphan."""


@dataclass(frozen=True)
class Standing:
    """The state of every panel by mark, how many are in each state, and panels without a place."""

    by_mark: Mapping[str, PanelState]
    counts: Mapping[PanelState, int]
    orphans: tuple[Orphan, ...]


def place_of(panel: Panel) -> Place:
    """Where a panel is and what it is; no two panels of a set-out share it."""
    first = panel.faces[0]
    return first.wall, first.bottom, first.left, panel.design


def records_by_place(setout: SetOut) -> dict[Place, PanelRecord]:
    """What is recorded, by place and design."""
    return {record.place: record for record in setout.room.progress.panels}


def standing(setout: SetOut) -> Standing:
    """How far the build of a set-out has come."""
    records = records_by_place(setout)
    by_mark: dict[str, PanelState] = {}
    open_marks: defaultdict[str, list[str]] = defaultdict(list)
    for panel in setout.panels:
        record = records.pop(place_of(panel), None)
        by_mark[panel.mark] = record.state if record else "to build"
        if by_mark[panel.mark] == "to build":
            open_marks[panel.design].append(panel.mark)
    lost = [record for record in records.values() if record.is_made]
    found = Counter(by_mark.values())
    return Standing(by_mark, {state: found[state] for state in STATES}, _orphans(lost, open_marks))


def _orphans(records: list[PanelRecord], open_marks: Mapping[str, list[str]]) -> tuple[Orphan, ...]:
    """Orphans in order of place; those off the wall already get the first suggestions."""
    suggested: dict[Place, str] = {}
    free = {design: list(marks) for design, marks in open_marks.items()}
    for record in sorted(records, key=lambda record: (record.state == "hung", record.place)):
        if marks := free.get(record.design):
            suggested[record.place] = marks.pop(0)
    return tuple(
        Orphan(record, tuple(open_marks.get(record.design, ())), suggested.get(record.place))
        for record in sorted(records, key=lambda record: record.place)
    )
