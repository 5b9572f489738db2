"""The print pack as a drawing model: which sheets a room needs, drawn but not yet on any device."""

from datetime import date

from core.drawing import Sheet
from core.setout.result import SetOut
from core.sheets.cover import cover
from core.sheets.draft import Draft, finish
from core.sheets.elevation import elevations
from core.sheets.hole_template import hole_templates
from core.sheets.labels import labels
from core.sheets.panel_bonding import bonding, bonds_in
from core.sheets.panel_sheet import first_pages, panel_sheets
from core.sheets.plan import plan
from core.sheets.schedule import schedule
from core.sheets.story_pole import story_poles

__all__ = ["sheets_for"]


def sheets_for(setout: SetOut, *, issued: date | None = None) -> tuple[Sheet, ...]:
    """All sheets of the pack in order: cover, plan, elevations, schedules, then what the benches need: a sheet for each design,
    story pole, hole template and labels. The date of issue is blank where None.
    """
    found = bonding(setout)
    bonds = bonds_in(found)
    panels = panel_sheets(setout, found)
    others: list[Draft] = [*plan(setout)]
    for shell in setout.walls:
        others += elevations(setout, shell.wall)
    others += schedule(setout, first_pages(setout, panels))
    others += [*panels, *story_poles(setout, bonds), *hole_templates(setout, bonds), *labels(setout)]
    return finish(setout.room, [*cover(setout, others), *others], issued)
