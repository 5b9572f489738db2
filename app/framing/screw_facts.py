"""The screw for every wall, in rows: what it is, why it does, and why each other one does not."""

from app.framing.facts import Fact, of_figure
from app.framing.wall_facts import short
from core.frame import FramePlan, WallFrame
from core.frame.screws import ScrewVerdict
from core.language import marked, tr
from core.room import Room, Units, wall_letter
from core.timberwork import INCH_MM
from core.units import format_length, metric_size

WALL_TITLES = (marked("Wall"), marked("Packing."), marked("Screw"), marked("How many × length"))
FIGURE_TITLES = (marked("Figure"), marked("Value."))
OTHER_TITLES = (marked("Screw"), marked("Verdict"))


def made_length(mm: float) -> str:
    """A screw's length as it is sold: eighths of an inch or millimetres."""
    eighths = mm / INCH_MM * 8
    return format_length(mm, "ft-in") if abs(eighths - round(eighths)) < 1e-6 else metric_size(mm)


def wall_facts(room: Room, plan: FramePlan) -> list[Fact]:
    """The recommended screw of every wall."""
    return [_wall_fact(room, frame) for frame in plan.walls if frame.screws]


def _wall_fact(room: Room, frame: WallFrame) -> Fact:
    screws, units = frame.screws, room.display_units
    assert screws is not None
    chosen = screws.chosen
    lengths = ", ".join(f"{count} × {made_length(mm)}" for mm, count in sorted(screws.lengths.items()))
    if screws.unheld:
        unheld = tr("none for {points}", points=screws.unheld)
        lengths = f"{lengths}; {unheld}" if lengths else unheld
    least, most = short(frame.packers.least_mm, units), short(frame.packers.most_mm, units)
    packing = most if least == most else tr("{least} to {most}", least=least, most=most)
    if chosen is None:
        name = tr("sort by packing") if screws.lengths else tr("none does")
        how = tr("No one length suits all of its packing.")
    else:
        name = tr(chosen.screw.name)
        how = tr("Gives first: {figure}. Sizes: {source}.", figure=chosen.governing, source=tr(chosen.screw.source))
    return Fact((wall_letter(frame.wall), packing, name, lengths), how, f"wall {wall_letter(frame.wall)}")


def verdict_at(frame: WallFrame) -> ScrewVerdict | None:
    """The chosen screw's verdict; where none was chosen, that of the screw with the fewest reasons against it."""
    if frame.screws is None:
        return None
    return frame.screws.chosen or min(frame.screws.verdicts, key=lambda v: len(v.failures), default=None)


def figure_facts(frame: WallFrame, units: Units) -> list[Fact]:
    """Every figure behind a wall's screw, with its warnings first."""
    verdict = verdict_at(frame)
    if verdict is None:
        return []
    screw = verdict.screw
    minds = [
        Fact(
            (tr("Mind: {warning}", warning=warning), ""),
            tr("{screw}: {warning}. Sizes: {source}.", screw=tr(screw.name), warning=warning, source=tr(screw.source)),
        )
        for warning in verdict.warnings
    ]
    return [*minds, *(of_figure(figure, figure.value_words(units)) for figure in verdict.figures)]


def other_facts(frame: WallFrame) -> list[Fact]:
    """Every screw of the room's list: it does, or all that speaks against it; the chosen one first."""
    if frame.screws is None:
        return []
    chosen = frame.screws.chosen
    ordered = sorted(frame.screws.verdicts, key=lambda v: (v is not chosen, not v.fits))
    return [_other(verdict, is_chosen=verdict is chosen) for verdict in ordered]


def _other(verdict: ScrewVerdict, *, is_chosen: bool) -> Fact:
    screw = verdict.screw
    if not verdict.fits:
        reasons = "; ".join(verdict.failures)
        begun = f"{reasons[:1].upper()}{reasons[1:]}"
        how = tr("{reasons}. Sizes: {source}.", reasons=begun, source=tr(screw.source))
        return Fact((tr(screw.name), tr("no: {reasons}", reasons=reasons)), how)
    length = made_length(verdict.length_mm or 0.0)
    if not is_chosen:
        how = tr("Gives first: {figure}. Sizes: {source}.", figure=verdict.governing, source=tr(screw.source))
        return Fact((tr(screw.name), tr("does too, {length}", length=length)), how)
    how = tr(
        "Gives first: {figure}. Of those that do, the widest head's ring is taken. Sizes: {source}.",
        figure=verdict.governing,
        source=tr(screw.source),
    )
    return Fact((tr(screw.name), tr("taken, {length}", length=length)), how)
