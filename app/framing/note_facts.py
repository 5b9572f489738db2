"""Loads, lifting and openings in rows: arithmetic for people who judge them, never a permission."""

from collections.abc import Iterator

from app import theme
from app.framing.facts import Fact
from app.framing.wall_facts import short
from core.frame import FramePlan
from core.frame.loads import SOLID_KG_PER_M3, SOLID_SHARE, lifting_limit_kg
from core.room import Room, wall_letter
from core.units import format_length, in_units

LOAD_TITLES = ("Load", "Value.")
OPENING_TITLES = ("Opening", "What", "Figures")
CHECK_TITLES = ("", "Where", "What")
DEFERS = (
    "A qualified person judges the frame and every load; a licensed electrician the boxes; the local authority the ways out. "
    "Fire: not assessed."
)
_LOCAL = "Local code and licensed practice decide"
LIFT_REACH_CM, LIFT_FROM_CM, LIFT_TRAVEL_CM = 40.0, 15.0, 85.0
"""A box lifted off the floor onto a bench, held close. Common practice, no published source."""


def load_facts(room: Room, plan: FramePlan) -> list[Fact]:
    """What the lining weighs, by wall, and what to pack and lift at most."""
    loads = plan.loads
    guess = f"area × thickness × {SOLID_KG_PER_M3:g} kg/m³ × {SOLID_SHARE:g} (estimated: ABS data sheets; share from memory)"
    how = guess if loads.is_estimated else "parts of every bond × their masses in the room file"
    sign = "about " if loads.is_estimated else ""
    found = [Fact(("lining, all walls", f"{sign}{loads.total_kg:.0f} kg"), f"Sum over panels: {how}. Source: arithmetic.")]
    found += [
        Fact(
            (f"  wall {wall_letter(wall)}", f"{sign}{kg:.0f} kg"),
            f"Panels of wall {wall_letter(wall)}, corner panels by their share: {how}. Source: arithmetic.",
            f"wall {wall_letter(wall)}",
        )
        for wall, kg in loads.by_wall.items()
    ]
    found.append(
        Fact(("to the square metre", f"{loads.per_m2_kg:.1f} kg"), f"{loads.total_kg:.1f} kg / lined area. Source: arithmetic.")
    )
    return [*found, *_box_facts(room, plan)]


def _box_facts(room: Room, plan: FramePlan) -> Iterator[Fact]:
    loads, most = plan.loads, room.stock.heaviest_box_kg
    limit = lifting_limit_kg(reach_cm=LIFT_REACH_CM, from_cm=LIFT_FROM_CM, travel_cm=LIFT_TRAVEL_CM)
    if loads.heaviest:
        kg = loads.by_design[loads.heaviest]
        how = f"{most:g} kg a box at most / {kg:.3f} kg, rounded down. Source: arithmetic; the limit is set in the room file."
        yield Fact(("heaviest panel", f"{kg:.2f} kg"), f"Design {loads.heaviest}. Source: as the lining.")
        yield Fact(("panels to a box, at most", str(loads.panels_per_box)), how)
    yield Fact(
        ("one person lifts, at most", f"{limit:.1f} kg"),
        f"23 kg × 25/{LIFT_REACH_CM:g} × (1 - 0.003 |{LIFT_FROM_CM:g} - 75|) × (0.82 + 4.5/{LIFT_TRAVEL_CM:g}): "
        f"held {LIFT_REACH_CM:g} cm out, from {LIFT_FROM_CM:g} cm up to a bench, now and then. "
        f"Source: NIOSH 94-110, revised lifting equation. A caution, no permission.",
    )


def opening_facts(room: Room, plan: FramePlan) -> list[Fact]:
    """Trim, boxes, ways out and far stretches; all of it for others to judge."""
    return [*_trims(room, plan), *_boxes(room, plan), *_escapes(room, plan), *_far(room, plan)]


def _trims(room: Room, plan: FramePlan) -> Iterator[Fact]:
    units, lap = room.display_units, room.timberwork.trim_lap_mm
    for trim in plan.trims:
        sides = zip(("left", "right", "sill", "head"), (trim.left_mm, trim.right_mm, trim.sill_mm, trim.head_mm), strict=True)
        figures = ", ".join(f"{side} {short(mm, units)}" for side, mm in sides)
        how = f"Reveal + {format_length(lap, units)} of lap on each side. Source: geometry; the lap is common practice."
        yield Fact((trim.opening, "least trim width", figures), how, f"opening {trim.opening}")


def _boxes(room: Room, plan: FramePlan) -> Iterator[Fact]:
    units = room.display_units
    for box in plan.boxes:
        laps = " ".join(short(lap, units) for lap in box.laps_mm)
        gangs = f"{box.gangs} gang{'s' if box.gangs > 1 else ''}"
        figures = f"{short(box.forward_mm, units)} forward, {gangs}, plate laps {laps}"
        how = (
            "Forward: lining + packing, for the lining burns (NEC 314.20). Plate laps left, right, bottom, top: "
            f"(plate - box) / 2 - reveal, plate sizes ANSI/NEMA WD 6. "
            f"Power off and proven dead; work for a licensed electrician. {_LOCAL}."
        )
        yield Fact((box.opening, "box comes forward", figures), how, f"opening {box.opening}")


def _escapes(room: Room, plan: FramePlan) -> Iterator[Fact]:
    units = room.display_units
    for escape in plan.escapes:
        clear = f"{short(escape.width_mm, units)} × {short(escape.height_mm, units)}, sill {short(escape.sill_mm, units)}"
        said = in_units("; ".join(escape.shortfalls), units) or "meets the sizes held against it"
        how = (
            f"Clear opening less {format_length(room.timberwork.opening_loss_mm, units)} on each side: {said}. "
            f"Source: IRC R310.2: 5.7 ft² (5.0 at grade), 24 in high, 20 in wide, sill at most 44 in. "
            f"Whether it must be a way out, and is one, the local authority decides."
        )
        yield Fact((escape.opening, "as a way out", f"{clear}: {said}"), how, f"opening {escape.opening}")


def _far(room: Room, plan: FramePlan) -> Iterator[Fact]:
    for stretch in plan.far_from_outlets:
        long = short(stretch.end_mm - stretch.begin_mm, room.display_units)
        how = (
            f"Floor line over 6 ft from any outlet along the walls. Source: NEC 210.52(A). Ask a licensed electrician. {_LOCAL}."
        )
        yield Fact((f"wall {stretch.wall}", "far from an outlet", f"{long} of floor line"), how, f"wall {stretch.wall}")


def check_facts(room: Room, plan: FramePlan) -> list[Fact]:
    """The frame's own checks, gravest first."""
    return [
        Fact((theme.LEVEL_SIGNS[check.level], check.where, text), text, check.where)
        for check in plan.checks
        for text in (in_units(check.text, room.display_units),)
    ]
