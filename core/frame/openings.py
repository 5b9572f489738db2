"""Openings: what trim must cover, boxes that must come forward, cover plates, and the arithmetic of a way out."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from core.language import tr
from core.room import Opening, Room
from core.setout.result import Reveal, SetOut
from core.timberwork import FOOT_MM, INCH_MM, CoverPlate

ESCAPE_AREA_MM2 = 5.7 * FOOT_MM**2
ESCAPE_AREA_AT_GRADE_MM2 = 5.0 * FOOT_MM**2
ESCAPE_HEIGHT_MM, ESCAPE_WIDTH_MM, ESCAPE_SILL_MM = 24 * INCH_MM, 20 * INCH_MM, 44 * INCH_MM
"""IRC R310.2: 5.7 ft² (5.0 at grade), 24 in high, 20 in wide, sill at most 44 in above the floor."""


@dataclass(frozen=True, slots=True)
class Trim:
    """Reveals of one opening and the widths of trim that cover them, left, right, sill, head; each with its lap."""

    opening: str
    reveal: Reveal
    left_mm: float
    right_mm: float
    sill_mm: float
    head_mm: float


@dataclass(frozen=True, slots=True)
class BoxNote:
    """One outlet or switch: how far its box must come forward, how many gangs, and how the plate laps the panels."""

    opening: str
    forward_mm: float
    gangs: int
    laps_mm: tuple[float, float, float, float]
    """Left, right, bottom, top; negative where the hole in the panels shows beside the plate."""


@dataclass(frozen=True, slots=True)
class Escape:
    """The finished clear opening held against escape minima: what falls short, in words; nothing where nothing does."""

    opening: str
    width_mm: float
    height_mm: float
    sill_mm: float
    shortfalls: tuple[str, ...]


def trims(setout: SetOut) -> tuple[Trim, ...]:
    """The trim around every door, window and niche."""
    lap = setout.room.timberwork.trim_lap_mm
    return tuple(
        Trim(r.opening, r, *(round(side + lap, 2) for side in (r.left_mm, r.right_mm, r.sill_mm, r.head_mm)))
        for r in setout.reveals
        if setout.room.opening(r.opening).kind not in ("outlet", "switch")
    )


def box_notes(setout: SetOut) -> tuple[BoxNote, ...]:
    """Every electrical box: the lining burns, so each must come flush with its face (NEC 314.20)."""
    room, kit = setout.room, setout.room.kit
    found = []
    for reveal in setout.reveals:
        opening = room.opening(reveal.opening)
        if opening.kind in ("outlet", "switch"):
            forward = kit.thickness_pitches * kit.pitch_mm + setout.walls[opening.wall].packing_mm
            gangs = gangs_of(opening.width_mm, room.timberwork.plate)
            found.append(BoxNote(opening.id, forward, gangs, _laps(opening, reveal, room.timberwork.plate, gangs)))
    return tuple(found)


def gangs_of(box_mm: float, plate: CoverPlate) -> int:
    """The least gangs whose plate is wider than the box."""
    return max(1, ceil((box_mm - plate.width_mm) / plate.further_gang_mm + 1e-9) + 1) if box_mm > plate.width_mm else 1


def plate_width_mm(gangs: int, plate: CoverPlate) -> float:
    """Width of a cover plate: the first gang, and so much more for each further one."""
    return plate.width_mm + (gangs - 1) * plate.further_gang_mm


def _laps(opening: Opening, reveal: Reveal, plate: CoverPlate, gangs: int) -> tuple[float, float, float, float]:
    across = (plate_width_mm(gangs, plate) - opening.width_mm) / 2
    up = (plate.height_mm - opening.height_mm) / 2
    sides = (across - reveal.left_mm, across - reveal.right_mm, up - reveal.sill_mm, up - reveal.head_mm)
    left, right, bottom, top = (round(side, 2) for side in sides)
    return left, right, bottom, top


def escapes(room: Room) -> tuple[Escape, ...]:
    """Every window's finished clear opening; doors are wider than any of these minima or fail by eye."""
    loss = room.timberwork.opening_loss_mm
    return tuple(
        escape_of(o.id, o.width_mm - 2 * loss, o.height_mm - 2 * loss, o.sill_mm + loss)
        for o in room.openings
        if o.kind == "window"
    )


def escape_of(name: str, width_mm: float, height_mm: float, sill_mm: float, *, at_grade: bool = False) -> Escape:
    """Hold a clear opening against the minima; all of them bind together."""
    width, height = max(0.0, width_mm), max(0.0, height_mm)
    return Escape(name, width, height, sill_mm, tuple(_shortfalls(width, height, sill_mm, at_grade)))


def _shortfalls(width: float, height: float, sill: float, at_grade: bool) -> Iterator[str]:
    least = ESCAPE_AREA_AT_GRADE_MM2 if at_grade else ESCAPE_AREA_MM2
    if width * height < least - 1e-6:
        yield tr("clear area {area:.3f} m², {needed:.3f} needed", area=width * height / 1e6, needed=least / 1e6)
    if height < ESCAPE_HEIGHT_MM - 1e-6:
        yield tr("clear height {height:.0f} mm, {needed:.0f} mm needed", height=height, needed=ESCAPE_HEIGHT_MM)
    if width < ESCAPE_WIDTH_MM - 1e-6:
        yield tr("clear width {width:.0f} mm, {needed:.0f} mm needed", width=width, needed=ESCAPE_WIDTH_MM)
    if sill > ESCAPE_SILL_MM + 1e-6:
        yield tr("sill {sill:.0f} mm above the floor, at most {most:.0f} mm", sill=sill, most=ESCAPE_SILL_MM)
