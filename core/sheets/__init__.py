"""The print pack as a drawing model: which sheets a room needs, drawn but not yet on any device."""

from datetime import date

from core.drawing import Sheet
from core.setout.result import SetOut
from core.sheets.cover import cover
from core.sheets.draft import Draft, finish
from core.sheets.elevation import elevations
from core.sheets.plan import plan
from core.sheets.schedule import schedule

__all__ = ["sheets_for"]


def sheets_for(setout: SetOut, *, issued: date | None = None) -> tuple[Sheet, ...]:
    """All sheets of the pack in order: cover, plan, elevations, schedules; the date of issue is blank where None."""
    others: list[Draft] = [*plan(setout)]
    for shell in setout.walls:
        others += elevations(setout, shell.wall)
    others += schedule(setout)
    return finish(setout.room, [*cover(setout, others), *others], issued)
