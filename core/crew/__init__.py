"""Who builds what, when, and what is done."""

from core.crew.plan import Bar, CrewPlan, Finish, Range, crew_plan, person_days
from core.crew.standing import Orphan, Standing, place_of, standing
from core.crew.work import hanging_order

__all__ = [
    "Bar",
    "CrewPlan",
    "Finish",
    "Orphan",
    "Range",
    "Standing",
    "crew_plan",
    "hanging_order",
    "person_days",
    "place_of",
    "standing",
]
