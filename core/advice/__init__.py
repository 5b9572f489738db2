"""Advice: small changes of a room that spare the crew work, each worked out as exactly as the room itself."""

from core.advice.changes import Change, LengthChange, OpeningChange
from core.advice.frame import advise_wall
from core.advice.opening import advise_opening
from core.advice.suggestion import Suggestion
from core.advice.trial import Search, found_by
from core.advice.words import caution_text, change_text, saving_text, undo_text, wall_text
from core.advice.work import Work, work_of

__all__ = [
    "Change",
    "LengthChange",
    "OpeningChange",
    "Search",
    "Suggestion",
    "Work",
    "advise_opening",
    "advise_wall",
    "caution_text",
    "change_text",
    "found_by",
    "saving_text",
    "undo_text",
    "wall_text",
    "work_of",
]
