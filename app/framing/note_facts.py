"""Loads, lifting and openings in rows: arithmetic for people who judge them, never a permission."""

from collections.abc import Iterator

from app import theme
from app.framing.facts import Fact
from app.framing.wall_facts import short
from core.frame import FramePlan
from core.frame.loads import SOLID_KG_PER_M3, SOLID_SHARE, lifting_limit_kg
from core.language import marked, tr, trn
from core.places import place_words
from core.room import Room, wall_letter
from core.units import format_length, in_units

LOAD_TITLES = (marked("Load"), marked("Value."))
OPENING_TITLES = (marked("Opening"), marked("What"), marked("Figures"))
CHECK_TITLES = ("", marked("Where"), marked("What"))
DEFERS = marked(
    "A qualified person judges the frame and every load; a licensed electrician the boxes; the local authority the ways out. "
    "Fire: not assessed."
)

LIFT_REACH_CM, LIFT_FROM_CM, LIFT_TRAVEL_CM = 40.0, 15.0, 85.0
"""A box lifted off the floor onto a bench, held close. Common practice, no published source."""


def load_facts(room: Room, plan: FramePlan) -> list[Fact]:
    """What the lining weighs, by wall, and what to pack and lift at most."""
    loads = plan.loads
    guess = tr(
        "area × thickness × {density:g} kg/m³ × {share:g} (estimated: ABS data sheets; share from memory)",
        density=SOLID_KG_PER_M3,
        share=SOLID_SHARE,
    )
    how = guess if loads.is_estimated else tr("parts of every bond × their masses in the room file")
    total = _mass(loads.total_kg, is_estimated=loads.is_estimated)
    found = [Fact((tr("lining, all walls"), total), tr("Sum over panels: {how}. Source: arithmetic.", how=how))]
    for wall, kg in loads.by_wall.items():
        letter = wall_letter(wall)
        found.append(
            Fact(
                (tr("  wall {wall}", wall=letter), _mass(kg, is_estimated=loads.is_estimated)),
                tr("Panels of wall {wall}, corner panels by their share: {how}. Source: arithmetic.", wall=letter, how=how),
                f"wall {letter}",
            )
        )
    per_m2 = tr("{total:.1f} kg / lined area. Source: arithmetic.", total=loads.total_kg)
    found.append(Fact((tr("to the square metre"), f"{loads.per_m2_kg:.1f} kg"), per_m2))
    return [*found, *_box_facts(room, plan)]


def _mass(kg: float, *, is_estimated: bool) -> str:
    return tr("about {mass:.0f} kg", mass=kg) if is_estimated else f"{kg:.0f} kg"


def _box_facts(room: Room, plan: FramePlan) -> Iterator[Fact]:
    loads, most = plan.loads, room.stock.heaviest_box_kg
    limit = lifting_limit_kg(reach_cm=LIFT_REACH_CM, from_cm=LIFT_FROM_CM, travel_cm=LIFT_TRAVEL_CM)
    if loads.heaviest:
        kg = loads.by_design[loads.heaviest]
        how = tr(
            "{most:g} kg a box at most / {panel:.3f} kg, rounded down. Source: arithmetic; the limit is set in the room file.",
            most=most,
            panel=kg,
        )
        heaviest = tr("Design {design}. Source: as the lining.", design=loads.heaviest)
        yield Fact((tr("heaviest panel"), f"{kg:.2f} kg"), heaviest)
        yield Fact((tr("panels to a box, at most"), str(loads.panels_per_box)), how)
    yield Fact(
        (tr("one person lifts, at most"), f"{limit:.1f} kg"),
        tr(
            "23 kg × 25/{reach:g} × (1 - 0.003 |{height:g} - 75|) × (0.82 + 4.5/{travel:g}): "
            "held {reach:g} cm out, from {height:g} cm up to a bench, now and then. "
            "Source: NIOSH 94-110, revised lifting equation. A caution, no permission.",
            reach=LIFT_REACH_CM,
            height=LIFT_FROM_CM,
            travel=LIFT_TRAVEL_CM,
        ),
    )


def opening_facts(room: Room, plan: FramePlan) -> list[Fact]:
    """Trim, boxes, ways out and far stretches; all of it for others to judge."""
    return [*_trims(room, plan), *_boxes(room, plan), *_escapes(room, plan), *_far(room, plan)]


def _trims(room: Room, plan: FramePlan) -> Iterator[Fact]:
    units, lap = room.display_units, room.timberwork.trim_lap_mm
    how = tr("Reveal + {lap} of lap on each side. Source: geometry; the lap is common practice.", lap=format_length(lap, units))
    for trim in plan.trims:
        figures = tr(
            "left {left}, right {right}, sill {sill}, head {head}",
            left=short(trim.left_mm, units),
            right=short(trim.right_mm, units),
            sill=short(trim.sill_mm, units),
            head=short(trim.head_mm, units),
        )
        yield Fact((trim.opening, tr("least trim width"), figures), how, f"opening {trim.opening}")


def _boxes(room: Room, plan: FramePlan) -> Iterator[Fact]:
    units = room.display_units
    how = tr(
        "Forward: lining + packing, for the lining burns (NEC 314.20). Plate laps left, right, bottom, top: "
        "(plate - box) / 2 - reveal, plate sizes ANSI/NEMA WD 6. "
        "Power off and proven dead; work for a licensed electrician. Local code and licensed practice decide."
    )
    for box in plan.boxes:
        laps = " ".join(short(lap, units) for lap in box.laps_mm)
        figures = trn(
            "{forward} forward, {n} gang, plate laps {laps}",
            "{forward} forward, {n} gangs, plate laps {laps}",
            box.gangs,
            forward=short(box.forward_mm, units),
            laps=laps,
        )
        yield Fact((box.opening, tr("box comes forward"), figures), how, f"opening {box.opening}")


def _escapes(room: Room, plan: FramePlan) -> Iterator[Fact]:
    units = room.display_units
    for escape in plan.escapes:
        said = in_units("; ".join(escape.shortfalls), units) or tr("meets the sizes held against it")
        clear = tr(
            "{width} × {height}, sill {sill}: {said}",
            width=short(escape.width_mm, units),
            height=short(escape.height_mm, units),
            sill=short(escape.sill_mm, units),
            said=said,
        )
        how = tr(
            "Clear opening less {loss} on each side: {said}. "
            "Source: IRC R310.2: 5.7 ft² (5.0 at grade), 24 in high, 20 in wide, sill at most 44 in. "
            "Whether it must be a way out, and is one, the local authority decides.",
            loss=format_length(room.timberwork.opening_loss_mm, units),
            said=said,
        )
        yield Fact((escape.opening, tr("as a way out"), clear), how, f"opening {escape.opening}")


def _far(room: Room, plan: FramePlan) -> Iterator[Fact]:
    how = tr(
        "Floor line over 6 ft from any outlet along the walls. Two outlets next to each other along unbroken wall are so at most "
        "12 ft apart. Source: NEC 210.52(A)(1). Ask a licensed electrician. Local code and licensed practice decide."
    )
    for stretch in plan.far_from_outlets:
        where = f"wall {stretch.wall}"
        units = room.display_units
        long = tr("{length} of floor line", length=short(stretch.end_mm - stretch.begin_mm, units))
        if stretch.apart_mm is not None:
            long = tr(
                "{length} of floor line, outlets {apart} apart",
                length=short(stretch.end_mm - stretch.begin_mm, units),
                apart=short(stretch.apart_mm, units),
            )
        yield Fact((place_words(where), tr("far from an outlet"), long), how, where)


def check_facts(room: Room, plan: FramePlan) -> list[Fact]:
    """The frame's own checks, gravest first."""
    return [
        Fact((tr(theme.LEVEL_SIGNS[check.level]), place_words(check.where), text), text, check.where)
        for check in plan.checks
        for text in (in_units(check.text, room.display_units),)
    ]
