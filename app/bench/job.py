"""One design made ready for the bench, and what is said of each of its courses."""

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from core.bond import bond_for
from core.bond.bonds import first_panels
from core.bond.result import Bond, Laid, Layer
from core.bond.shape import shape_of
from core.bond.turning import turned as turned_about
from core.colour import Finisher, wishes_of
from core.frame import as_hung
from core.kit import Kit
from core.language import marked, tr, trn
from core.parts import Part
from core.setout.result import Design, Panel, SetOut
from core.sheets.colour_sheet import code_of
from core.sheets.panel_bricks import Look, looks_of
from core.sheets.panel_facts import FAULT_WORDS, check_rows, holes_words, mass_kg
from core.sheets.panel_legs import LegSpan, leg_name, leg_spans, owns_square
from core.sheets.panel_patterns import hole_lines, layer_name
from core.sheets.panel_strength import strength_text, stretch_words
from core.sheets.wording import both
from core.takeoff import Count, Material

if TYPE_CHECKING:
    from core.laying import FromStock


Codes = tuple[tuple[str, ...], ...]
ANY_COLOUR = marked("any colour")


@dataclass(frozen=True)
class BenchJob:
    """A panel's bond, and the marks of its design's panels; ``turned`` ones hang with their back to the room.

    The bond is the panel's own where it is not its design's; ``name`` says so. ``codes`` are the letters of its colours, layer by
    layer as the parts lie in it, where it has several.
    """

    design: Design
    bond: Bond
    kit: Kit
    parts: tuple[Part, ...]
    looks: dict[str, Look]
    marks: tuple[str, ...]
    turned: frozenset[str]
    mark: str
    """The panel it is about."""
    name: str
    codes: Codes = ()
    colours: Mapping[str, str] = field(default_factory=dict)
    """The colours' names by their letters."""
    colour: str = ""
    """The colour of all its parts, where the job has several and this panel one."""
    own_parts: Count | None = None
    """What the panel is laid of, plugs included, where that is not simply its design's parts."""
    has_moved_holes: bool = False
    """Whether its holes are elsewhere than its design has them."""

    @classmethod
    def of(cls, setout: SetOut, name: str, mark: str = "", stock: "FromStock | None" = None) -> "BenchJob":
        """The job of one panel of a design, of the first where no mark of it is given.

        A panel with moved holes is of a variant of its design, which has a name of its own. With ``stock`` the panel is laid from
        it. Raises KeyError where there is no design of that name, StockError where it cannot be bonded.
        """
        hung = as_hung(setout)
        built = {panel.mark: panel.design for panel in hung.setout.panels}
        alike = [panel.mark for panel in setout.panels if name in (panel.design, built[panel.mark])]
        if mark in alike or name not in built.values():
            name = built[mark if mark in alike else alike[0]] if alike else name
        setout = hung.setout
        design = next((design for design in setout.designs if design.name == name), None)
        if design is None:
            raise KeyError(name)
        panels = [panel for panel in setout.panels if panel.design == name]
        first = shape_of(setout, first_panels(setout)[name])
        can_turn = first.corner is None and first.turned() != first
        turned = frozenset(panel.mark for panel in panels if can_turn and shape_of(setout, panel) != first)
        room = setout.room
        marks = tuple(panel.mark for panel in panels)
        panel = next((panel for panel in panels if panel.mark == mark), panels[0])
        job = cls(design, bond_for(setout, name), room.kit, room.parts, looks_of(room.parts), marks, turned, panel.mark, name)
        if name in hung.by_name:
            own_parts = Counter({Material(part): number for part, number in job.bond.parts.items() if number})
            job = replace(job, own_parts=own_parts, has_moved_holes=True)
        if stock is not None and panel.mark in stock.bonds and panel.mark not in stock.coloured:
            own = stock.parts(panel.mark) if panel.mark in stock.swapped else job.own_parts
            job = replace(job, bond=stock.bonds[panel.mark], name=stock.names[panel.mark], own_parts=own)
        return job if room.colouring.is_plain else _coloured(setout, panel, job)

    @property
    def layers(self) -> tuple[Layer, ...]:
        return self.bond.layers

    @property
    def spans(self) -> tuple[LegSpan, ...]:
        return leg_spans(self.bond)

    def title(self, number: int) -> str:
        """``Course 7 of 31``; the two layers on top by what they are made of."""
        kind = self.layers[number].kind
        if kind == "course":
            courses = sum(layer.kind == "course" for layer in self.layers)
            return tr("Course {number} of {courses}", number=layer_name(self.bond, number), courses=courses)
        return tr("Plate course, under the cap") if kind == "plate" else tr("Cap course, the last")

    def counted(self, number: int) -> list[tuple[str, int]]:
        """The parts of a layer, those that are most first; plain bricks by their size alone."""
        return [(words, count) for _, words, count in self.swatches(number)]

    def swatches(self, number: int) -> list[tuple[str, str, int]]:
        """The same with each part's name in front; where there are several colours, each by itself."""
        layer = self.layers[number]
        codes = self.codes[number] if self.codes else ("",) * len(layer.laid)
        counts = Counter((laid.part, code) for laid, code in zip(layer.laid, codes, strict=True))
        return [
            (part, f"{_short_name(part)} {self.colours.get(code, code)}".strip(), count)
            for (part, code), count in sorted(counts.items(), key=lambda pair: (-pair[1], pair[0]))
        ]

    def labels(self, number: int) -> dict[Laid, str]:
        """What stands on every part of a layer: its length, and the letter of its colour where there are several."""
        layer = self.layers[number]
        codes = self.codes[number] if self.codes else ("",) * len(layer.laid)
        return {laid: f"{self.looks[laid.part].label}{code}" for laid, code in zip(layer.laid, codes, strict=True)}

    def leg_words(self, number: int, leg: int) -> str:
        """Which leg it is, and whether it runs through the corner in this layer; nothing for a flat panel."""
        if not self.bond.corner:
            return ""
        layer, name = self.layers[number], leg_name(self.bond, leg)
        owner = next((span.leg for span in self.spans if owns_square(layer, span)), None)
        if not any(laid.leg == leg for laid in layer.laid):
            return tr("{leg}: nothing in this course", leg=name)
        if owner is None:
            return tr("{leg}: the corner stays open", leg=name)
        if owner == leg:
            return tr("{leg} 1st, runs through the corner", leg=name)
        return tr("{leg} 2nd, up to the {other}", leg=name, other=leg_name(self.bond, owner))

    def is_first(self, number: int, leg: int) -> bool:
        """Whether a corner panel's leg is laid before the other in a layer: the one that runs through the corner."""
        span = next((span for span in self.spans if span.leg == leg), None)
        return bool(self.bond.corner) and span is not None and owns_square(self.layers[number], span)

    def hole_words(self, number: int, *, from_back: bool) -> list[str]:
        """Where a layer's pin-hole pairs stand, by knobs from the left as seen; a line for each leg that has any."""
        said = []
        for span in reversed(self.spans) if from_back else self.spans:
            counts = sorted(
                span.end - line if from_back else span.knobs(line)
                for leg, line in hole_lines(self.layers[number])
                if leg == span.leg
            )
            if counts:
                words = _pin_hole_words(counts)
                said.append(f"{words}, {leg_name(self.bond, span.leg)}" if self.bond.corner else words)
        return said

    def weak_words(self, number: int) -> list[str]:
        """What is weaker in a layer than the rule, a line for each kind."""
        faults: defaultdict[str, None] = defaultdict()
        for fault in self.bond.faults:
            if fault.layer == number:
                faults[fault.kind] = None
        return [*(tr(FAULT_WORDS[kind]) for kind in faults), *stretch_words(self.bond, self.kit, number)]

    def strength(self) -> str:
        """How well the finished panel holds together."""
        return strength_text(self.bond, self.kit)

    def clear_holes(self) -> str:
        """Which holes the finished panel must have, seen from the front."""
        return tr("holes, after so many knobs from the left of the front: {holes}", holes=holes_words(self.bond))

    def checks(self) -> list[tuple[str, str, str]]:
        """Name, figure and what is said of it, of every measure of the finished panel; then its parts and its mass."""
        rows = [
            (name, figure, "" if low == high else tr("go: {low} to {high}", low=low, high=high))
            for name, figure, low, high in check_rows(self.bond, self.kit)
        ]
        parts = {part.name: part for part in self.parts}
        total = sum(self.bond.parts.values())
        mass = tr("about {mass:.2f}", mass=mass_kg(self.bond, parts))
        return [*rows, (tr("parts, plugs included"), str(total), ""), (tr("mass, kg"), mass, tr("by estimated masses"))]


def _short_name(part: str) -> str:
    """Plain bricks by their size alone."""
    return part.removeprefix("brick ") if part.startswith("brick ") else tr(part)


def _pin_hole_words(counts: Sequence[int]) -> str:
    """After how many knobs a layer's holes stand."""
    if len(counts) == 1:
        return trn("PIN-HOLE PAIR: hole after {n} knob", "PIN-HOLE PAIR: hole after {n} knobs", counts[0])
    return tr("PIN-HOLE PAIRS: hole after {counts} knobs", counts=both([str(count) for count in counts]))


def _coloured(setout: SetOut, panel: Panel, job: BenchJob) -> BenchJob:
    """The job with the panel's colours; where it has several, or is cut at them, as it hangs."""
    shape, colouring = shape_of(setout, panel), setout.room.colouring
    bond = turned_about(job.bond) if panel.mark in job.turned else job.bond
    finish = Finisher(wishes_of(setout)).finish(panel, shape, bond)
    if len(finish.colours) == 1 and not finish.is_cut:
        return replace(job, colour=tr(finish.colours[0] or ANY_COLOUR), own_parts=finish.parts)
    codes = tuple(tuple(code_of(colouring, colour) for _, colour in layer) for layer in finish.layers)
    name = tr("{design}, colours of {panel}", design=job.design.name, panel=panel.mark)
    colours = {code_of(colouring, colour): tr(colour or ANY_COLOUR) for colour in finish.colours}
    job = replace(job, bond=finish.bond, turned=job.turned - {panel.mark}, name=name)
    return replace(job, codes=codes, colours=colours, own_parts=finish.parts)
