"""Panels whose holes the frame wants elsewhere than their sheet draws them: said where they are built, before they are built."""

from collections import defaultdict
from collections.abc import Mapping, Sequence

from core.frame import FramePlan
from core.room import wall_letter
from core.sheets.flow import Line, heading_and_words, paragraph
from core.sheets.panel_facts import mark_groups

MovedHoles = Mapping[str, frozenset[int]]
"""By mark, the walls on whose frame list a hole of the panel is moved."""


def moved_holes(plan: FramePlan) -> MovedHoles:
    """The panels that cannot be built as drawn: for some screw no timber helps, only another place of the hole."""
    found: defaultdict[str, set[int]] = defaultdict(set)
    for frame in plan.walls:
        for miss in frame.backed.misses:
            if miss.remedy == "move":
                found[miss.point.mark].add(frame.wall)
    return {mark: frozenset(walls) for mark, walls in found.items()}


def move_lines(marks: Sequence[str], moved: MovedHoles, width_mm: float) -> list[Line]:
    """Which of these panels need a hole elsewhere, and which list says where; nothing where all are built as drawn."""
    mine = [mark for mark in marks if mark in moved]
    if not mine:
        return []
    walls = sorted({wall for mark in mine for wall in moved[mark]})
    lists = f"frame list{'' if len(walls) == 1 else 's'} of wall{'' if len(walls) == 1 else 's'} {_joined(walls)}"
    said = f"{'; '.join(mark_groups(mine))}: a hole must move, or its screw finds no timber: see {lists}."
    return [*heading_and_words("Holes NOT as drawn here", "ask before you build these", width_mm), *paragraph(said, width_mm)]


def _joined(walls: Sequence[int]) -> str:
    *front, last = map(wall_letter, walls)
    return f"{', '.join(front)} and {last}" if front else last
