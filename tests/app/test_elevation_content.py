"""Faces on the grid: what a shaped panel covers, where its mark has most room, and what a wall's picture depends on."""

from pathlib import Path

from app.elevation.content import PlacedFace, covers, roomiest_box, solid_spans, wall_contents
from core.edits import move_opening
from core.progress import Progress
from core.room import Room
from core.setout import solve
from core.setout.result import Face, SetOut

NOTCHED = Face(0, ((0, 0), (38, 0), (38, 60), (20, 60), (20, 95), (0, 95)), (), ())
PIERCED = Face(0, ((0, 0), (38, 0), (38, 95), (0, 95)), (((10, 30), (10, 60), (20, 60), (20, 30)),), ())


def test_a_notch_and_a_cut_out_are_not_covered() -> None:
    assert covers(NOTCHED, 10, 80)
    assert not covers(NOTCHED, 30, 80)
    assert covers(PIERCED, 5, 45)
    assert not covers(PIERCED, 15, 45)


def test_an_upright_line_through_a_cut_out_leaves_a_span_below_and_one_above() -> None:
    assert solid_spans(PIERCED, 15.5) == [(0, 30), (60, 95)]
    assert solid_spans(NOTCHED, 30.5) == [(0, 60)]


def test_a_mark_stands_where_the_face_covers_the_wall() -> None:
    for face in (NOTCHED, PIERCED):
        left, bottom, right, top = roomiest_box(face)
        corners = [(left, bottom), (right - 1, bottom), (left, top - 1), (right - 1, top - 1), ((left + right) // 2, bottom)]
        assert all(covers(face, x + 0.5, z + 0.5) for x, z in corners)


def test_every_face_is_on_its_wall_and_corner_panels_on_two(demo_room_path: Path) -> None:
    setout = solve(Room.model_validate_json(demo_room_path.read_text()))
    contents = wall_contents(setout)
    placed = [(content.shell.wall, each) for content in contents for each in content.faces]
    assert len(placed) == sum(len(panel.faces) for panel in setout.panels)
    assert all(each.face.wall == wall for wall, each in placed)
    corners = {panel.mark for panel in setout.panels if len(panel.faces) == 2}
    assert {each.end for _, each in placed if each.mark in corners} == {-1, 1}


def test_a_walls_content_is_equal_exactly_when_nothing_on_it_changed(demo_room_path: Path) -> None:
    room = Room.model_validate_json(demo_room_path.read_text())
    assert wall_contents(solve(room)) == wall_contents(solve(room))
    assert wall_contents(solve(room))[0] != wall_contents(solve(move_opening(room, "outlet-1", left_mm=610.0)))[0]


def test_a_leg_that_an_opening_at_the_corner_parts_in_two_goes_round_the_corner_with_both(demo_room_path: Path) -> None:
    setout = solve(_with_a_slot_at_the_corner(demo_room_path))
    ends = [sorted((each.face.wall, each.end) for each in faces) for faces in _faces_by_panel(setout) if len(faces) > 2]
    assert ends == [[(0, 1), (1, -1), (1, -1)]]


def _with_a_slot_at_the_corner(demo_room_path: Path) -> Room:
    room = Room.model_validate_json(demo_room_path.read_text())
    slot = room.opening("window").model_copy(update={"left_mm": 0.0, "sill_mm": 100.0, "width_mm": 500.0, "height_mm": 100.0})
    return room.model_copy(update={"openings": (slot,), "clad_height_mm": 304.0, "progress": Progress()})


def _faces_by_panel(setout: SetOut) -> list[list[PlacedFace]]:
    by_mark: dict[str, list[PlacedFace]] = {}
    for content in wall_contents(setout):
        for placed in content.faces:
            by_mark.setdefault(placed.mark, []).append(placed)
    return list(by_mark.values())
