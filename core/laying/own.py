"""Panels whose bond is not their design's, and what that means for the work: more parts take longer, another sheet a set-up."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from core.bond import StockError, bond_for
from core.bond.each import bonding, bonds_in
from core.bond.result import Bond
from core.colour import Finish, colours_of
from core.crew.work import OwnWork
from core.frame import as_hung
from core.language import marked, tr
from core.laying.from_stock import FromStock
from core.setout.result import SetOut
from core.takeoff import Count, Material

COLOURS = marked(", colours as ")
"""Between the design and the first mark that is laid alike, in the name of a bond cut at its colours."""


@dataclass(frozen=True)
class OwnBond:
    """A panel's own bond, and what it is called: panels of one name are laid alike from one sheet."""

    name: str
    design: str
    bond: Bond


def own_bonds(setout: SetOut, finishes: Mapping[str, Finish], stock: FromStock | None = None) -> dict[str, OwnBond]:
    """The panels that are not laid as their design's sheet shows, by mark: cut at their colours, or swapped from the stock."""
    swapped = stock.swapped if stock else {}
    names = stock.names if stock else {}
    found: dict[str, OwnBond] = {}
    firsts: dict[int, str] = {}
    for panel in setout.panels:
        finish = finishes.get(panel.mark)
        if finish is not None and finish.is_cut:
            first = firsts.setdefault(id(finish), panel.mark)
            found[panel.mark] = OwnBond(panel.design + tr(COLOURS) + first, panel.design, finish.bond)
        elif panel.mark in swapped:
            found[panel.mark] = OwnBond(names[panel.mark], panel.design, swapped[panel.mark])
    return found


def own_work(own: Mapping[str, OwnBond], usual: Mapping[str, Bond]) -> dict[str, OwnWork]:
    """How much longer panels with bonds of their own take to build, by mark: as many times as they have more parts."""
    return {
        mark: OwnWork(one.name, sum(one.bond.parts.values()) / sum(usual[one.design].parts.values())) for mark, one in own.items()
    }


def parts_of_moved(setout: SetOut, marks: Iterable[str]) -> dict[str, Count]:
    """What those of the panels are laid of whose holes are moved, by mark; those that cannot be bonded are left out."""
    hung = as_hung(setout)
    found: dict[str, Count] = {}
    for mark in marks:
        if variant := hung.by_mark.get(mark):
            try:
                parts = bond_for(hung.setout, variant.name).parts
            except StockError:
                continue
            found[mark] = Counter({Material(name): number for name, number in parts.items() if number})
    return found


def work_of_cut_panels(setout: SetOut) -> dict[str, OwnWork]:
    """The work of panels cut at their colours; none where the job has one colour, which costs no time to see."""
    if setout.room.colouring.is_plain:
        return {}
    usual = bonds_in(bonding(setout))
    return own_work(own_bonds(setout, colours_of(setout, usual)), usual)
