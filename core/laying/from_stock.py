"""Everything still to build, bonded from what lies in the boxes: what fits, what is laid otherwise, what runs out where."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from core.bond.each import bonding, bonds_in
from core.bond.palette import StockError
from core.bond.program import Item
from core.bond.result import Bond
from core.bond.within import Shortage, ToLay, bond_within
from core.buying.account import on_hand, ring_to_lay
from core.colour import Finish, colours_of
from core.crew.standing import standing
from core.crew.work import hanging_order
from core.frame import as_hung
from core.language import tr
from core.parts import Part, PartKind
from core.setout.result import Panel, SetOut
from core.takeoff import Count, Material, in_order

LAID: tuple[PartKind, ...] = ("brick", "pin-hole brick", "plate", "tile", "locating plate", "plug")
"""Kinds of parts that panels are laid of."""
_USUAL, _FIRST_OTHER = "A", ord("B")


@dataclass(frozen=True, slots=True)
class StockLine:
    """One part, in pieces. ``on_hand`` is what the starter ring leaves of the boxes; None where its kind was never counted.

    ``usual`` is what the panels would take if each were laid as its design, ``laid`` what those that can be built do take.
    """

    part: str
    colour: str | None
    on_hand: int | None
    usual: int
    laid: int

    @property
    def left(self) -> int | None:
        return None if self.on_hand is None else self.on_hand - self.laid


@dataclass(frozen=True)
class StockBond:
    """One bond of a design and the panels to build to it, in hanging order."""

    name: str
    design: str
    bond: Bond
    is_usual: bool
    marks: tuple[str, ...]


@dataclass(frozen=True)
class FromStock:
    """How the panels still to build are laid from the stock. ``bonds`` are by mark, as the first panel of the design hangs."""

    setout: SetOut
    to_build: tuple[str, ...]
    """Marks in hanging order."""
    usual: Mapping[str, Bond]
    """The bond of every design."""
    bonds: Mapping[str, Bond]
    shortage: Shortage | None
    lines: tuple[StockLine, ...]
    uncounted: tuple[PartKind, ...]
    """Kinds of parts nobody counted or received; they are taken to be enough."""
    coloured: frozenset[str] = frozenset()
    """Panels of several colours, by mark: they keep the bond that their colours give them, and are no part of ``groups``."""
    colour_of: Mapping[str, str | None] = field(default_factory=dict)
    """The colour of every panel that has one."""

    @property
    def hung(self) -> SetOut:
        """The set-out as it is hung: panels with moved holes are of designs of their own."""
        return as_hung(self.setout).setout

    def parts(self, mark: str) -> Count:
        """What a panel of one colour, or of none, is laid of."""
        return Counter({Material(name, self.colour_of.get(mark)): n for name, n in self.bonds[mark].parts.items() if n})

    @property
    def beyond(self) -> tuple[str, ...]:
        """The panels that cannot be built from the stock, in hanging order."""
        return self.to_build[len(self.bonds) :]

    @property
    def verdict(self) -> str:
        """Whether the stock does, in one line; where it does not, the part that runs out and the panel where it does."""
        number = len(self.to_build)
        if not number:
            return tr("Nothing is left to build.")
        if self.shortage is None:
            if not self.swapped:
                return tr("The stock does for all {panels} panels still to build, all as their designs.", panels=number)
            return tr(
                "The stock does for all {panels} panels still to build, {swapped} of them otherwise than their design.",
                panels=number,
                swapped=len(self.swapped),
            )
        return tr(
            "{shortage}. The stock does for {done} of {panels} panels still to build.",
            shortage=self.shortage.text,
            done=len(self.bonds),
            panels=number,
        )

    @cached_property
    def groups(self) -> tuple[StockBond, ...]:
        """Every bond there is, by design in the designs' order, the design's own first."""
        designs = {panel.mark: panel.design for panel in self.hung.panels}
        marks: dict[str, dict[int, list[str]]] = {}
        known: dict[str, list[Bond]] = {}
        for mark in self.bonds:
            if mark in self.coloured:
                continue
            design, bond = designs[mark], self.bonds[mark]
            mine = known.setdefault(design, [self.usual[design]])
            if bond not in mine:
                mine.append(bond)
            marks.setdefault(design, {}).setdefault(mine.index(bond), []).append(mark)
        return tuple(
            StockBond(_name(design.name, number, len(known[design.name])), design.name, bond, number == 0, tuple(its))
            for design in self.hung.designs
            for number, bond in enumerate(known.get(design.name, ()))
            if (its := marks[design.name].get(number))
        )

    @cached_property
    def names(self) -> Mapping[str, str]:
        """What a panel's bond is called, by mark."""
        return {mark: group.name for group in self.groups for mark in group.marks}

    @cached_property
    def swapped(self) -> Mapping[str, Bond]:
        """The bonds that are not their design's, by mark."""
        return {mark: group.bond for group in self.groups if not group.is_usual for mark in group.marks}


def _name(design: str, number: int, of: int) -> str:
    """``full`` where the design has one bond, and that its own; else ``full, bond A`` for its own, then B, C."""
    if of == 1:
        return design
    letter = _USUAL if number == 0 else chr(_FIRST_OTHER + number - 1) if number < 26 else f"A{number}"
    return tr("{design}, bond {letter}", design=design, letter=letter)


def bond_from_stock(setout: SetOut) -> FromStock:
    """Lay every panel still to build from what is on hand; takes some seconds where sizes are short.

    Panels that stand already take no more. Sizes are swapped in panels of one colour; a panel of several keeps its bond. A kind
    of part of which nothing was ever received or counted is taken to be enough. Raises StockError where the stock has no part to
    lay a panel with, or the stocked sizes cannot fill a design.
    """
    hung = as_hung(setout).setout
    states = standing(hung).by_mark
    panels = [panel for panel in hanging_order(hung) if states[panel.mark] == "to build"]
    found = bonding(hung)
    for panel in panels:
        if isinstance(why := found[panel.design], StockError):
            raise why
    usual = bonds_in(found)
    finishes = colours_of(hung, usual)
    order = [_to_lay(panel, finishes.get(panel.mark)) for panel in panels]
    boxes = _boxes(hung)
    counted = _counted(hung.room.parts, boxes)
    if panels:
        _refuse_nothing(hung.room.parts, boxes, counted)
    wanted = _laid(order, {panel.mark: usual[panel.design] for panel in order})
    usable = _usable(hung.room.parts, boxes, counted)
    available = {
        (part.name, colour): max(0, boxes[Material(part.name, colour)])
        for part in usable
        if part.kind in counted
        for colour in dict.fromkeys(colour for _, colour in wanted)
    }
    within = bond_within(hung, available, order, parts=usable)
    laid = _laid(order, within.bonds)
    named = (*wanted, *laid, *(item for item, number in available.items() if number))
    every = in_order({Material(*item): 1 for item in named}, hung.room.parts)
    lines = tuple(
        StockLine(one.name, one.colour, available.get(key), wanted[key], laid[key])
        for one in every
        for key in [(one.name, one.colour)]
    )
    uncounted = tuple(kind for kind in LAID if kind not in counted)
    coloured = frozenset(panel.mark for panel in order if panel.fixed)
    return FromStock(
        setout,
        to_build=tuple(panel.mark for panel in panels),
        usual=usual,
        bonds=within.bonds,
        shortage=within.shortage,
        lines=lines,
        uncounted=uncounted,
        coloured=coloured,
        colour_of={panel.mark: panel.colour for panel in order if not panel.fixed},
    )


def _to_lay(panel: Panel, finish: Finish | None) -> ToLay:
    if finish is None:
        return ToLay(panel.mark, panel.design)
    if len(finish.colours) == 1 and not finish.is_cut:
        return ToLay(panel.mark, panel.design, finish.colours[0])
    return ToLay(panel.mark, panel.design, fixed=(finish.bond, _items(finish.parts)))


def _items(count: Count) -> Counter[Item]:
    return Counter({(one.name, one.colour): number for one, number in count.items()})


def _boxes(setout: SetOut) -> Count:
    """What the boxes hold when the starter ring is laid; materials nobody ever noted are not in it."""
    boxes, ring = on_hand(setout.room), ring_to_lay(setout)
    return Counter({one: number - ring[one] for one, number in boxes.items()})


def _counted(parts: Sequence[Part], boxes: Mapping[Material, int]) -> frozenset[PartKind]:
    """The kinds of which something was received or counted."""
    names = {one.name for one in boxes}
    return frozenset(part.kind for part in parts if part.kind in LAID and part.name in names)


def _refuse_nothing(parts: Sequence[Part], boxes: Mapping[Material, int], counted: frozenset[PartKind]) -> None:
    """Raises StockError where there is nothing to lay panels with."""
    if not counted:
        raise StockError(
            tr(
                "nothing is on hand that panels are laid of; note what came, or what a count of the boxes finds, "
                "before you bond from the stock (stock.received in the room file)"
            )
        )
    holding = {one.name for one, number in boxes.items() if number > 0}
    for kind in (kind for kind in LAID if kind in counted):
        if not any(part.name in holding for part in parts if part.kind == kind):
            raise StockError(
                tr(
                    "stock.received: of no {kind} there is one left on hand, in any size, so no panel can be laid; "
                    "note what came, or what a count of the boxes finds",
                    kind=tr(kind),
                )
            )


def _usable(parts: Sequence[Part], boxes: Mapping[Material, int], counted: frozenset[PartKind]) -> tuple[Part, ...]:
    """The parts panels may be laid of: those stocked, and sizes that are not stocked as a rule but lie in the boxes."""
    holding = {one.name for one, number in boxes.items() if number > 0}
    found = (
        part.model_copy(update={"is_stocked": True}) if part.kind in counted and part.name in holding else part
        for part in parts
        if part.kind in LAID
    )
    return tuple(part for part in found if part.is_stocked)


def _laid(order: Sequence[ToLay], bonds: Mapping[str, Bond]) -> Counter[Item]:
    total: Counter[Item] = Counter()
    for items in _taken(order, bonds):
        total.update(items)
    return +total


def _taken(order: Sequence[ToLay], bonds: Mapping[str, Bond]) -> Iterator[Counter[Item]]:
    for panel in order:
        if panel.mark not in bonds:
            continue
        yield panel.fixed[1] if panel.fixed else Counter({(n, panel.colour): c for n, c in bonds[panel.mark].parts.items()})
