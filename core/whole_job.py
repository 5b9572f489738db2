"""Everything that follows from one set-out, from bonds to crew plan: each part worked out once, when it is first asked for."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from core.bond.each import Bonding, bonding, bonds_in
from core.bond.findings import bond_checks
from core.bond.mass import masses_kg
from core.bond.palette import StockError
from core.bond.result import Bond
from core.buying import Purchasing, purchasing
from core.colour import Finish, colour_checks, colours_of
from core.crew.kitting import KitList, kit_lists
from core.crew.plan import CrewPlan, crew_plan
from core.frame import FramePlan, Hung, as_hung, plan_of
from core.laying import FromStock, OwnBond, own_bonds, own_work
from core.setout.result import Check, Level, SetOut
from core.takeoff import Count, DesignParts, Material, TakeOff, parts_of, take_off, with_timber
from core.takeoff.timber import timber_of

_LEVELS: tuple[Level, ...] = ("error", "warning", "note")


@dataclass(frozen=True)
class WholeJob:
    """A set-out and what it takes to build it. Nothing here raises where a stock cannot fill a design: ``checks`` say so.

    With ``stock`` the panels still to build are laid from it.
    """

    setout: SetOut
    stock: FromStock | None = None

    @cached_property
    def hung(self) -> Hung:
        """The set-out with moved holes where they go: what is built, counted and drawn."""
        return as_hung(self.setout)

    @cached_property
    def bonding(self) -> Bonding:
        """The bond of every design, those with moved holes among them, or why it has none."""
        return bonding(self.hung.setout)

    @cached_property
    def bonds(self) -> dict[str, Bond]:
        """The bonds there are, by design."""
        return bonds_in(self.bonding)

    @cached_property
    def parts(self) -> DesignParts:
        """The parts of every bonded design."""
        return parts_of(self.bonds)

    @cached_property
    def masses_kg(self) -> Mapping[str, float]:
        """Kilograms of one panel of every bonded design."""
        return masses_kg(self.bonds, self.setout.room.parts)

    @cached_property
    def frame(self) -> FramePlan:
        """The frame behind the panels."""
        return plan_of(self.setout, self.masses_kg)

    @cached_property
    def finishes(self) -> dict[str, Finish]:
        """Every panel's bricks with their colours, by mark; nothing where the job has one colour."""
        # Asking for the bonds would make them all, which a job in one colour can do without.
        if self.setout.room.colouring.is_plain:
            return {}
        return colours_of(self.hung.setout, self.bonds, own=self.stock.swapped if self.stock else None)

    @cached_property
    def own(self) -> dict[str, OwnBond]:
        """The panels not laid as their design's sheet shows, by mark."""
        return own_bonds(self.hung.setout, self.finishes, self.stock)

    @cached_property
    def sheet_names(self) -> dict[str, str]:
        """What the sheet of a panel is called, by mark, where that is not simply its design."""
        from_stock = self.stock.names if self.stock else {}
        return {**from_stock, **{mark: one.name for mark, one in self.own.items()}}

    @cached_property
    def counted(self) -> TakeOff:
        """What panels and starter ring take: all that is ordered by the piece. Timber, which takes a cut list, is not in it."""
        return take_off(self.hung.setout, self.parts, own=self._own_parts())

    @cached_property
    def takeoff(self) -> TakeOff:
        """What everything takes, timber included."""
        return with_timber(self.counted, timber_of(self.frame))

    def _own_parts(self) -> dict[str, Count]:
        """What panels are laid of, by mark, where that is not their design's parts; those alike share one count."""
        if self.finishes:
            return {mark: finish.parts for mark, finish in self.finishes.items()}
        bonds = {id(one.bond): one.bond for one in self.own.values()}
        counts: dict[int, Count] = {
            key: Counter({Material(name): number for name, number in bond.parts.items() if number}) for key, bond in bonds.items()
        }
        return {mark: counts[id(one.bond)] for mark, one in self.own.items()}

    def _laid(self) -> dict[str, tuple[Bond, list[str]]]:
        """Every bond that panels are laid to, by the design's name or its own, and their marks."""
        found: dict[str, tuple[Bond, list[str]]] = {}
        for panel in self.hung.setout.panels:
            own = self.own.get(panel.mark)
            name, bond = (own.name, own.bond) if own else (panel.design, self.bonds.get(panel.design))
            if bond is not None:
                found.setdefault(name, (bond, []))[1].append(panel.mark)
        return found

    @cached_property
    def purchasing(self) -> Purchasing:
        """What to order, and what it costs."""
        return purchasing(self.hung.setout, self.counted)

    @cached_property
    def crew(self) -> CrewPlan:
        """When what is left will be done, and by whom: from the day after the last one on record."""
        return crew_plan(self.hung.setout, own=own_work(self.own, self.bonds) if self.own else {})

    @cached_property
    def kits(self) -> tuple[KitList, ...]:
        """Kitting lists of everything still to build."""
        return kit_lists(self.hung.setout, self.counted.laid, self.sheet_names)

    @cached_property
    def checks(self) -> tuple[Check, ...]:
        """Errors first; of each level the set-out's own findings, designs the stock cannot fill, weak bonds, then the frame's,
        the colours' and the stock's.
        """
        unbonded = [why for why in self.bonding.values() if isinstance(why, StockError)]
        found = [*self.setout.checks, *(Check("error", "not-bonded", "room", str(why)) for why in unbonded)]
        found += [*bond_checks(self._laid()), *self.frame.checks]
        found += colour_checks(self.hung.setout, self.finishes)
        if self.stock is not None:
            found.append(Check("warning" if self.stock.shortage else "note", "from-stock", "room", self.stock.verdict))
        return tuple(sorted(found, key=lambda check: _LEVELS.index(check.level)))
