"""What colour every laid brick of a panel gets. A brick has one colour."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from core.bond.bonds import first_panels
from core.bond.palette import FILLS, Palette, palette_of
from core.bond.result import Bond, Laid
from core.bond.shape import PanelShape, shape_of
from core.bond.turning import turned
from core.colour.cutting import Wished, cut_bond, majority, under
from core.colour.places import leg_places
from core.colour.wishes import ANY, Cells, Wishes, wishes_of
from core.setout.result import Panel, SetOut
from core.takeoff import Count, Material

ColourName = str | None
"""None where any colour will do."""


@dataclass(frozen=True, eq=False)
class Finish:
    """A panel's bricks with their colours, as it hangs seen from inside the room. Panels that are alike share one."""

    bond: Bond
    """As it is laid: the design's own bond, or one cut at the lines between colours."""
    layers: tuple[tuple[tuple[Laid, ColourName], ...], ...]
    """Layer by layer from the bottom; the parts of each as in the bond."""
    is_cut: bool
    """Whether it has a bond of its own because bricks of the design's bond lay over lines between colours.

    One that would not hold together when cut keeps the design's bond; each brick has the colour most of it wishes for.
    """
    missed: int
    """Pitches of all layers that show another colour than wished."""
    is_left_whole: bool = False
    """Whether colours change over its bricks and yet it was not cut, because it would not hold together."""

    @cached_property
    def colours(self) -> tuple[ColourName, ...]:
        """Every colour in it, in the order they are met from the bottom."""
        return tuple(dict.fromkeys(colour for layer in self.layers for _, colour in layer))

    @cached_property
    def parts(self) -> Count:
        """How many of each part in each colour, plugs included: a plug has the colour of the brick it closes. Read only."""
        found: Count = Counter(Material(laid.part, colour) for layer in self.layers for laid, colour in layer)
        found.update(Material("plug", colour) for colour in self._plugged())
        return found

    def _plugged(self) -> Iterator[ColourName]:
        """The colour of every closed hole: pin-hole bricks alone have a side, and those at the room are closed."""
        for layer in self.layers:
            yield from (colour for laid, colour in layer if laid.side == 0)


def colours_of(
    setout: SetOut, bonds: Mapping[str, Bond], wishes: Wishes | None = None, own: Mapping[str, Bond] | None = None
) -> dict[str, Finish]:
    """Every panel's bricks with their colours, by mark; nothing where the job has one colour.

    ``bonds`` are by design. Panels of designs that have none are left out. ``own`` are the bonds of panels of one colour that are
    not laid as their design, by mark.
    """
    if setout.room.colouring.is_plain:
        return {}
    finisher = Finisher(wishes or wishes_of(setout))
    firsts = {name: shape_of(setout, panel) for name, panel in first_panels(setout).items() if name in bonds}
    found = {}
    for panel in setout.panels:
        if panel.design in bonds:
            shape = shape_of(setout, panel)
            is_own = panel.mark in (own or {})
            bond = (own or {})[panel.mark] if is_own else bonds[panel.design]
            hangs = bond if shape == firsts[panel.design] else turned(bond)
            found[panel.mark] = finisher.finish(panel, shape, hangs, own=id(bond) if is_own else 0)
    return found


class Finisher:
    """Colours the panels of one set-out, those that are alike once."""

    def __init__(self, wishes: Wishes) -> None:
        room = wishes.setout.room
        self._wishes = wishes
        self._palette = palette_of(room.parts, room.kit)
        self._kept: dict[tuple[PanelShape, Wished, int], Finish] = {}

    def finish(self, panel: Panel, shape: PanelShape, bond: Bond, *, own: int = 0) -> Finish:
        """One panel's bricks with their colours. ``bond`` is as the panel hangs, turned about where it must be.

        Panels alike share a finish; a number of its ``own`` tells a bond apart that is not the design's.
        """
        wished = tuple(tuple(tuple(line.tolist()) for line in leg) for leg in self._wishes.of(panel, shape))
        key = shape, wished, own
        if key not in self._kept:
            self._kept[key] = self._new(shape, bond, wished)
        return self._kept[key]

    def _new(self, shape: PanelShape, bond: Bond, wished: Wished) -> Finish:
        is_parted = any(
            len(set(under(wished[laid.leg][number], laid.at, laid.length))) > 1 for number, laid in _fillers(bond, self._palette)
        )
        cut = cut_bond(shape, self._palette, wished) if is_parted else None
        if cut is not None:
            bond = replace(cut, design=bond.design)
        missed = 0
        layers = []
        for number, layer in enumerate(bond.layers):
            coloured = []
            for laid in layer.laid:
                colour, wrong = majority(under(wished[laid.leg][number], laid.at, laid.length))
                missed += 0 if laid.side else wrong
                coloured.append((laid, None if colour == ANY else self._wishes.names[colour]))
            layers.append(tuple(coloured))
        return Finish(bond, tuple(layers), cut is not None, missed, is_parted and cut is None)


def _fillers(bond: Bond, palette: Palette) -> Iterator[tuple[int, Laid]]:
    """Every part that may lie elsewhere, with its layer: what holds screws and locates panels stays."""
    names = {piece.name for kind in FILLS.values() for piece in palette.pieces(kind)}
    for number, layer in enumerate(bond.layers):
        yield from ((number, laid) for laid in layer.laid if laid.part in names)


def laid_cells(wishes: Wishes, finishes: Mapping[str, Finish]) -> dict[int, Cells]:
    """The colours of every wall as laid, in the shape of the wishes: other ones where a brick lies over a line."""
    found = {wall: cells.copy() for wall, cells in wishes.walls.items()}
    numbers: dict[ColourName, int] = {name: number for number, name in enumerate(wishes.names)} | {None: ANY}
    for panel in wishes.setout.panels:
        finish = finishes.get(panel.mark)
        if finish is None or not finish.missed:
            continue
        places, bottom = leg_places(wishes.setout, panel), min(face.bottom for face in panel.faces)
        for layer, coloured in zip(finish.bond.layers, finish.layers, strict=True):
            number = wishes.layer_at[bottom + layer.z_plates]
            for laid, colour in coloured:
                place = places[laid.leg]
                begin, end = max(laid.at, 0), min(laid.at + laid.length, place.length)
                found[place.wall][number, place.left + begin : place.left + end] = numbers[colour]
    return found
