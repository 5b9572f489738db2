"""The print pack as a drawing model: which sheets a room needs, drawn but not yet on any device."""

from collections.abc import Callable
from datetime import date

from core.drawing import Sheet
from core.language import marked, tr
from core.setout.result import SetOut
from core.sheets.buying_pages import buying_sheets
from core.sheets.colour_sheet import colour_sheets
from core.sheets.cover import cover
from core.sheets.draft import Draft, finish
from core.sheets.elevation import elevations
from core.sheets.frame_pages import frame_pages
from core.sheets.hole_template import hole_templates
from core.sheets.labels import labels
from core.sheets.panel_sheet import first_pages, panel_sheets
from core.sheets.plan import plan
from core.sheets.schedule import schedule
from core.sheets.story_pole import story_poles
from core.whole_job import WholeJob

__all__ = ["DRAWING_STEPS", "sheets_for"]

DRAWING_STEPS = (
    marked("bonding the panels"),
    marked("planning the frame"),
    marked("drawing the elevations"),
    marked("drawing the panel sheets"),
    marked("drawing templates and labels"),
    marked("counting, buying and planning the crew"),
)
"""What ``sheets_for`` says it is about to do, in order, in the reader's language."""


def sheets_for(
    setout: SetOut,
    *,
    issued: date | None = None,
    job: WholeJob | None = None,
    begins: Callable[[str], None] = lambda _step: None,
) -> tuple[Sheet, ...]:
    """All sheets of the pack in order: cover, plan, elevations, frame, schedules; then what the benches need: a sheet for each
    design, story pole, hole template and labels; then buying, crew and kitting.

    The date of issue is blank where None. ``job`` spares working out anew what is known of this set-out; ``begins`` is called
    before each of ``DRAWING_STEPS`` and may raise to stop.
    """
    job = job or WholeJob(setout)
    steps = map(tr, DRAWING_STEPS)
    begins(next(steps))
    bonding = job.bonding
    begins(next(steps))
    walls = job.frame.walls
    begins(next(steps))
    hung = job.hung.setout
    drafts: list[Draft] = [*plan(hung), *(draft for frame in walls for draft in elevations(hung, frame.wall, frame))]
    drafts += frame_pages(setout, job.frame)
    begins(next(steps))
    panels = panel_sheets(hung, bonding, job.finishes, job.stock, job.hung)
    drafts += [*schedule(hung, first_pages(panels), job.sheet_names), *panels, *colour_sheets(hung, job.finishes, job.hung)]
    begins(next(steps))
    drafts += [*story_poles(hung, job.bonds), *hole_templates(hung, job.bonds), *labels(hung, job.sheet_names)]
    begins(next(steps))
    drafts += buying_sheets(hung, job.takeoff, job.purchasing, job.crew, job.frame, job.kits)
    return finish(setout.room, [*cover(hung, job.frame, drafts, job.checks), *drafts], issued)
