"""Timber as the take-off counts it: one material, in millimetres of length by wall."""

from collections import Counter
from collections.abc import Mapping
from math import ceil

from core.frame import FramePlan
from core.takeoff.material import Count, timber


def timber_of(frame: FramePlan) -> Mapping[int, Count]:
    """What the frame's pieces measure end to end, by wall, rounded up to whole millimetres; what the saw takes is not in it."""
    item = timber(frame.cuts.size)
    return {wall: Counter({item: ceil(round(mm, 3))}) for wall, mm in frame.cuts.mm_by_wall.items() if mm > 0}
