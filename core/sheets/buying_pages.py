"""Everything about buying and crew that goes into the print pack."""

from core.buying import purchasing
from core.crew.plan import crew_plan
from core.setout.result import SetOut
from core.sheets.buying_crew import crew_sheets
from core.sheets.buying_kits import kitting_sheets
from core.sheets.buying_lists import buying_list, order_lists, wall_lists
from core.sheets.buying_progress import progress_sheets
from core.sheets.draft import Draft
from core.takeoff import DesignParts, take_off


def buying_sheets(setout: SetOut, parts: DesignParts) -> list[Draft]:
    """Take-off and buying list, take-off by wall, order lists, crew plan, progress, kitting lists."""
    takeoff = take_off(setout, parts)
    bought = purchasing(setout, takeoff)
    return [
        *buying_list(setout, takeoff, bought),
        *wall_lists(setout, takeoff),
        *order_lists(setout, bought),
        *crew_sheets(setout, crew_plan(setout)),
        *progress_sheets(setout),
        *kitting_sheets(setout, parts),
    ]
