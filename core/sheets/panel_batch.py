"""Which panels are built by one panel sheet: a design's all, or where panels are laid from the stock, those of one bond."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from core.bond.result import Bond
from core.language import tr
from core.laying import FromStock
from core.setout.result import Design, SetOut
from core.sheets.flow import Line, heading_and_words, paragraph
from core.sheets.panel_facts import mark_groups


@dataclass(frozen=True, slots=True)
class Batch:
    """Panels of one sheet: what it is called, its bond, the marks on it and how many of them to build now."""

    name: str
    bond: Bond
    marks: tuple[str, ...]
    build: int
    is_apart: bool = False
    """Whether other panels of the design have another bond."""
    others: tuple[tuple[str, tuple[str, ...]], ...] = ()
    """The design's other bonds, with their marks."""
    waiting: tuple[str, ...] = ()
    """Marks for which the stock does not do."""
    why: str = ""
    """What runs out where."""
    by_colour: int = 0
    """How many more are built now, but by colour sheets."""
    has_moved_holes: bool = False
    """Whether their holes are elsewhere than their design's."""

    def without(self, coloured: Sequence[str]) -> "Batch":
        """The same batch where these of its panels are built by colour sheets."""
        more = len([mark for mark in coloured if mark not in self.waiting])
        return replace(self, build=self.build - more, by_colour=more)


def batches_of(setout: SetOut, design: Design, bond: Bond, stock: FromStock | None) -> list[Batch]:
    """The batches of a design. From the stock there may be several, or none where all is built."""
    marks = tuple(panel.mark for panel in setout.panels if panel.design == design.name)
    if stock is None:
        return [Batch(design.name, bond, marks, design.count)]
    groups = [group for group in stock.groups if group.design == design.name]
    mine, beyond = set(marks), tuple(mark for mark in stock.beyond if mark in set(marks))
    coloured = {mark for mark in stock.coloured if mark in mine and mark not in beyond}
    why = stock.shortage.text if stock.shortage else ""
    found = []
    if coloured or beyond or any(group.is_usual for group in groups):
        usual = next((group for group in groups if group.is_usual), None)
        others = tuple((group.name, group.marks) for group in groups if not group.is_usual)
        name = tr("{design}, bond {letter}", design=design.name, letter="A") if others else design.name
        now = {*(usual.marks if usual else ()), *coloured}
        here = tuple(mark for mark in marks if mark in now or mark in beyond)
        found.append(Batch(name, bond, here, len(now), bool(others), others, beyond, why))
    for group in (group for group in groups if not group.is_usual):
        others = tuple((one.name, one.marks) for one in groups if one is not group)
        found.append(Batch(group.name, group.bond, group.marks, len(group.marks), True, others))
    return found


def stock_lines(batch: Batch, width_mm: float) -> list[Line]:
    """What a person must know who builds from the stock: which panels have this bond, which another, which must wait."""
    lines: list[Line] = []
    if batch.is_apart:
        lines += heading_and_words(tr("Laid from the stock"), tr("look at the mark before you build"), width_mm)
        lines += paragraph(tr("This is {sheet}, for the panels named below and no others.", sheet=batch.name), width_mm)
        for name, marks in batch.others:
            said = tr("By another sheet, {sheet}: {panels}.", sheet=name, panels=_named(marks))
            lines += paragraph(said, width_mm, has_bullet=True)
    if batch.waiting:
        lines += heading_and_words(tr("Not yet"), tr("the stock does not do for these"), width_mm)
        lines += paragraph(f"{_named(batch.waiting)}. {batch.why}.", width_mm)
    return lines


def _named(marks: Sequence[str]) -> str:
    return "; ".join(mark_groups(sorted(marks)))
