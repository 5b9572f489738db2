"""Every panel's bricks with their colours, worked out in small steps."""

from collections import Counter
from collections.abc import Generator, Mapping
from dataclasses import dataclass

from core.bond import StockError, bond_of
from core.bond.shape import shape_of
from core.colour import Finish, Finisher, wishes_of
from core.colour.wishes import Wishes
from core.frame import as_hung
from core.setout.result import SetOut


@dataclass(frozen=True)
class Finishes:
    """The finish of every panel that can be bonded, by mark."""

    setout: SetOut
    wishes: Wishes
    by_mark: Mapping[str, Finish]

    def pieces(self) -> Counter[str | None]:
        """How many parts of all panels have each colour."""
        found: Counter[str | None] = Counter()
        for finish in self.by_mark.values():
            for material, number in finish.parts.items():
                found[material.colour] += number
        return found

    @property
    def cut(self) -> int:
        """Panels with a bond of their own."""
        return sum(finish.is_cut for finish in self.by_mark.values())

    @property
    def missed(self) -> int:
        """Pitches in another colour than wished."""
        return sum(finish.missed for finish in self.by_mark.values())


def finishing(setout: SetOut) -> Generator[None, None, Finishes]:
    """The finishes of a set-out, one panel at each step; none where the job has one colour."""
    wishes = wishes_of(setout)
    yield
    found: dict[str, Finish] = {}
    if setout.room.colouring.is_plain:
        return Finishes(setout, wishes, found)
    finisher, hung = Finisher(wishes), as_hung(setout).setout
    yield
    for panel in hung.panels:
        try:
            found[panel.mark] = finisher.finish(panel, shape_of(hung, panel), bond_of(hung, panel))
        except StockError:
            continue
        yield
    return Finishes(setout, wishes, found)
