"""Random edits of every kind, as a person in a hurry makes them: many are refused, none may do harm."""

import random
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType

from core import edits
from core.colouring import BandRule, WallRule
from core.edits.buying import count_boxes, receive, remove_supplier, set_purchase, set_supplier
from core.edits.colouring import add_rule, remove_rule, set_rest
from core.edits.copying import copy_wall, paste_openings
from core.edits.plan import move_wall, set_diagonal
from core.edits.progress import drop_wrong, lay_ring, mark_panels, record_wrong, step_panels
from core.edits.recess import add_recess
from core.edits.studs import add_stud, move_stud, remove_stud, set_rails, set_regular, set_stud_width
from core.edits.timberwork import put_reading, remove_reading, set_kerf
from core.edits.together import align_openings, free_shift_mm, remove_openings, shift_openings, size_openings
from core.errors import RoomError
from core.openings_text import openings_text, read_openings
from core.pins import JointPin
from core.progress import STATES, WrongPanel
from core.purchase import Offer, Supplier
from core.room import FrameToBuild, MeasuredFrame, OpeningKind, RegularFrame, Room
from core.setout.result import Panel, SetOut
from core.takeoff import Material

Pick = random.Random
RandomEdit = Callable[[SetOut, Pick], Room]

KINDS: tuple[OpeningKind, ...] = ("door", "window", "outlet", "switch", "niche")
MOST_WALLS = 14
"""Rooms are kept about this size, so that many edits fit into the time there is."""


def edit_opening(setout: SetOut, pick: Pick) -> Room:
    """Adds, moves, resizes, renames or removes an opening."""
    room, wall = setout.room, _wall(setout, pick)
    if not room.openings or pick.random() < 0.25:
        return edits.add_opening(room, pick.choice(KINDS), wall, pick.uniform(-100, 4000))
    name = pick.choice(room.openings).id
    match pick.randrange(5):
        case 0:
            return edits.move_opening(room, name, wall=pick.choice((None, wall)), left_mm=pick.uniform(0, 3000))
        case 1:
            return edits.resize_opening(room, name, width_mm=pick.uniform(-10, 1500), height_mm=pick.uniform(20, 2200))
        case 2:
            return edits.move_opening(room, name, sill_mm=pick.uniform(-50, 2200))
        case 3:
            return edits.rename_opening(room, name, pick.choice(("door", "A-1-1", "Ω", f"n{pick.randrange(99)}", "")))
        case _:
            return edits.remove_opening(room, name)


def edit_several(setout: SetOut, pick: Pick) -> Room:
    """Moves, sizes, levels, copies or removes several openings at once."""
    room, wall = setout.room, _wall(setout, pick)
    chosen = pick.sample(room.openings, pick.randint(0, len(room.openings)))
    names = [opening.id for opening in chosen]
    match pick.randrange(6):
        case 0:
            return shift_openings(room, names, *free_shift_mm(room, names, pick.uniform(-900, 900), pick.uniform(-300, 300)))
        case 1:
            return size_openings(room, names, sill_mm=pick.uniform(-50, 2200), width_mm=pick.choice((None, pick.uniform(1, 900))))
        case 2:
            return align_openings(room, names, pick.choice(("sill", "head")), pick.choice((*names, "door")))
        case 3:
            return paste_openings(room, read_openings(openings_text(chosen)), wall, pick.choice((None, pick.uniform(0, 3000))))
        case 4:
            return copy_wall(room, wall, [_wall(setout, pick)], mirrored=pick.random() < 0.5)
        case _:
            return remove_openings(room, names)


def edit_plan(setout: SetOut, pick: Pick) -> Room:
    """Moves, adds or removes corners and walls."""
    room, wall = setout.room, _wall(setout, pick)
    x, y = room.corners_mm[wall]
    near = (x + pick.choice((pick.uniform(-400, 400), 0.0)), y + pick.choice((pick.uniform(-400, 400), 0.0)))
    if room.wall_count > MOST_WALLS or pick.random() < 0.2:
        return edits.remove_corner(room, wall)
    match pick.randrange(7):
        case 0:
            return edits.move_corner(room, wall, near, square=pick.random() < 0.5)
        case 1:
            return edits.insert_corner(room, wall, near)
        case 2:
            return edits.step_wall(room, wall, pick.uniform(0, room.wall_length_mm(wall)), pick.uniform(-900, 900))
        case 3:
            return edits.set_wall_length(room, wall, pick.uniform(100, 5000))
        case 4:
            return move_wall(room, wall, pick.uniform(-500, 500))
        case 5:
            return add_recess(
                room, wall, left_mm=pick.uniform(200, 900), width_mm=pick.uniform(200, 900), depth_mm=near[0] - x or 300
            )
        case _:
            return set_diagonal(room, wall, pick.uniform(2000, 6000))


def edit_frame(setout: SetOut, pick: Pick) -> Room:
    """Changes how a wall's timber is given, or one of its studs."""
    room, wall = setout.room, _wall(setout, pick)
    number, centre = pick.randrange(8), round(pick.uniform(-20, 3100), 1)
    match pick.randrange(8):
        case 0:
            return edits.set_frame(room, wall, FrameToBuild())
        case 1:
            return edits.set_frame(room, wall, RegularFrame(mode="regular", spacing_mm=pick.choice((304.8, 406.4, 600.0))))
        case 2:
            return edits.set_frame(room, wall, MeasuredFrame(mode="measured", centres_mm=(19.0, 420.0, 800.0), rails_mm=(900.0,)))
        case 3:
            return move_stud(room, wall, number, centre)
        case 4:
            return pick.choice((add_stud(room, wall, centre), remove_stud(room, wall, number)))
        case 5:
            return set_regular(room, wall, spacing_mm=pick.uniform(20, 900))
        case 6:
            return set_rails(room, wall, [pick.uniform(-20, 1200), pick.uniform(1200, 2600)][: pick.randrange(3)])
        case _:
            return set_stud_width(room, wall, pick.uniform(10, 90))


def edit_pins(setout: SetOut, pick: Pick) -> Room:
    """Pins a panel, the rows or a place of a joint, or takes pins away."""
    room, panel = setout.room, _panel(setout, pick)
    if room.pins and (len(room.pins) > 8 or pick.random() < 0.4):
        return edits.remove_pins(room, pick.sample(room.pins, pick.randint(1, len(room.pins))))
    match pick.randrange(3):
        case 0:
            return edits.add_pins(room, edits.pins_for(setout, panel))
        case 1:
            return edits.add_pins(room, (edits.rows_pin(setout),))
        case _:
            pin = JointPin(kind="joint", wall=_wall(setout, pick), x_mm=pick.uniform(0, 3000), z_mm=pick.choice((None, 50.0)))
            return edits.add_pins(room, (pin,))


def edit_joints(setout: SetOut, pick: Pick) -> Room:
    """Changes what holds for the whole room: joints, height, name, units, kit, rates."""
    room = setout.room
    match pick.randrange(6):
        case 0:
            return edits.set_joints(room, "in line" if room.joints == "staggered" else "staggered")
        case 1:
            return edits.set_clad_height(room, pick.choice((pick.uniform(-10, 3000), 1980.0, 1024.0)))
        case 2:
            return edits.set_name(room, pick.choice(("", "Den", "x" * 121, "  Shed  ")))
        case 3:
            return edits.set_units(room, pick.choice(("mm", "ft-in")))
        case 4:
            return edits.set_kit(room, head_gap_mm=pick.choice((-1.0, 10.0, 25.0)), fit_mm=pick.choice((0.5, 1.0)))
        case _:
            return edits.set_rates(room, setup=pick.choice((0.0, 12.0)), weak=pick.choice((-5.0, 60.0, 90.0)))


def edit_progress(setout: SetOut, pick: Pick) -> Room:
    """Marks panels, steps them, notes wrong ones, lays the starter ring."""
    marks = [_panel(setout, pick).mark for _ in range(pick.randint(1, 6))]
    parts = {panel.design: {"brick 2x4": 5} for panel in setout.panels}
    match pick.randrange(5):
        case 0:
            return mark_panels(setout, marks, pick.choice(STATES), parts, on="2027-05-31", by="Kim")
        case 1 | 2:
            return step_panels(setout, marks, pick.choice(("forward", "back")), parts)
        case 3:
            wrong = WrongPanel(meant_for=_panel(setout, pick).design, widths_pitches=(pick.randint(1, 38),), courses=31)
            return record_wrong(setout.room, wrong)
        case _:
            return pick.choice(
                (
                    lay_ring(setout.room, Counter({Material("floor plate 2x8", None): pick.randint(0, 50)})),
                    drop_wrong(setout.room, 0),
                )
            )


def edit_stock(setout: SetOut, pick: Pick) -> Room:
    """Receives, counts, offers, spare parts."""
    room, count = setout.room, pick.randint(-5, 5000)
    material = Material(pick.choice(("brick 2x4", "plate 2x2", "plug", "no such part")), None)
    name = f"supplier {pick.randrange(6)}"
    match pick.randrange(5):
        case 0:
            return receive(room, material, count)
        case 1:
            return count_boxes(room, material, count)
        case 2:
            return set_supplier(room, Supplier(name=name, offers=(Offer(part="brick 2x4", pack=500, price=20.0),)))
        case 3:
            return remove_supplier(room, name)
        case _:
            return set_purchase(room, spare_percent=pick.uniform(-5, 320))


def edit_colours(setout: SetOut, pick: Pick) -> Room:
    """Adds and removes rules of colour."""
    room = setout.room
    match pick.randrange(4):
        case 0:
            return set_rest(room, pick.choice((None, "white", "no such colour")))
        case 1:
            return add_rule(room, WallRule(kind="wall", colour="sand", wall=_wall(setout, pick)))
        case 2:
            return add_rule(room, BandRule(kind="band", colour="fir", from_mm=0.0, to_mm=pick.uniform(1, 2000)))
        case _:
            return remove_rule(room, pick.randrange(4))


def edit_timberwork(setout: SetOut, pick: Pick) -> Room:
    """Readings of a wall's face, and the saw's cut."""
    room, wall = setout.room, _wall(setout, pick)
    match pick.randrange(3):
        case 0:
            x_mm, z_mm = pick.uniform(-10, 3500), pick.uniform(-10, 2500)
            return put_reading(room, wall, pick.choice((None, 0)), x_mm=x_mm, z_mm=z_mm, depth_mm=pick.uniform(-9, 9))
        case 1:
            return remove_reading(room, wall, pick.randrange(3))
        case _:
            return set_kerf(room, pick.uniform(-1, 9))


RANDOM_EDITS: Mapping[str, tuple[int, RandomEdit]] = MappingProxyType(
    {
        "openings": (6, edit_opening),
        "several openings": (3, edit_several),
        "plan": (4, edit_plan),
        "frames": (4, edit_frame),
        "pins": (3, edit_pins),
        "joints and kit": (3, edit_joints),
        "progress": (4, edit_progress),
        "stock": (3, edit_stock),
        "colours": (2, edit_colours),
        "timberwork": (2, edit_timberwork),
    }
)
"""Every kind of edit, and how often it comes among the others."""


def _wall(setout: SetOut, pick: Pick) -> int:
    return pick.randrange(setout.room.wall_count)


def _panel(setout: SetOut, pick: Pick) -> Panel:
    """Any panel; refused where the room has none."""
    panels: Sequence[Panel] = setout.panels
    if not panels:
        raise RoomError("the room has no panels")
    return pick.choice(panels)
