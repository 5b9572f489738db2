"""Bonding panels within a limited stock: sizes are swapped where that costs least, and the bond is kept.

Panels that may be laid alike make a lot. Every lot has one or more ways to be laid; how many panels are built in which is an
integer program. Its linear relaxation prices the scarce parts, new bonds are sought at those prices, and so on until none pays
(column generation).
"""

from collections import Counter, deque
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, replace

from core.bond.bonds import bond_of, first_panels
from core.bond.palette import FILLS, FillKind, Palette, StockError, palette_of
from core.bond.patterns import PART, Prices
from core.bond.program import MISSING, Item, Program, Way, cost_of
from core.bond.result import Bond
from core.bond.shape import PanelShape, shape_of
from core.bond.solving import bond_at_prices, usual_prices
from core.bond.turning import turned
from core.language import tr, trn
from core.parts import Parts
from core.setout.result import SetOut

MOST_ROUNDS = 12
NEVER_MORE = ("straight joint", "poor bearing", "loose")
"""Faults a swap must not add to a design's."""


@dataclass(frozen=True)
class ToLay:
    """A panel to lay: in one ``colour`` throughout, or as it is ``fixed`` and not otherwise, with what it takes so."""

    mark: str
    design: str
    colour: str | None = None
    fixed: tuple[Bond, Counter[Item]] | None = None


@dataclass(frozen=True, slots=True)
class Shortage:
    """The part that runs out first, at which panel, and how many more the panels up to it would take."""

    part: str
    mark: str
    design: str
    missing: int
    colour: str | None = None

    @property
    def text(self) -> str:
        """One line for the person who buys."""
        part = tr(self.part)
        if self.colour:
            part = f"{part}, " + tr(self.colour)
        return trn(
            "{part} runs out at panel {panel} ({design}): {n} more is needed",
            "{part} runs out at panel {panel} ({design}): {n} more are needed",
            self.missing,
            part=part,
            panel=self.mark,
            design=self.design,
        )


@dataclass(frozen=True, slots=True)
class WithinStock:
    """How panels are bonded within a stock.

    ``bonds`` are by mark, each as the first panel of its design hangs; of panels alike the first ones get the first bond, which
    is the design's own. If there is a ``shortage``, only the panels before it have one.
    """

    bonds: Mapping[str, Bond]
    shortage: Shortage | None


def bond_within(
    setout: SetOut, available: Mapping[Item, int], order: Sequence[ToLay], *, parts: Parts | None = None
) -> WithinStock:
    """Bond panels with no more parts than there are; parts that ``available`` does not name are unlimited.

    ``order`` is the order in which panels are wanted. Where the stock does not do, the answer covers the panels before the first
    that cannot be built, and names the part that stops it. ``parts`` are those that swaps may use, the room's where None. Raises
    StockError as ``bonds_for``.
    """
    return _Job(setout, available, order, parts or setout.room.parts).within()


@dataclass(frozen=True, slots=True)
class _Lot:
    """Panels that may be laid alike: of one design in one colour. Only those whose bond is not fixed have a shape to try."""

    design: str
    colour: str | None
    shape: PanelShape | None
    is_turned: bool


class _Job:
    def __init__(self, setout: SetOut, available: Mapping[Item, int], order: Sequence[ToLay], parts: Parts) -> None:
        self._order = order
        self._available = dict(available)
        self._palette = palette_of(parts, setout.room.kit)
        usual = {part.name for part in setout.room.parts if part.is_stocked}
        self._rare = frozenset(item for item in available if item[0] not in usual)
        firsts = first_panels(setout)
        self._keys: list[Hashable] = [_key(panel) for panel in order]
        self._lots: dict[Hashable, _Lot] = {}
        self._ways: dict[Hashable, list[Way]] = {}
        for key, panel in zip(self._keys, order, strict=True):
            if key in self._lots:
                continue
            if panel.fixed is not None:
                bond, items = panel.fixed
                self._lots[key] = _Lot(panel.design, None, None, False)
                self._ways[key] = [Way(bond, items, cost_of(bond))]
            else:
                first = firsts[panel.design]
                self._lots[key] = _Lot(panel.design, panel.colour, *shape_of(setout, first).canonical())
                self._ways[key] = [_way(bond_of(setout, first), panel.colour)]

    def within(self) -> WithinStock:
        everything = len(self._order)
        self._seek_bonds(self._counts(everything))
        enough = everything if self._program(everything).suffices() else 0
        while enough < everything:
            enough = self._last_possible(enough, everything)
            self._seek_bonds(self._counts(enough + 1))
            if not self._program(enough + 1).suffices():
                missing = self._program(enough + 1).whole(within=False).missing
                return WithinStock(self._laid(enough), self._shortage(enough, missing))
            enough += 1
        return WithinStock(self._laid(everything), None)

    def _shortage(self, enough: int, missing: Mapping[Item, int]) -> Shortage:
        """What stops the panel after the first ``enough``: the part it lacks most."""
        (part, colour), lacking = max(missing.items(), key=lambda line: (line[1], line[0][0], line[0][1] or ""))
        panel = self._order[enough]
        return Shortage(part, panel.mark, panel.design, lacking, colour)

    def _last_possible(self, enough: int, too_many: int) -> int:
        """How many of the first panels can be built in the ways known, if so many can and so many cannot."""
        while too_many - enough > 1:
            middle = (enough + too_many) // 2
            if self._program(middle).suffices():
                enough = middle
            else:
                too_many = middle
        return enough

    def _program(self, count: int) -> Program:
        """The program of the first panels in the ways known."""
        return Program(self._counts(count), self._ways, self._available, self._rare)

    def _laid(self, count: int) -> dict[str, Bond]:
        """The bonds of the first panels: as many as the program says have the first bond of their lot, then the next."""
        shares = self._program(count).whole(within=True).shares
        waiting = {key: deque((way.bond, number) for number, way in of_lot) for key, of_lot in shares.items()}
        found = {}
        for key, panel in zip(self._keys[:count], self._order, strict=False):
            bond, left = waiting[key].popleft()
            found[panel.mark] = bond
            if left > 1:
                waiting[key].appendleft((bond, left - 1))
        return found

    def _counts(self, count: int) -> Counter[Hashable]:
        return Counter(self._keys[:count])

    def _seek_bonds(self, counts: Counter[Hashable]) -> None:
        """Add bonds as long as one would ease the shortage or save parts."""
        for _ in range(MOST_ROUNDS):
            answer = Program(counts, self._ways, self._available, self._rare).relaxed()
            if not answer.scarcity:
                return
            found = [
                self._seek(key, lot.shape, answer.scarcity, answer.worth[key])
                for key, lot in self._lots.items()
                if counts[key] and lot.shape is not None
            ]
            if not any(found):
                return

    def _seek(self, key: Hashable, shape: PanelShape, scarcity: Mapping[Item, float], worth: float) -> bool:
        """Look for bonds of a lot that are worth having where parts are scarce; whether there was a new one."""
        lot = self._lots[key]
        scarce = {part: price for (part, colour), price in scarcity.items() if colour == lot.colour}
        found = [self._seek_with(key, lot, shape, palette, scarce, worth) for palette in _palettes(self._palette, scarce)]
        return any(found)

    def _seek_with(
        self, key: Hashable, lot: _Lot, shape: PanelShape, palette: Palette, scarce: Mapping[str, float], worth: float
    ) -> bool:
        known = self._ways[key]
        try:
            bond = bond_at_prices(shape, palette, _priced(palette, scarce))
        except StockError:
            return False
        way = _way(_named(bond, lot.design, lot.is_turned), lot.colour)
        if any(_count(way.bond, kind) > _count(known[0].bond, kind) for kind in NEVER_MORE):
            return False
        price = way.cost + sum(scarce.get(part, 0.0) * number for part, number in way.bond.parts.items())
        if price > worth - 1e-6 or any(way.bond == one.bond for one in known):
            return False
        known.append(way)
        return True


def _key(panel: ToLay) -> Hashable:
    return id(panel.fixed[0]) if panel.fixed else (panel.design, panel.colour)


def _way(bond: Bond, colour: str | None) -> Way:
    items: Counter[Item] = Counter({(name, colour): number for name, number in bond.parts.items()})
    return Way(bond, items, cost_of(bond))


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
