"""Panels with moved holes on the sheets they are built by: which they are, what is moved, and which sheets other panels have."""

from collections.abc import Sequence

from core.bond.result import Bond
from core.bond.shape import shape_of
from core.frame import Hung, Variant
from core.frame.places import Hole, hole_of
from core.language import tr, trn
from core.sheets.flow import Line, heading_and_words, paragraph
from core.sheets.panel_facts import mark_groups
from core.sheets.panel_legs import leg_name, leg_spans
from core.sheets.panel_patterns import layer_name


def move_lines(design: str, marks: Sequence[str], drawn: str, bond: Bond, hung: Hung, width_mm: float) -> list[Line]:
    """For a sheet by which panels of a design are built: that their holes are moved, or which other panels have their own sheets.

    The sheet shows the panel of the mark ``drawn`` as it hangs, laid in ``bond``. Nothing where all panels are built alike.
    """
    if variant := hung.by_name.get(design):
        return _variant_lines(variant, marks, moved_words(drawn, bond, hung), width_mm)
    others = [one for one in hung.variants if one.design == design]
    if not others:
        return []
    lines = heading_and_words(tr("Holes as usual"), tr("look at the mark before you build"), width_mm)
    for one in others:
        said = tr("By another sheet, {sheet}: {panels}.", sheet=one.name, panels="; ".join(mark_groups(one.marks)))
        lines += paragraph(said, width_mm, has_bullet=True)
    return lines


def _variant_lines(variant: Variant, marks: Sequence[str], moved: Sequence[str], width_mm: float) -> list[Line]:
    lines = heading_and_words(tr("Moved holes"), tr("build no other panel so"), width_mm)
    panels = "; ".join(mark_groups(marks))
    if moved:
        only = tr(
            "Only for {panels}. Behind them there is no timber where {design} has its holes.",
            panels=panels,
            design=variant.design,
        )
    else:
        only = tr("Only for {panels}. Other panels of {design} have their holes elsewhere.", panels=panels, design=variant.design)
    lines += paragraph(only, width_mm)
    for words in moved:
        lines += paragraph(words, width_mm, has_bullet=True)
    return lines


def moved_words(mark: str, bond: Bond, hung: Hung) -> list[str]:
    """Every moved hole of a panel by course and by knobs from the left, as it hangs; ``bond`` is as it hangs, too."""
    panel = next(one for one in hung.setout.panels if one.mark == mark)
    shape = shape_of(hung.setout, panel)
    found = [(hole_of(panel, shape, one.was), hole_of(panel, shape, one.to)) for one in hung.moved.get(mark, ())]
    return [_moved(bond, was, to) for was, to in sorted(found)]


def _moved(bond: Bond, was: Hole, to: Hole) -> str:
    leg, layer, _ = was
    place = tr("course {course}, {knobs}", course=layer_name(bond, layer), knobs=_after(bond, was))
    if bond.corner:
        place = tr("{leg}, {place}", leg=leg_name(bond, leg), place=place)
    if to[1] == layer:
        return tr("{place}: moved to {knobs}", place=place, knobs=_after(bond, to))
    return tr("{place}: moved to course {course}", place=place, course=layer_name(bond, to[1]))


def _after(bond: Bond, hole: Hole) -> str:
    return trn("after {n} knob", "after {n} knobs", leg_spans(bond)[hole[0]].knobs(hole[2]))
