"""What is done about mounting points without timber, in the same words everywhere: window, elevations, frame sheets, JSON."""

from collections import Counter
from collections.abc import Sequence

from core.frame.deciding import Remedies, decided
from core.frame.last_asked import LastAsked
from core.frame.misses import Backed, Miss, Remedy
from core.language import tr, trn
from core.setout.result import SetOut

__all__ = ["GRAVEST_FIRST", "Remedies", "backed_walls", "misses_in_words", "remedies_in_words", "remedies_of"]

GRAVEST_FIRST: tuple[Remedy, ...] = ("none", "move", "blocking", "doubling", "pilot hole")


def remedies_of(setout: SetOut) -> Remedies:
    """The remedy of every mounting point without timber; of the set-outs asked about last the answers are kept."""
    return _decided(setout)


_decided = LastAsked(decided)


def backed_walls(setout: SetOut) -> tuple[Backed, ...]:
    """By wall, what holds the mounting points that its members do not."""
    return remedies_of(setout).walls


def remedies_in_words(misses: Sequence[Miss]) -> str:
    """How many points get which remedy, the gravest first: ``3 moved holes, 22 on blocking, 20 pilot holes``."""
    count = Counter(miss.remedy for miss in misses)
    return ", ".join(_counted(one, count[one]) for one in GRAVEST_FIRST if count[one])


def _counted(remedy: Remedy, count: int) -> str:
    if remedy == "none":
        return tr("{n} without remedy", n=count)
    if remedy == "move":
        return trn("{n} moved hole", "{n} moved holes", count)
    if remedy == "blocking":
        return tr("{n} on blocking", n=count)
    if remedy == "doubling":
        return trn("{n} at a doubling piece", "{n} at doubling pieces", count)
    return trn("{n} pilot hole", "{n} pilot holes", count)


def misses_in_words(points: int, misses: Sequence[Miss]) -> str:
    """How many of a wall's screws find no timber, and what is done about each."""
    if not points:
        return tr("No screw is driven into this wall.")
    if not misses:
        return tr("All {points} screws find timber.", points=points)
    return trn(
        "{n} of {points} screws finds no timber: {remedies}.",
        "{n} of {points} screws find no timber: {remedies}.",
        len(misses),
        points=points,
        remedies=remedies_in_words(misses),
    )
