"""A room as the tape found it: measured walls and turns, what they miss to close, and what diagonals say of the corners."""

from core.survey.diagonals import (
    CornerCheck,
    across_pairs,
    angle_deg,
    checked_corners,
    contradiction_mm,
)
from core.survey.legs import Leg, parse_list, parse_turn_deg, read_leg, written
from core.survey.traverse import (
    RULES,
    Closure,
    Rule,
    Traverse,
    closure_of,
    share_out,
    traverse,
    way_in_words,
)

__all__ = [
    "RULES",
    "Closure",
    "CornerCheck",
    "Leg",
    "Rule",
    "Traverse",
    "across_pairs",
    "angle_deg",
    "checked_corners",
    "closure_of",
    "contradiction_mm",
    "parse_list",
    "parse_turn_deg",
    "read_leg",
    "share_out",
    "traverse",
    "way_in_words",
    "written",
]
