"""Bonding a whole job within a limited stock: sizes are swapped where that costs least, and the bond is kept.

Every design has one or more bonds; how many panels are built to which is an integer program. Its linear relaxation prices the
scarce parts, new bonds are sought at those prices, and so on until none pays (column generation).
"""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace

from core.bond.bonds import bond_of, first_panels
from core.bond.palette import FILLS, FillKind, Palette, StockError, palette_of
from core.bond.patterns import PART, Prices
from core.bond.program import MISSING, Program, Share, cost_of
from core.bond.result import Bond
from core.bond.shape import shape_of
from core.bond.solving import bond_at_prices, usual_prices
from core.bond.turning import turned
from core.setout.result import Panel, SetOut

MOST_ROUNDS = 12
NEVER_MORE = ("straight joint", "poor bearing", "loose")
"""Faults a swap must not add to a design's."""


@dataclass(frozen=True, slots=True)
class Shortage:
    """The part that runs out first, at which panel, and how many more the panels up to it would take."""

    part: str
    mark: str
    design: str
    missing: int

    @property
    def text(self) -> str:
        """One line for the person who buys."""
        return f"{self.part} runs out at panel {self.mark} ({self.design}): {self.missing} more are needed"


@dataclass(frozen=True, slots=True)
class WithinStock:
    """How a job is bonded within a stock.

    ``bonds`` holds, for every design, its bonds and how many panels are built to each, the first ones in hanging order to the
    first. If there is a ``shortage``, only the panels before it are counted.
    """

    bonds: Mapping[str, tuple[tuple[int, Bond], ...]]
    shortage: Shortage | None

    @property
    def parts(self) -> Counter[str]:
        """How many of each part the panels take."""
        total: Counter[str] = Counter()
        for shares in self.bonds.values():
            for count, bond in shares:
                total.update({name: count * number for name, number in bond.parts.items()})
        return total


def bond_within(setout: SetOut, available: Mapping[str, int]) -> WithinStock:
    """Bond all panels with no more parts than there are; parts that ``available`` does not name are unlimited.

    Panels count in hanging order: row by row, each from the first wall on. Where the stock does not do, the answer covers the
    panels before the first that cannot be built, and names the part that stops it. Raises StockError as ``bonds_for``.
    """
    return _Job(setout, available).within()


def hanging_order(setout: SetOut) -> list[Panel]:
    """The panels row by row from the floor, each row from the first wall's left end."""
    return sorted(setout.panels, key=lambda panel: panel.row)


class _Job:
    def __init__(self, setout: SetOut, available: Mapping[str, int]) -> None:
        self._order = hanging_order(setout)
        self._available = dict(available)
        self._palette = palette_of(setout.room.parts, setout.room.kit)
        firsts = first_panels(setout)
        self._shapes = {name: shape_of(setout, panel).canonical() for name, panel in firsts.items()}
        self._bonds: dict[str, list[Bond]] = {name: [bond_of(setout, panel)] for name, panel in firsts.items()}

    def within(self) -> WithinStock:
        everything = len(self._order)
        self._seek_bonds(self._counts(everything))
        enough = everything if self._program(everything).suffices() else 0
        while enough < everything:
            enough = self._last_possible(enough, everything)
            self._seek_bonds(self._counts(enough + 1))
            if not self._program(enough + 1).suffices():
                missing = self._program(enough + 1).whole(within=False).missing
                return WithinStock(self._shares(enough), self._shortage(enough, missing))
            enough += 1
        return WithinStock(self._shares(everything), None)

    def _shortage(self, enough: int, missing: Mapping[str, int]) -> Shortage:
        """What stops the panel after the first ``enough``: the part it lacks most."""
        part, lacking = max(missing.items(), key=lambda item: (item[1], item[0]))
        panel = self._order[enough]
        return Shortage(part, panel.mark, panel.design, lacking)

    def _last_possible(self, enough: int, too_many: int) -> int:
        """How many of the first panels can be built with the bonds known, if so many can and so many cannot."""
        while too_many - enough > 1:
            middle = (enough + too_many) // 2
            if self._program(middle).suffices():
                enough = middle
            else:
                too_many = middle
        return enough

    def _program(self, count: int) -> Program:
        """The program of the first panels with the bonds known."""
        return Program(self._counts(count), self._bonds, self._available)

    def _shares(self, count: int) -> dict[str, tuple[Share, ...]]:
        found = self._program(count).whole(within=True).shares
        return {name: found.get(name, ()) for name in self._bonds}

    def _counts(self, count: int) -> Counter[str]:
        return Counter(panel.design for panel in self._order[:count])

    def _seek_bonds(self, counts: Counter[str]) -> None:
        """Add bonds as long as one would ease the shortage or save parts."""
        for _ in range(MOST_ROUNDS):
            answer = Program(counts, self._bonds, self._available).relaxed()
            if not answer.scarcity:
                return
            found = [
                self._seek(design, palette, answer.scarcity, answer.worth[design])
                for palette in _palettes(self._palette, answer.scarcity)
                for design in counts
            ]
            if not any(found):
                return

    def _seek(self, design: str, palette: Palette, scarcity: Mapping[str, float], worth: float) -> bool:
        """Look for a bond of a design that is worth having where parts are scarce; whether there was a new one."""
        (shape, is_turned), known = self._shapes[design], self._bonds[design]
        try:
            bond = bond_at_prices(shape, palette, _priced(palette, scarcity))
        except StockError:
            return False
        bond = _named(bond, design, is_turned)
        if any(_count(bond, kind) > _count(known[0], kind) for kind in NEVER_MORE):
            return False
        if bond in known or cost_of(bond) + sum(scarcity.get(p, 0.0) * n for p, n in bond.parts.items()) > worth - 1e-6:
            return False
        known.append(bond)
        return True


def _palettes(palette: Palette, scarcity: Mapping[str, float]) -> list[Palette]:
    """The palette, and without the sizes that are missing: prices alone do not always find the way round them."""
    names = [piece.name for kind in FILLS.values() for piece in palette.pieces(kind)]
    lacking = [name for name in names if scarcity.get(name, 0.0) > MISSING / 2]
    without = palette
    for name in lacking:
        without = without.without(name)
    return [palette, without] if lacking else [palette]


def _named(bond: Bond, design: str, is_turned: bool) -> Bond:
    return replace(turned(bond) if is_turned else bond, design=design)


def _count(bond: Bond, kind: str) -> int:
    return sum(fault.kind == kind for fault in bond.faults)


def _priced(palette: Palette, scarcity: Mapping[str, float]) -> dict[FillKind, Prices]:
    """The usual prices, more for scarce parts."""
    usual = usual_prices(palette)
    return {
        kind: tuple(
            (length, price + round(PART * scarcity.get(palette.name(kind, length), 0.0))) for length, price in usual[kind]
        )
        for kind in FILLS.values()
    }
