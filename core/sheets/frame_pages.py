"""All sheets about the frame: a drawing and a list per wall, the cut list, the hardware."""

from core.frame import FramePlan
from core.setout.result import SetOut
from core.sheets.draft import Draft
from core.sheets.frame_drawing import frame_drawings
from core.sheets.frame_hardware import hardware
from core.sheets.frame_lists import timber_list, wall_list


def frame_pages(setout: SetOut, plan: FramePlan) -> list[Draft]:
    """The frame's part of the pack in order."""
    drafts: list[Draft] = []
    for frame in plan.walls:
        drafts += [*frame_drawings(setout, frame), *wall_list(setout, frame)]
    return [*drafts, *timber_list(setout, plan), *hardware(setout, plan)]
