"""Nothing gets lost: what came in is in a panel, in a box, lost, or was never needed."""

import random
from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.buying.account import account, spare, still_needed
from core.crew.standing import standing
from core.edits import move_opening
from core.edits.buying import receive
from core.edits.progress import drop_wrong, lay_ring, mark_panels, move_panel, record_wrong
from core.errors import RoomError
from core.progress import STATES, WrongPanel
from core.purchase import PartCount
from core.room import Opening, Room
from core.setout import solve
from core.setout.result import SetOut
from core.takeoff import Count, Material, starter_ring, take_off
from tests.core.takeoff.guessed import guessed_parts
from tests.generate import SMALL_KIT


def small_room() -> Room:
    window = Opening(id="window", kind="window", wall=0, left_mm=300.0, sill_mm=60.0, width_mm=150.0, height_mm=80.0)
    corners = ((0.0, 0.0), (0.0, 700.0), (600.0, 700.0), (600.0, 0.0))
    return Room(name="small", corners_mm=corners, clad_height_mm=285.0, kit=SMALL_KIT, openings=(window,))


class Boxes:
    """The reckoning kept by hand beside the program: bricks leave the boxes when a panel is built, return when it is undone."""

    def __init__(self) -> None:
        self.pieces: Counter[str] = Counter()

    def change(self, before: SetOut, after: SetOut) -> None:
        parts = guessed_parts(before)
        was, now = (Counter(r.design for r in one.room.progress.panels if r.is_made) for one in (before, after))
        for design in was.keys() | now.keys():
            for name, number in parts.get(design, {}).items():
                self.pieces[name] -= (now[design] - was[design]) * number


@settings(max_examples=12)
@given(seed=st.integers(0, 10_000), steps=st.integers(1, 25))
def test_boxes_hold_what_came_less_what_was_built_whatever_happens(seed: int, steps: int) -> None:
    chance = random.Random(seed)
    boxes = Boxes()
    setout = solve(small_room())
    for _ in range(steps):
        setout = random_step(chance, setout, boxes)
    takeoff = take_off(setout, guessed_parts(setout))
    lines = account(setout, takeoff)
    for material, line in lines.items():
        came = line.received + line.unrecorded
        assert came - line.lost - line.in_panels - line.needed - line.spare == line.left
        if material.name != "panel screw":
            assert line.on_hand - line.unrecorded == boxes.pieces[material.name]
            assert min(line.on_hand, line.unrecorded) == 0
    if not setout.room.progress.panels:
        assert {material: line.needed for material, line in lines.items() if line.needed} == +takeoff.room


def random_step(chance: random.Random, setout: SetOut, boxes: Boxes) -> SetOut:
    """A delivery, a mark, an orphan moved, or a window moved and the room solved anew."""
    room = setout.room
    what = chance.randrange(5)
    if what == 0:
        number = chance.randrange(1, 5000)
        boxes.pieces["brick 2x4"] += number
        return solve(receive(room, Material("brick 2x4"), number))
    if what == 1:
        return solve(move_opening(room, "window", left_mm=float(chance.randrange(20, 400))))
    if what == 2:
        for orphan in standing(setout).orphans:
            if orphan.suggestion:
                return solve(move_panel(setout, orphan.record.place, orphan.suggestion))
        return setout
    marks = chance.sample([panel.mark for panel in setout.panels], 3)
    try:
        after = solve(mark_panels(setout, marks, chance.choice(STATES), guessed_parts(setout)))
    except RoomError:
        return setout
    boxes.change(setout, after)
    return after


def test_screws_are_used_when_a_panel_hangs_and_come_back_when_it_is_taken_out() -> None:
    setout = solve(small_room())
    parts = guessed_parts(setout)
    panel = setout.panels[0]
    points = sum(len(face.mounts) for face in panel.faces)
    used = []
    for state in ("built", "hung", "taken out"):
        setout = solve(mark_panels(setout, [panel.mark], state, parts))  # type: ignore[arg-type]
        used.append(account(setout, take_off(setout, parts))[Material("panel screw")].in_panels)
    assert used == [0, points, 0]


def test_screws_of_a_panel_laid_its_own_way_are_used_when_it_hangs_and_not_before() -> None:
    """A panel in colours, or one laid from the stock, notes its own parts instead of its design's."""
    setout = solve(small_room())
    parts = guessed_parts(setout)
    panel = setout.panels[0]
    points = sum(len(face.mounts) for face in panel.faces)
    own: Count = Counter({Material(name, "brick red"): number for name, number in parts[panel.design].items() if number})
    used = []
    for state in ("built", "hung", "taken out"):
        setout = solve(mark_panels(setout, [panel.mark], state, parts, own={panel.mark: own}))  # type: ignore[arg-type]
        used.append(account(setout, take_off(setout, parts))[Material("panel screw")].in_panels)
    assert used == [0, points, 0]


def test_bricks_of_a_panel_built_wrong_are_out_of_the_boxes_until_it_is_taken_apart() -> None:
    room = receive(small_room(), Material("brick 2x4"), 1000)
    wrong = WrongPanel(meant_for="full", widths_pitches=(18,), courses=9, parts=(PartCount(part="brick 2x4", count=36),))
    held = []
    for one in (room, noted := record_wrong(room, wrong), drop_wrong(noted, 0)):
        setout = solve(one)
        line = account(setout, take_off(setout, guessed_parts(setout)))[Material("brick 2x4")]
        held.append((line.on_hand, line.in_panels))
    assert held == [(1000, 0), (964, 36), (1000, 0)]


@pytest.mark.parametrize(("needed", "percent", "more"), [(100, 5.0, 5), (101, 5.0, 6), (1, 1.0, 1), (7, 0.0, 0), (30, 10.0, 3)])
def test_spares_are_whole_pieces_and_never_fewer_than_the_share(needed: int, percent: float, more: int) -> None:
    """5 % of 101 are 5.05 pieces: six. Arithmetic."""
    assert spare({Material("plug"): needed}, percent) == {Material("plug"): more}


def test_a_ring_laid_of_more_plates_than_are_planned_takes_none_from_the_panels() -> None:
    """Plates of 2x4 lie in the ring and in panels; who laid twenty where two were planned still builds all panels."""
    setout = solve(small_room())
    parts, plate = guessed_parts(setout), Material("plate 2x4")
    in_ring = sum(count[plate] for count in starter_ring(setout).by_wall().values())
    takeoff = take_off(setout, parts)
    assert 0 < in_ring < 20
    assert still_needed(setout, takeoff)[plate] == takeoff.panels[plate] + in_ring
    laid = solve(lay_ring(setout.room, Counter({plate: 20})))
    assert still_needed(laid, take_off(laid, parts))[plate] == takeoff.panels[plate]
