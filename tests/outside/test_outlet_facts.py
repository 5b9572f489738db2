"""Outlets along walls held against the electrical code: 6 ft to one, and what follows from it for two."""

import pytest

from core.frame.receptacles import far_stretches, unreached
from core.room import Opening, Room
from core.timberwork import FOOT_MM, INCH_MM


def feet(at: float) -> float:
    return at * FOOT_MM


def with_outlets(*at_ft: float, doors: bool) -> Room:
    """Outlets on wall A of a room 24 ft by 12 ft, A a long one; with doors, one a foot wide stands at either end of it."""
    boxes = [
        Opening(id=f"outlet {n}", kind="outlet", wall=0, left_mm=feet(at) - 30, sill_mm=300, width_mm=60, height_mm=100)
        for n, at in enumerate(at_ft)
    ]
    ends = [
        Opening(id=f"door {at}", kind="door", wall=0, left_mm=feet(at), sill_mm=0, width_mm=feet(1), height_mm=2000)
        for at in (0, 23)
    ]
    corners = ((0.0, 0.0), (0.0, feet(24)), (feet(12), feet(24)), (feet(12), 0.0))
    return Room(name="hall", corners_mm=corners, clad_height_mm=2100.0, openings=(*boxes, *(ends if doors else ())))


def test_two_outlets_along_unbroken_wall_stand_at_most_twelve_feet_apart() -> None:
    """12 ft leaves nothing, an inch more leaves that inch: it follows from 6 ft to either, NEC 210.52(A)(1).

    forums.mikeholt.com/threads/receptacle-spacing.137016.
    """
    assert far_stretches((0.0, feet(24)), [feet(6), feet(18)]) == []
    on_wall_a = [s for s in unreached(with_outlets(6, 18 + 1 / 12, doors=True)) if s.wall == "A"]
    (stretch,) = [s for s in on_wall_a if s.apart_mm is not None]
    assert stretch.end_mm - stretch.begin_mm == pytest.approx(INCH_MM)
    assert stretch.apart_mm == pytest.approx(feet(12) + INCH_MM)


def test_outlets_with_a_door_between_them_or_one_outlet_alone_are_no_pair_too_far_apart() -> None:
    """A doorway breaks the wall space; round a room without doors the next outlet may be the same one.

    NEC 210.52(A)(2), forums.mikeholt.com/threads/210-52-a-1.55705.
    """
    alone = unreached(with_outlets(12, doors=False))
    assert [(s.end_mm - s.begin_mm, s.apart_mm) for s in alone] == [(pytest.approx(feet(60)), None)]
    assert {s.apart_mm for s in unreached(with_outlets(6, doors=True))} == {None}
    both = unreached(with_outlets(4, 20, doors=False))
    assert sorted(s.apart_mm or 0 for s in both) == pytest.approx([feet(16), feet(56)])


def test_an_outlet_over_five_and_a_half_feet_counts_for_nothing() -> None:
    """NEC 210.52, quoted at forums.mikeholt.com/threads/receptacle-spacing.137016: higher than 5 1/2 ft they do not count."""
    low, high = (with_outlets(12, doors=False), with_outlets(12, doors=False))
    raised = tuple(o.model_copy(update={"sill_mm": feet(5.5) - 99.0}) for o in high.openings)
    assert sum(s.end_mm - s.begin_mm for s in unreached(low)) == pytest.approx(feet(60))
    assert sum(s.end_mm - s.begin_mm for s in unreached(high.model_copy(update={"openings": raised}))) == pytest.approx(feet(72))
