"""Screws, trim, boxes and loads in words and figures, each figure with the rule it comes from."""

from collections.abc import Iterator

from core.frame import FramePlan, WallFrame
from core.frame.drift_words import GRID_HOLDS
from core.frame.screws import ScrewVerdict
from core.language import marked, tr
from core.places import place_words
from core.room import Units, wall_letter
from core.setout.result import SetOut
from core.sheets.draft import Draft, drawing_box, papers
from core.sheets.flow import Line, gap, heading, paragraph
from core.sheets.frame_lists import table
from core.sheets.listing import list_drafts
from core.timberwork import INCH_MM
from core.units import format_length, in_units, metric_size

_DEFERS = marked(
    "Planning figures, not a design: a qualified person judges the frame, its fixings and every load on them. Find every cable "
    "and pipe before driving a screw. Pack solid behind every screw."
)


def hardware(setout: SetOut, plan: FramePlan) -> list[Draft]:
    """The hardware sheet and the notes about openings and loads."""
    width = drawing_box(papers(setout.room.display_units)[0], has_foot=False).width
    lines = [heading(tr("Screws"), width), *paragraph(tr(_DEFERS), width, has_bullet=True), gap(1.5)]
    lines += _by_wall(setout, plan, width)
    worst = max((f for f in plan.walls if f.screws), key=_hardness, default=None)
    if worst and worst.screws:
        lines += _verdicts(setout, worst, width)
    lines += _drift(setout, plan, width)
    lines += _openings(setout, plan, width)
    lines += _notes(setout, plan, width)
    return list_drafts(setout, "hardware", tr("Hardware and notes"), marked("hardware"), lines)


def _hardness(frame: WallFrame) -> tuple[float, float]:
    assert frame.screws is not None
    return frame.screws.duty.most_packing_mm, frame.screws.duty.pull.value


def _by_wall(setout: SetOut, plan: FramePlan, width: float) -> Iterator[Line]:
    rows = []
    for frame in plan.walls:
        if frame.screws:
            verdict = frame.screws.chosen
            lengths = ", ".join(f"{count} × {as_sold(mm)}" for mm, count in sorted(frame.screws.lengths.items()))
            lengths = lengths or tr("none")
            unheld = tr("; none for {screws}", screws=frame.screws.unheld) if frame.screws.unheld else ""
            least, most = (format_length(mm, setout.room.display_units) for mm in (frame.packers.least_mm, frame.packers.most_mm))
            packing = tr("{first} to {last}", first=least, last=most) if least != most else most
            name = tr(verdict.screw.name) if verdict else tr("none")
            rows.append([tr("wall {wall}", wall=wall_letter(frame.wall)), packing, name, f"{lengths}{unheld}"])
    yield from table(("", tr("packing"), tr("screw"), tr("how many × length")), rows, width)


def as_sold(mm: float) -> str:
    """A screw's length as it is sold: eighths of an inch or millimetres."""
    eighths = mm / INCH_MM * 8
    return f"{format_length(mm, 'ft-in')}" if abs(eighths - round(eighths)) < 1e-6 else metric_size(mm)


def _verdicts(setout: SetOut, frame: WallFrame, width: float) -> Iterator[Line]:
    assert frame.screws is not None
    units = setout.room.display_units
    chosen = frame.screws.chosen
    yield heading(tr("Why, on wall {wall}, the hardest", wall=wall_letter(frame.wall)), width)
    if chosen:
        name = f"{tr(chosen.screw.name)}, {as_sold(chosen.length_mm or 0.0)}"
        yield from paragraph(tr("{screw}. Gives first: {part}.", screw=name, part=chosen.governing), width)
        yield from paragraph(tr("Sizes: {source}.", source=tr(chosen.screw.source)), width)
        for warning in chosen.warnings:
            yield from paragraph(tr("Mind: {warning}.", warning=in_units(warning, units)), width)
        yield gap(1.5)
        yield from _figures(chosen, units, width)
    else:
        said = [tr("No single length of any screw listed does for all of this wall's packing.")]
        if unheld := frame.screws.unheld:
            said.append(
                tr("At {points} points the packing is so deep that none does: fur the frame out there first.", points=unheld)
            )
        yield from paragraph(" ".join(said), width)
    yield heading(tr("Why not the others"), width)
    for verdict in frame.screws.verdicts:
        if not verdict.fits:
            yield from paragraph(f"{tr(verdict.screw.name)}: {'; '.join(verdict.failures)}.", width, has_bullet=True)


def _figures(verdict: ScrewVerdict, units: Units, width: float) -> Iterator[Line]:
    for figure in verdict.figures:
        yield from paragraph(figure.words(units), width, has_bullet=True)


def _drift(setout: SetOut, plan: FramePlan, width: float) -> Iterator[Line]:
    drift = plan.drift
    yield heading(tr("Do not set studs out at 12 in centres"), width)
    panel, foot = metric_size(drift.panel_mm), metric_size(drift.spacing_mm)
    said = [tr("Panels are {panel} wide, a foot is {foot}.", panel=panel, foot=foot)]
    if drift.at_failure:
        said.append(
            tr(
                "From a joint centred on a stud, {lost} are lost with every panel: panel {number} is the first with a screw "
                "too near its stud's edge, {near} where {edge} are needed.",
                lost=metric_size(drift.per_panel.value, 1),
                number=drift.fails_at,
                near=metric_size(drift.at_failure.value, 1),
                edge=metric_size(drift.edge_mm),
            )
        )
    said.append(tr("Set the studs out at {panel}, each from the wall's end and not from the stud before.", panel=panel))
    yield from paragraph(" ".join([*said, tr(GRID_HOLDS)]), width)
    if setout.room.display_units == "ft-in":
        said_of_tape = tr("Use a metric tape for this one job: the difference is too small for sixteenths of an inch.")
        yield from paragraph(said_of_tape, width)


def _openings(setout: SetOut, plan: FramePlan, width: float) -> Iterator[Line]:
    def write(mm: float) -> str:
        return format_length(mm, setout.room.display_units, with_unit=False)

    if plan.trims:
        yield heading(tr("Trim: least width on each side"), width)
        rows = [[t.opening, write(t.left_mm), write(t.right_mm), write(t.sill_mm), write(t.head_mm)] for t in plan.trims]
        heads = (tr("opening"), tr("left"), tr("right"), tr("sill"), tr("head"))
        yield from table(heads, rows, width, numbers=(1, 2, 3, 4))
    if plan.boxes:
        yield heading(tr("Boxes that must come flush with a lining that burns (NEC 314.20)"), width)
        said = tr("Listed box extenders; power off; work for a licensed electrician; local code decides.")
        yield from paragraph(said, width)
        rows = [[b.opening, write(b.forward_mm), str(b.gangs), *(write(lap) for lap in b.laps_mm)] for b in plan.boxes]
        laps = (tr("plate laps left"), tr("right"), tr("bottom"), tr("top"))
        yield from table((tr("box"), tr("forward by"), tr("gangs"), *laps), rows, width, numbers=range(1, 7))


def _notes(setout: SetOut, plan: FramePlan, width: float) -> Iterator[Line]:
    yield heading(tr("Checks and notes"), width)
    for check in plan.checks:
        text = in_units(check.text, setout.room.display_units)
        yield from paragraph(f"{tr(check.level)}, {place_words(check.where)}: {text}", width, has_bullet=True)
