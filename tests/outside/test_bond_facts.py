"""Counts and trade rules from outside the project that bonds must agree with."""

from collections.abc import Iterator
from itertools import pairwise

import numpy as np
import pytest

from core.bond import bonds_for
from core.bond.palette import palette_of
from core.bond.patterns import Floats, clashes
from core.bond.result import Bond, Laid, Layer, LayerKind
from core.bond.shape import PanelShape, ShapeLayer
from core.bond.solving import bond_shape
from core.bond.strength import couplings, joints_in, owners_of
from core.bond.tilings import all_tilings, count_tilings, joints_of
from core.kit import Kit
from core.parts import DEFAULT_PARTS, Part
from core.room import Room
from core.setout import solve
from core.setout.metric import z_mm

INCH_MM = 25.4


@pytest.mark.parametrize(
    ("run", "lengths", "ways"),
    [(38, (2, 3, 4), 739_169), (19, (1, 2, 3, 4), 147_312), (19, (1, 2), 6_765), (15, (2, 3), 28)],
)
def test_ways_to_fill_a_course(run: int, lengths: tuple[int, ...], ways: int) -> None:
    """OEIS A013979 at 38; A000078, whose offset is 3, at 22; A000045 at 20; A182097 at 15 (from memory)."""
    assert count_tilings(run, lengths) == ways


def test_the_tilings_listed_are_as_many_as_counted() -> None:
    """OEIS A000078: 2872 ways to fill 13 pitches with 1, 2, 3 and 4."""
    listed = list(all_tilings(13, (1, 2, 3, 4)))
    assert len(listed) == len(set(listed)) == 2_872
    assert {sum(tiling) for tiling in listed} == {13}


def _walls(width: int, courses: int) -> int:
    """How many walls of 2 and 3 pitch bricks have no joint above a joint."""
    tilings = list(all_tilings(width, (2, 3)))
    joints: Floats = np.zeros((len(tilings), width + 1))
    for row, tiling in zip(joints, tilings, strict=True):
        row[list(joints_of(tiling))] = 1
    laps = clashes(joints, joints, {0: 1}) == 0
    ways = np.ones(len(tilings), dtype=np.int64)
    for _ in range(courses - 1):
        ways = laps.astype(np.int64) @ ways
    return int(ways.sum())


@pytest.mark.parametrize(
    ("width", "courses", "ways"), [(9, 1, 5), (9, 3, 8), (18, 5, 7_958), (32, 1, 3_329), (32, 10, 806_844_323_190_414)]
)
def test_crack_free_walls(width: int, courses: int, ways: int) -> None:
    """W(9,3) = 8 is stated by Project Euler, problem 215; W(32,10) is its answer as widely printed in curriculum tests.

    W(18,5) = 7958 is the same wall of 27 by 5 in blocks of 3 and 4.5, as an older puzzle has it.
    """
    assert _walls(width, courses) == ways


@pytest.mark.parametrize(("size", "placements", "up_to_rotation"), [((2, 4), 46, 24), ((1, 2), 7, 4)])
def test_ways_to_join_two_equal_bricks(size: tuple[int, int], placements: int, up_to_rotation: int) -> None:
    """Two bricks of 2 by 4: 46 (OEIS A123830) and 24 up to rotation (A112389); of 1 by 2: 4 up to rotation (A123762).

    They are joined where the bond counts a shared knob. Half a turn of the lower brick pairs the placements off.
    """
    deep, long = size
    lower = frozenset((x, y) for x in range(long) for y in range(deep))
    found = {upper for upper in _placements(deep, long) if _knobs(lower, upper)}
    assert len(found) == placements
    turned = {upper: frozenset((long - 1 - x, deep - 1 - y) for x, y in upper) for upper in found}
    assert len({frozenset((upper, other)) for upper, other in turned.items()}) == up_to_rotation


def _placements(deep: int, long: int) -> Iterator[frozenset[tuple[int, int]]]:
    for along, across in ((long, deep), (deep, long)):
        for dx in range(-long, long + 1):
            for dy in range(-long, long + 1):
                yield frozenset((x + dx, y + dy) for x in range(along) for y in range(across))


def _knobs(lower: frozenset[tuple[int, int]], upper: frozenset[tuple[int, int]]) -> int:
    """The knobs shared, counted by the bond's own couplings with each brick laid pitch by pitch."""
    layers = tuple(
        Layer("course", 3 * n, 3, tuple(Laid(f"brick {n}", 0, x, 1, y) for x, y in sorted(cells)))
        for n, cells in enumerate((lower, upper))
    )
    return couplings(owners_of(Bond("two", (8,), layers, 0, (), 0))).total()


def _wall_of(width: int, courses: int, lengths: tuple[int, ...]) -> Bond:
    """A plain wall of brick courses without holes."""
    kind: LayerKind = "course"
    layers = tuple(ShapeLayer(kind, 3 * n, 3, (((0, width),),), ((),)) for n in range(courses))
    parts = tuple(Part(name=f"{length}", kind="brick", length_pitches=length, mass_g=1) for length in lengths)
    return bond_shape(PanelShape((width,), None, layers), palette_of(parts, Kit()))


def test_a_plain_course_of_38_pitches_takes_nine_long_bricks_and_one_short() -> None:
    """Ten bricks a course, one 2x2 and nine 2x4. Common practice, no published source."""
    lengths = tuple(part.length_pitches for part in DEFAULT_PARTS if part.kind == "brick" and part.is_stocked)
    bond = _wall_of(38, 31, lengths)
    assert {(layer.parts["4"], layer.parts["2"], layer.parts.total()) for layer in bond.layers} == {(9, 1, 10)}
    assert bond.faults == ()


def test_courses_without_holes_of_a_full_panel_have_ten_bricks() -> None:
    """Common practice, no published source. The two courses with mounting points have nine and four pin-hole bricks."""
    corners = ((0.0, 0.0), (0.0, 3048.0), (3048.0, 3048.0), (3048.0, 0.0))
    bond = bonds_for(solve(Room(name="ten feet", corners_mm=corners, clad_height_mm=304.0)))["full"]
    counts = [layer.parts for layer in bond.layers if layer.kind == "course"]
    assert [parts.total() for parts in counts if not parts["pin-hole brick 1x2"]] == [10] * 29
    assert [parts.total() - parts["pin-hole brick 1x2"] for parts in counts if parts["pin-hole brick 1x2"]] == [9, 9]


@pytest.mark.parametrize("width", [12, 24, 38, 48])
def test_running_bond_laps_at_least_a_quarter_of_the_unit(width: int) -> None:
    """TMS 402/602: running bond is a horizontal offset of at least a quarter of the unit length in successive courses."""
    bond = _wall_of(width, 12, (2, 4))
    for lower, upper in pairwise(joints_in(bond, n, 0) for n in range(12)):
        assert all(abs(x - joint) >= 4 / 4 for x in upper for joint in lower)


@pytest.mark.parametrize(
    ("courses", "in_eight_inches", "height_in"),
    [
        (3, 3, 8.0),
        (6, 3, 16.0),
        (15, 3, 40.0),
        (30, 3, 80.0),
        (48, 3, 128.0),
        (5, 2.5, 16.0),
        (50, 2.5, 160.0),
        (100, 2.5, 320.0),
    ],
)
def test_coursing_ladder(courses: int, in_eight_inches: float, height_in: float) -> None:
    """Masonry Magazine, April 1994, p. 25, table 3: of 3 courses to 8 in, 48 make 10 ft 8 in; of 5 to 16 in, 100 make 26 ft 8."""
    kit = Kit(plate_mm=8 * INCH_MM / in_eight_inches / 3)
    top = _wall_of(8, courses, (2, 4)).layers[-1]
    assert z_mm(kit, top.z_plates + top.height_plates) == pytest.approx(height_in * INCH_MM, abs=1e-3)


@pytest.mark.parametrize(
    ("length_in", "height_in", "per_hundred_square_feet"),
    [(8.0, 8 / 3, 675), (8.0, 4.0, 450), (12.0, 8 / 3, 450), (12.0, 4.0, 300)],
)
def test_units_per_area(length_in: float, height_in: float, per_hundred_square_feet: int) -> None:
    """Modular brick 675 to 100 square feet (constructionmentor.net/brick) and economy 450 (engineeringtoolbox.com, brick mortar
    consumption); norman 450 and utility 300, from memory.

    Halves that close a course count as halves.
    """
    courses, width = 24, 48
    bond = _wall_of(width, courses, (2, 4))
    units = sum(laid.length for layer in bond.layers for laid in layer.laid) / 4
    area = (width / 4 * length_in) * (courses * height_in) / 144
    assert units / area * 100 == pytest.approx(per_hundred_square_feet)
    halves = sum(layer.parts["2"] for layer in bond.layers)
    assert halves == courses
