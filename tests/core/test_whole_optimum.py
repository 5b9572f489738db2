"""The whole objective, set-ups shared, held against an integer program written from docs/set-out.md and not from the solver."""

import pytest

from core.export.setout_json import setout_json
from core.kit import Kit
from core.pins import LegPin, RowsPin
from core.room import Opening, Room
from core.setout import sketch, solve
from core.setout.result import SetOut
from core.setout.workshop import workshop_for
from tests.generate import TINY_KIT, seeded_room
from tests.reference.whole import WholeModel

NEAR_MINUTES = 1e-6
REFERENCE_SECONDS = 2.0
"""Deterministic seconds of the integer program: a little more than any of ``CLOSING`` needs."""

TWO_HEIGHTS_KIT = Kit(
    widths_pitches=(4, 8), legs_pitches=(4, 8), least_width_pitches=4, full_courses=7, half_courses=6, least_closing_courses=6
)
"""Rows of seven and six courses and no closing rows, so that the integer program closes rooms of several rows too."""

# fmt: off
CLOSING = [
    5001, 5002, 5004, 5005, 5008, 5011, 5012, 5014, 5016, 5017, 5018, 5019, 5020, 5022, 5024, 5028, 5029, 5030, 5032, 5037,
    5038, 5042, 5045, 5046, 5048, 5049, 5053, 5059, 5061, 5062, 5065, 5066, 5069, 5071, 5076, 5088, 5089, 5091, 5098, 5104,
    5105, 5106, 5107, 5114, 5118, 5119, 5122, 5123, 5124, 5125, 5126, 5129, 5130, 5131, 5133, 5134, 5135, 5136, 5139, 5140,
    5144, 5146, 5155, 5157, 5159, 5160, 5163, 5164, 5165, 5172, 5173, 5176, 5177, 5182, 5183, 5184, 5187, 5190, 5193, 5194,
    5197, 5198, 5199, 5202, 5203, 5204, 5205, 5208, 5209, 5211, 5214, 5216, 5218, 5219, 5227, 5228, 5234, 5241, 5242, 5243,
    5244, 5245, 5246, 5247, 5248, 5250, 5253, 5256, 5258, 5260, 5262, 5263, 5266, 5267, 5270, 5271, 5272, 5273, 5277, 5278,
    5280, 5283, 5292, 5294, 5295, 5296, 5300, 5302, 5306, 5311, 5312, 5313, 5314, 5316, 5322, 5323, 5327, 5333, 5334, 5339,
    5348, 5354, 5356, 5363, 5364, 5365, 5367, 5368, 5369, 5370, 5372, 5373, 5375, 5376, 5379, 5380, 5382, 5388, 5389, 5392,
    5393, 5396, 5397, 5402, 5404, 5409, 5411, 5413, 5415, 5417, 5418, 5420, 5421, 5424, 5425, 5427, 5428, 5430, 5431, 5433,
    5434, 5436, 5440, 5445, 5446, 5447, 5448, 5450, 5451, 5460, 5461, 5462, 5463, 5464, 5465, 5466, 5468, 5469, 5470,
    5472, 5476, 5477, 5485, 5486, 5488, 5489,
]
# fmt: on
"""Of the rooms 5001 to 5489 with up to 4500 candidates, all but one that the program closes in 1.5 deterministic seconds."""
OPEN = [5021, 5093, 5138, 5351, 5438]
"""Some of the others, and one that it closes and the solver's own proof does not."""


def small_room(seed: int) -> Room:
    """Four to eight walls, corners of both kinds, up to five openings; odd seeds have up to four rows, even ones one or two."""
    lengths = {"least_pitches": 8 + seed % 3 * 2, "most_pitches": 16 + seed % 4 * 2}
    if seed % 2:
        return seeded_room(seed, kit=TWO_HEIGHTS_KIT, most_rows=3, **lengths)
    return seeded_room(seed, kit=TINY_KIT, most_rows=1, **lengths)


def is_proven(setout: SetOut) -> bool:
    return setout.minutes.total == pytest.approx(setout.minutes.bound, abs=NEAR_MINUTES)


def assert_is_the_optimum(setout: SetOut) -> None:
    proven = WholeModel.of(setout).solve(REFERENCE_SECONDS)
    assert proven.least == proven.found
    assert setout.minutes.total == pytest.approx(float(proven.found), abs=NEAR_MINUTES)
    assert setout.minutes.bound <= float(proven.least) + NEAR_MINUTES


@pytest.mark.parametrize("seed", CLOSING[::10])
def test_a_small_room_s_set_out_is_the_independent_optimum(seed: int) -> None:
    assert_is_the_optimum(solve(small_room(seed)))


@pytest.mark.slow
@pytest.mark.parametrize("seed", [seed for n, seed in enumerate(CLOSING) if n % 10])
def test_every_small_room_s_set_out_is_the_independent_optimum(seed: int) -> None:
    assert_is_the_optimum(solve(small_room(seed)))


def test_the_rooms_compared_have_openings_and_corners_of_both_kinds_and_several_rows() -> None:
    assert len(CLOSING) >= 200
    setouts = [sketch(small_room(seed)) for seed in CLOSING]
    assert sum(bool(setout.room.openings) for setout in setouts) > 150
    assert sum(len(setout.rows) > 1 for setout in setouts) > 75
    assert sum("outside" in {wall.left for wall in setout.walls} for setout in setouts) > 75


@pytest.mark.parametrize("seed", CLOSING[1::13])
def test_nearly_every_small_room_is_told_to_be_proven(seed: int) -> None:
    assert is_proven(solve(small_room(seed)))


@pytest.mark.slow
@pytest.mark.parametrize("seed", OPEN)
def test_where_the_integer_program_does_not_close_neither_bound_contradicts_the_other(seed: int) -> None:
    setout = solve(small_room(seed))
    proven = WholeModel.of(setout).solve(REFERENCE_SECONDS)
    assert setout.minutes.total >= float(proven.least) - NEAR_MINUTES
    assert setout.minutes.bound <= float(proven.found) + NEAR_MINUTES
    assert setout.minutes.total <= (1 + setout.minutes.excess) * float(proven.found) + NEAR_MINUTES


def den(*openings: Opening) -> Room:
    """A room whose walls are whole pitches long, so that its mirror image stands on the mirrored grid."""
    corners = ((0.0, 0.0), (0.0, 137.0), (185.0, 137.0), (185.0, 0.0))
    return Room(name="den", corners_mm=corners, clad_height_mm=192.4, kit=TINY_KIT, openings=openings)


def hole(name: str, wall: int, left_mm: float, sill_mm: float, width_mm: float, height_mm: float) -> Opening:
    return Opening(id=name, kind="niche", wall=wall, left_mm=left_mm, sill_mm=sill_mm, width_mm=width_mm, height_mm=height_mm)


DENS = [
    den(),
    den(hole("hatch", 1, 40.5, 30.0, 50.0, 90.0)),
    den(hole("hatch", 0, 20.5, 0.0, 61.0, 120.0), hole("box", 2, 101.0, 60.0, 30.0, 40.0)),
    den(hole("low", 3, 12.5, 10.0, 44.0, 60.0), hole("high", 3, 97.5, 100.0, 30.0, 40.0)),
]


def mirrored(room: Room) -> Room:
    """The room as a mirror shows it: its plan reversed, every opening as far from its wall's other end."""
    width = max(x for x, _ in room.corners_mm)
    corners = tuple((width - x, y) for x, y in (room.corners_mm[:1] + room.corners_mm[:0:-1]))
    last = room.wall_count - 1
    openings = tuple(
        opening.model_copy(
            update={
                "wall": last - opening.wall,
                "left_mm": room.wall_length_mm(opening.wall) - opening.left_mm - opening.width_mm,
            }
        )
        for opening in room.openings
    )
    return Room.model_validate(dict(room) | {"corners_mm": corners, "openings": openings})


@pytest.mark.parametrize("room", DENS)
def test_a_mirrored_room_takes_as_long_and_as_many_panels_of_each_kind(room: Room) -> None:
    plain, turned = solve(room), solve(mirrored(room))
    assert is_proven(plain)
    assert is_proven(turned)
    assert plain.minutes.total == pytest.approx(turned.minutes.total, abs=NEAR_MINUTES)
    assert mirrored(mirrored(room)) == room


@pytest.mark.parametrize("room", [*DENS, *(small_room(seed) for seed in CLOSING[3:60:9])])
def test_a_pinned_optimum_stays_optimal(room: Room) -> None:
    """Its rows, and in its lowest row every corner leg, pinned as they are."""
    best = solve(room)
    kit, lowest = room.kit, best.rows[0]
    middle_mm = lowest.height_plates / 2 * kit.plate_mm
    pins: list[RowsPin | LegPin] = [RowsPin(kind="rows", courses=tuple(row.courses for row in best.rows))]
    for panel in best.panels:
        # A shorter leg is what an opening left of one.
        if panel.row == 0 and len(panel.faces) == 2 and min(f.right - f.left for f in panel.faces) >= kit.least_width_pitches:
            left, right = panel.faces
            at = {"kind": "leg", "z_mm": middle_mm}
            pins.append(LegPin(wall=left.wall, end="right", pitches=left.right - left.left, **at))
            pins.append(LegPin(wall=right.wall, end="left", pitches=right.right - right.left, **at))
    pinned = solve(room.model_copy(update={"pins": tuple(pins)}))
    assert not [check for check in pinned.checks if check.code == "pin-refused"]
    assert pinned.minutes.total == pytest.approx(best.minutes.total, abs=NEAR_MINUTES)
    assert not is_proven(best) or is_proven(pinned)


@pytest.mark.parametrize("seed", CLOSING[5:60:11])
def test_solving_twice_writes_the_same_to_the_byte(seed: int) -> None:
    first = setout_json(solve(small_room(seed)))
    workshop_for.cache_clear()
    assert setout_json(solve(small_room(seed))) == first
