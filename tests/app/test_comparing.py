"""Two versions side by side: figures, what was changed, what is outlined, and that comparing changes nothing."""

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from app.comparing import CompareDialog
from app.comparing.figures import lines
from app.comparing.hanging import hanging_words
from app.comparing.versions import Pair, Version, pair_with_file
from app.document import Document
from app.window import Window
from core import edits
from core.compare import changed_openings, differences, only_in_one
from core.edits.progress import mark_panels
from core.files import save_room
from core.room import RegularFrame, Room
from core.setout import sketch, solve
from tests.app.answers import Answers
from tests.generate import SMALL_KIT, seeded_room

CONTROL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier


def told(before: Room, after: Room) -> set[tuple[str, str, str, str]]:
    return {(d.subject, d.what, d.before, d.after) for d in differences(before, after)}


def pair_of(before: Room, after: Room, now: Room | None = None) -> Pair:
    return Pair(Version("one", sketch(before)), Version("other", sketch(after)), now or before)


@pytest.mark.parametrize("seed", range(6))
def test_a_room_differs_from_itself_in_nothing(seed: int) -> None:
    room = seeded_room(seed, kit=SMALL_KIT, most_rows=2, standing=True)
    assert differences(room, room) == ()
    assert only_in_one(sketch(room), sketch(room)) == (frozenset(), frozenset())


def test_each_change_is_told_once_with_both_values(room: Room) -> None:
    moved = edits.move_opening(room, "window", left_mm=1200.0)
    assert told(room, moved) == {("opening window", "left", "1060 mm", "1200 mm")}
    gone = edits.remove_opening(room, "outlet-1")
    assert told(room, gone) == {("opening outlet-1", "", "outlet 60 × 100 mm on wall A", "–")}
    longer = room.model_copy(update={"clad_height_mm": 2000.0})
    assert told(room, longer) == {("room", "lined up to", "1980 mm", "2000 mm")}


def test_walls_frames_and_the_kit_are_compared_field_by_field(room: Room) -> None:
    kit = room.kit.model_copy(update={"head_gap_mm": 25.0, "mounts": room.kit.mounts.model_copy(update={"course": 5})})
    frames = [room.frame(wall) for wall in range(4)]
    frames[0] = RegularFrame(mode="regular", spacing_mm=400.0, first_centre_mm=50.0)
    other = room.model_copy(update={"kit": kit, "frames": tuple(frames)})
    found = told(room, other)
    assert ("Kit", "head gap mm", "10", "25") in found
    assert ("Kit", "mounts course", "4", "5") in found
    assert ("wall A", "frame", "still to build, 38 mm timber", "studs every 400 mm from 50 mm, 38 mm timber") in found
    assert len(found) == 3
    stepped = edits.step_wall(room, 0, 1500, 608)
    assert ("room", "walls", "4", str(stepped.wall_count)) in told(room, stepped)


def test_a_part_that_is_no_longer_stocked_is_told_by_its_name(room: Room) -> None:
    gone = room.parts[0]
    other = room.model_copy(update={"parts": room.parts[1:]})
    assert told(room, other) == {(f"Part {gone.name}", "", "there", "–")}


def test_outlined_panels_are_those_whose_place_and_outline_the_other_has_not(room: Room) -> None:
    """Told a second way: by millimetres of the outlines, not by the grid."""
    bare = room.model_copy(update={"progress": type(room.progress)()})
    before, after = sketch(bare), sketch(edits.move_opening(bare, "window", left_mm=1200.0, sill_mm=700.0))
    left, right = only_in_one(before, after)
    assert left
    assert right
    faces = [
        {(p.design, tuple((f.wall, f.outline, f.holes) for f in p.faces)): p.mark for p in s.panels} for s in (before, after)
    ]
    assert left == {mark for place, mark in faces[0].items() if place not in faces[1]}
    assert len(before.panels) - len(left) == len(after.panels) - len(right)
    assert changed_openings(before.room, after.room) == {"window"}


def test_another_grid_shares_no_panel(room: Room) -> None:
    bare = room.model_copy(update={"progress": type(room.progress)()})
    other = sketch(bare.model_copy(update={"kit": bare.kit.model_copy(update={"pitch_mm": 8.5})}))
    before = sketch(bare)
    assert only_in_one(before, other)[0] == {panel.mark for panel in before.panels}


def test_figures_of_kinds_add_up_to_the_panels_and_differences_to_the_figures(room: Room) -> None:
    pair = pair_of(room, edits.remove_opening(room, "window"))
    shown = lines(pair.before.setout, pair.after.setout)
    by_name = {line.caption: line for line in shown}
    kinds = [by_name[name] for name in ("full", "half-height", "half-width", "corner", "closer", "shaped") if name in by_name]
    assert sum(line.before for line in kinds) == by_name["panels"].before == len(pair.before.setout.panels)
    minutes = sum(line.after for line in shown if line.caption.endswith(", minutes"))
    assert minutes == pytest.approx(pair.after.setout.minutes.total)
    assert by_name["panels"].texts[3] in ("same", f"▼ −{by_name['panels'].before - by_name['panels'].after:.0f}") or (
        by_name["panels"].after > by_name["panels"].before
    )


def test_nothing_is_said_of_hanging_where_nothing_is_built(room: Room) -> None:
    bare = room.model_copy(update={"progress": type(room.progress)()})
    assert hanging_words(pair_of(bare, edits.remove_opening(bare, "window"))) == ()


def test_hung_panels_without_a_place_in_the_other_version_must_come_down(room: Room) -> None:
    bare = room.model_copy(update={"progress": type(room.progress)()})
    setout = solve(bare)
    mark = next(p.mark for p in setout.panels if p.faces[0].wall == 1 and p.row == 3 and p.kind == "full")
    done = setout
    for state in ("built", "checked", "hung"):
        done = replace(done, room=mark_panels(done, [mark], state, {}))
    hung = done.room
    panel = next(p for p in setout.panels if p.mark == mark)
    middle_mm = (panel.faces[0].left + panel.faces[0].right) / 2 * 8.0
    other = edits.move_opening(bare, "window", left_mm=max(0.0, middle_mm - 456.0), sill_mm=900.0)
    words = hanging_words(Pair(Version("now", solve(hung)), Version("other", solve(other)), hung))
    assert any("must come down" in line and mark in line for line in words)
    same = hanging_words(Pair(Version("now", solve(hung)), Version("other", solve(bare)), hung))
    assert same == ("1 panel built or hung so far: the place is kept.",)


@pytest.fixture
def saved(window: Window, tmp_path: Path) -> Path:
    """The window's room in a file of its own."""
    path = tmp_path / "mine.room.json"
    save_room(window.document.room, path)
    window.document.replace(window.document.room, path)
    return path


def comparison(window: Window, qtbot: QtBot) -> CompareDialog | None:
    qtbot.keyClick(window.elevation, Qt.Key.Key_C, CONTROL | SHIFT)
    return window.findChild(CompareDialog)


def test_a_changed_room_is_compared_with_its_saved_version_and_nothing_changes(window: Window, saved: Path, qtbot: QtBot) -> None:
    document = window.document
    document.commit_edit(lambda room: edits.move_opening(room, "window", left_mm=1300.0), "Move")
    before, file_before, steps = document.room, saved.read_bytes(), document.undo_stack.count()
    dialog = comparison(window, qtbot)
    assert dialog is not None
    assert dialog.changes.item(0).text() == "Opening window, left: 1060 mm → 1300 mm"
    assert dialog.figures.horizontalHeaderItem(1).text() == "As saved in mine.room.json"
    assert dialog.figures.item(0, 1).text() == "268"
    assert all(dialog.elevations.outlined)
    dialog.grab()
    assert (document.room, saved.read_bytes(), document.undo_stack.count()) == (before, file_before, steps)
    qtbot.keyClick(dialog, Qt.Key.Key_Escape)
    assert not dialog.isVisible()


def test_an_unchanged_room_is_compared_with_a_chosen_file(
    window: Window, saved: Path, answers: Answers, tmp_path: Path, qtbot: QtBot
) -> None:
    other = tmp_path / "other.room.json"
    save_room(edits.step_wall(window.document.room, 0, 1500, 608), other)
    answers.path = other
    dialog = comparison(window, qtbot)
    assert dialog is not None
    assert dialog.figures.horizontalHeaderItem(2).text() == "other.room.json"
    assert dialog.elevations.wall_count == 6
    dialog.elevations.setFocus()
    for _ in range(6):
        qtbot.keyClick(dialog.elevations, Qt.Key.Key_PageDown)
        dialog.elevations.grab()
    assert dialog.elevations.wall == 5
    assert dialog.walls.currentText() == "Wall F"
    assert saved.exists()
    dialog.close()


def test_a_line_of_the_changes_goes_to_its_wall(window: Window, saved: Path, qtbot: QtBot) -> None:
    assert saved.exists()
    window.document.commit_edit(lambda room: edits.move_opening(room, "door", left_mm=900.0), "Move")
    dialog = comparison(window, qtbot)
    assert dialog is not None
    dialog.changes.setFocus()
    dialog.changes.setCurrentRow(0)
    qtbot.keyClick(dialog.changes, Qt.Key.Key_Return)
    assert dialog.elevations.wall == 3
    dialog.close()


@pytest.mark.parametrize("text", [b"not json", b"{}", b'{"format": "coursewright-room", "version": 99}'])
def test_a_file_that_cannot_be_read_is_told_in_one_line(
    window: Window, answers: Answers, tmp_path: Path, qtbot: QtBot, text: bytes
) -> None:
    answers.path = tmp_path / "bad.room.json"
    answers.path.write_bytes(text)
    assert comparison(window, qtbot) is None
    (said,) = answers.said
    assert "bad.room.json" in said
    assert "\n" not in said


def test_choosing_no_file_opens_nothing(window: Window, answers: Answers, qtbot: QtBot) -> None:
    answers.path = None
    assert comparison(window, qtbot) is None
    assert answers.said == []


def test_a_bad_file_chosen_from_the_comparison_leaves_it_as_it_was(
    window: Window, saved: Path, answers: Answers, tmp_path: Path, qtbot: QtBot
) -> None:
    assert saved.exists()
    window.document.commit_edit(lambda room: edits.move_opening(room, "window", left_mm=1300.0), "Move")
    dialog = comparison(window, qtbot)
    assert dialog is not None
    answers.path = tmp_path / "nowhere.room.json"
    qtbot.mouseClick(dialog.file_button, Qt.MouseButton.LeftButton)
    assert "there is no such file" in answers.said[0]
    assert dialog.figures.horizontalHeaderItem(1).text().startswith("As saved")
    assert all(button.text() for button in dialog.findChildren(QPushButton))
    dialog.close()


def test_the_rooms_own_file_comes_first_and_any_other_second(document: Document, tmp_path: Path, window: Window) -> None:
    path = tmp_path / "mine.room.json"
    save_room(document.room, path)
    document.mark_saved(path)
    pair = pair_with_file(document, path, window)
    assert pair is not None
    assert pair.after.title == "This room now"
    save_room(document.room, tmp_path / "twin.room.json")
    pair = pair_with_file(document, tmp_path / "twin.room.json", window)
    assert pair is not None
    assert pair.before.title == "This room now"
