"""The trials by name, and how often each is made."""

from collections.abc import Callable, Mapping
from enum import Enum
from types import MappingProxyType

from app.endurance.outcome import Outcome


class Effort(Enum):
    """How much of everything."""

    SHORT = "short"
    LONG = "long"


def _kills(effort: Effort, seed: int) -> list[Outcome]:
    from app.endurance.kills import try_kills

    return [try_kills({Effort.SHORT: 12, Effort.LONG: 500}[effort], seed)]


def _mutations(effort: Effort, seed: int) -> list[Outcome]:
    from app.endurance.damaged import try_damaged_files, try_setout_of_damaged

    files, setouts = {Effort.SHORT: (150, 4), Effort.LONG: (5_000, 100)}[effort]
    return [try_damaged_files(files, seed), try_setout_of_damaged(setouts, seed)]


def _rooms(effort: Effort, seed: int) -> list[Outcome]:
    from app.endurance.generated import try_generated_rooms

    return [try_generated_rooms({Effort.SHORT: 40, Effort.LONG: 5_000}[effort], seed)]


def _edits(effort: Effort, seed: int) -> list[Outcome]:
    from app.endurance.undoing import try_edits_and_undos

    edits, rounds = {Effort.SHORT: (300, 10), Effort.LONG: (20_000, 80)}[effort]
    return [try_edits_and_undos(edits, rounds, seed)]


def _extremes(effort: Effort, _seed: int) -> list[Outcome]:
    from app.endurance.extremes import try_extreme_kits, try_extreme_rooms

    is_long = effort is Effort.LONG
    return [*try_extreme_rooms(is_long), try_extreme_kits(is_long)]


Trial = Callable[[Effort, int], list[Outcome]]
TRIALS: Mapping[str, Trial] = MappingProxyType(
    {"kills": _kills, "mutations": _mutations, "rooms": _rooms, "edits": _edits, "extremes": _extremes}
)
