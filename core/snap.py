"""Where an opening's edge likes to stand: panel joints, studs, row joints, and the brick grid between them.

All lengths are wall-local millimetres. Strong lines catch an edge from within a reach the caller gives (a few pixels);
fine lines, the pitches and courses, take whatever the strong ones leave.
"""

from bisect import bisect_left
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from core.setout.metric import x_mm, z_mm
from core.setout.result import Row, SetOut

Side = Literal["low", "high"]
"""An opening's left edge and sill are its low edges, its right edge and head the high ones."""
LineKind = Literal["panel joint", "stud", "wall end", "row joint", "floor", "pitch", "course"]


@dataclass(frozen=True, slots=True)
class SnapLine:
    """A line an edge may snap to; ``side`` is the one edge it is for, None where either may stand on it."""

    at_mm: float
    kind: LineKind
    side: Side | None = None


@dataclass(frozen=True, slots=True)
class AxisLines:
    """Lines of one direction, each list in rising order."""

    strong: tuple[SnapLine, ...]
    fine: tuple[SnapLine, ...]


@dataclass(frozen=True, slots=True)
class WallLines:
    """A wall's snap lines: upright ones along x, level ones along z."""

    along: AxisLines
    up: AxisLines


@dataclass(frozen=True, slots=True)
class Snapped:
    """How far to shift everything so that the ``side`` edge stands on ``line``."""

    shift_mm: float
    side: Side
    line: SnapLine


def wall_lines(setout: SetOut, wall: int) -> WallLines:
    """The snap lines of one wall of a set-out."""
    pitches = range(setout.walls[wall].pitches + 1)
    along = AxisLines(
        strong=_rising([*_joints(setout, wall), *_stud_faces(setout, wall), *_wall_ends(setout, wall)]),
        fine=tuple(SnapLine(x_mm(setout, wall, pitch), "pitch") for pitch in pitches),
    )
    return WallLines(along=along, up=_level_lines(setout))


def snap(edges: Mapping[Side, float], lines: AxisLines, reach_mm: float) -> Snapped | None:
    """The best line for the edges that move: the nearest strong one within reach, else the nearest fine one.

    None where neither is near: a fine line catches only from within its own spacing.
    """
    strong = [found for side, at_mm in edges.items() for found in _near(side, at_mm, lines.strong, reach_mm)]
    if strong:
        return min(strong, key=lambda found: abs(found.shift_mm))
    fine = [found for side, at_mm in edges.items() for found in _near(side, at_mm, lines.fine, _spacing(lines.fine))]
    return min(fine, key=lambda found: abs(found.shift_mm), default=None)


def _near(side: Side, at_mm: float, lines: tuple[SnapLine, ...], reach_mm: float) -> list[Snapped]:
    first = bisect_left(lines, at_mm - reach_mm, key=lambda line: line.at_mm)
    found = []
    for line in lines[first:]:
        if line.at_mm > at_mm + reach_mm:
            break
        if line.side in (None, side):
            found.append(Snapped(line.at_mm - at_mm, side, line))
    return found


def _spacing(lines: tuple[SnapLine, ...]) -> float:
    """The widest step between neighbouring lines, so that no edge between two of them is left out."""
    return max((b.at_mm - a.at_mm for a, b in pairwise(lines)), default=0.0)


def _rising(lines: Iterable[SnapLine]) -> tuple[SnapLine, ...]:
    """Lines in order; where several stand on one place the first given stays."""
    kept: dict[tuple[float, Side | None], SnapLine] = {}
    for line in lines:
        kept.setdefault((line.at_mm, line.side), line)
    return tuple(sorted(kept.values(), key=lambda line: line.at_mm))


def _joints(setout: SetOut, wall: int) -> list[SnapLine]:
    ends = {x for panel in setout.panels for face in panel.faces if face.wall == wall for x in (face.left, face.right)}
    return [SnapLine(x_mm(setout, wall, x), "panel joint") for x in ends]


def _stud_faces(setout: SetOut, wall: int) -> list[SnapLine]:
    """Faces of standing studs: an opening's left edge meets a stud's right face, its right edge a left face.

    Studs of a frame still to be built follow the panels, so they hold nothing back.
    """
    if setout.room.frame(wall).mode == "to_build":
        return []
    studs = [timber for timber in setout.timber if timber.wall == wall and timber.member == "stud"]
    lefts = [SnapLine(round(stud.left_mm, 4), "stud", "high") for stud in studs]
    return lefts + [SnapLine(round(stud.left_mm + stud.width_mm, 4), "stud", "low") for stud in studs]


def _wall_ends(setout: SetOut, wall: int) -> list[SnapLine]:
    return [SnapLine(0.0, "wall end", "low"), SnapLine(setout.walls[wall].length_mm, "wall end", "high")]


def _level_lines(setout: SetOut) -> AxisLines:
    kit = setout.room.kit
    tops = [z_mm(kit, row.z_plates + row.height_plates) for row in setout.rows]
    courses = sorted({plates for row in setout.rows for plates in _layer_lines(row, kit.plates_per_course)})
    return AxisLines(
        strong=_rising([SnapLine(0.0, "floor"), *(SnapLine(top, "row joint") for top in tops)]),
        fine=tuple(SnapLine(z_mm(kit, plates), "course") for plates in courses),
    )


def _layer_lines(row: Row, plates_per_course: int) -> list[int]:
    """Every line between layers of a row, in plates: brick courses, the plate course, the cap course."""
    bricks = [row.z_plates + plates_per_course * course for course in range(row.courses + 1)]
    return [*bricks, bricks[-1] + 1, bricks[-1] + 2]
