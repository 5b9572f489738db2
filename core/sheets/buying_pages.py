"""Everything about buying and crew that goes into the print pack."""

from collections.abc import Sequence

from core.buying import Purchasing
from core.crew.kitting import KitList, kit_lists
from core.crew.plan import CrewPlan
from core.frame import FramePlan
from core.setout.result import SetOut
from core.sheets.buying_crew import crew_sheets
from core.sheets.buying_kits import kitting_sheets
from core.sheets.buying_lists import buying_list, order_lists, wall_lists
from core.sheets.buying_progress import progress_sheets
from core.sheets.draft import Draft
from core.takeoff import TakeOff


def buying_sheets(
    setout: SetOut,
    takeoff: TakeOff,
    bought: Purchasing,
    plan: CrewPlan,
    frame: FramePlan | None = None,
    kits: Sequence[KitList] | None = None,
) -> list[Draft]:
    """Take-off and buying list, take-off by wall, order lists, crew plan, progress, kitting lists.

    ``kits`` are the kitting lists, where some panels are not laid as their design.
    With the ``frame`` the buying list names the boards to buy and which screw the panel screw is.
    """
    return [
        *buying_list(setout, takeoff, bought, frame),
        *wall_lists(setout, takeoff),
        *order_lists(setout, bought),
        *crew_sheets(setout, plan),
        *progress_sheets(setout, plan.own),
        *kitting_sheets(setout, kit_lists(setout, takeoff.laid) if kits is None else kits),
    ]
