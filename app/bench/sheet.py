"""The printed sheet of one design only."""

from dataclasses import replace
from datetime import date

from core.bond.each import bonding
from core.drawing import Sheet
from core.setout.result import SetOut
from core.sheets.draft import finish
from core.sheets.panel_sheet import panel_sheets


def design_sheets(setout: SetOut, design: str) -> tuple[Sheet, ...]:
    """The panel sheets of a design, numbered for themselves; raises KeyError where there is none of that name."""
    alone = replace(setout, designs=tuple(one for one in setout.designs if one.name == design))
    if not alone.designs:
        raise KeyError(design)
    return finish(setout.room, panel_sheets(alone, bonding(alone)), date.today())
