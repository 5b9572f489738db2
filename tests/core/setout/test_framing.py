"""A frame still to be built follows the panels: a stud behind every joint, or blocking where there is no room for one."""

from itertools import combinations

from hypothesis import given

from core.room import Room
from core.setout import solve
from core.setout.framing import BLOCKING, FrameDesign, design_frame
from core.setout.metric import x_mm
from core.setout.result import SetOut, Timber
from core.setout.timber import UPRIGHTS
from tests.core.setout.rooms import demo, few, opening, rectangle
from tests.generate import SMALL_KIT, TINY_KIT, rooms

MIDDLE_MM = 1000.0
BUILT_TO_SUIT = rooms(kit=TINY_KIT, most_pitches=40, most_rows=2) | rooms(kit=SMALL_KIT, most_pitches=60, most_rows=2)


def centres(design: FrameDesign) -> list[float]:
    """Middles of the common studs."""
    return [t.left_mm + t.width_mm / 2 for t in design.members if t.member == "stud"]


def framed(*joints_by_row: list[float]) -> FrameDesign:
    """Wall A, 3 m long and 2 m high, without openings."""
    return design_frame(rectangle(3000, 3000, 2000), 0, joints_by_row)


def test_a_stud_is_centred_on_every_joint_that_leaves_room_for_it() -> None:
    assert centres(framed([300.0, 604.0], [300.0, 908.0])) == [19.0, 300.0, 604.0, 908.0, 2981.0]


def test_the_joint_of_more_rows_has_the_stud() -> None:
    assert centres(framed([620.0], [620.0], [600.0])) == [19.0, 620.0, 2981.0]


def test_a_screw_at_a_joint_too_near_a_stud_goes_into_blocking() -> None:
    design = framed([600.0], [600.0], [630.0])
    assert design.lands_on(630.0 + 8.0, MIDDLE_MM) == BLOCKING


def test_the_screws_on_both_sides_of_a_joint_land_on_its_stud() -> None:
    """One pitch in from the joint: 11 mm from the edges of a 38 mm stud, which is over the 8 mm needed."""
    design = framed([600.0])
    assert [design.lands_on(600.0 + side, MIDDLE_MM) for side in (-8.0, 8.0)] == ["stud", "stud"]


def test_a_joint_beside_a_window_s_trimmer_gets_no_stud_of_its_own() -> None:
    room = rectangle(3000, 3000, 2000, [opening("window", 0, 1000, 900, 900, 600)])
    assert centres(design_frame(room, 0, [[980.0]])) == [19.0, 2981.0]


def uprights(setout: SetOut, wall: int) -> list[Timber]:
    return [t for t in setout.timber if t.wall == wall and t.member in UPRIGHTS]


def overlap(a: Timber, b: Timber) -> bool:
    """By more than a tenth of a millimetre both ways."""
    across = min(a.left_mm + a.width_mm, b.left_mm + b.width_mm) - max(a.left_mm, b.left_mm)
    up = min(a.bottom_mm + a.height_mm, b.bottom_mm + b.height_mm) - max(a.bottom_mm, b.bottom_mm)
    return across > 0.1 and up > 0.1


@few
@given(rooms(kit=TINY_KIT, most_pitches=60, most_rows=2, most_openings=0))
def test_studs_of_a_frame_to_build_never_overlap(room: Room) -> None:
    setout = solve(room)
    pairs = (pair for wall in range(room.wall_count) for pair in combinations(uprights(setout, wall), 2))
    assert not any(overlap(a, b) for a, b in pairs)


def joints_without_upright(setout: SetOut) -> list[str]:
    """Edges of flat panels that have no upright nearer than a stud's width."""
    found = []
    for panel in setout.panels:
        if len(panel.faces) > 1:
            continue
        (face,) = panel.faces
        stud = setout.room.frame(face.wall).stud_mm
        for edge in (face.left, face.right):
            at = x_mm(setout, face.wall, edge)
            if not any(abs(at - t.left_mm - t.width_mm / 2) < stud for t in uprights(setout, face.wall)):
                found.append(f"{panel.mark} at {at:g} mm")
    return found


@few
@given(rooms(kit=TINY_KIT, most_pitches=60, most_rows=2, most_openings=0))
def test_every_joint_has_an_upright_nearer_than_a_stud_s_width(room: Room) -> None:
    assert joints_without_upright(solve(room)) == []


@few
@given(BUILT_TO_SUIT)
def test_no_screw_misses_where_the_frame_is_built_to_suit(room: Room) -> None:
    mounts = [mount for panel in solve(room).panels for face in panel.faces for mount in face.mounts]
    assert all(mount.lands_on is not None for mount in mounts)


def test_most_screws_of_the_demo_s_first_wall_land_on_studs_rather_than_blocking() -> None:
    """Above the sole plate every joint of wall A that lies in line is on a stud."""
    setout = solve(demo())
    landed = [m.lands_on for p in setout.panels if p.row in (1, 2, 3) for f in p.faces for m in f.mounts if m.wall == 0]
    assert landed.count(BLOCKING) < len(landed) / 4
