"""Where the frame list moves a hole, the sheet a panel is built by says so before the panel is built."""

import pytest

from core.drawing import Text
from core.frame.remedies import backed_walls
from core.room import wall_letter
from core.sheets.flow import Line
from core.sheets.panel_facts import mark_groups
from core.sheets.panel_moves import move_lines
from tests.core.sheets.bench import design_texts, setout


def _moved(name: str) -> dict[str, set[int]]:
    """Marks with the walls whose list moves a hole, read from the remedies themselves."""
    found: dict[str, set[int]] = {}
    for wall, backed in enumerate(backed_walls(setout(name))):
        for miss in backed.misses:
            if miss.words.startswith("move it"):
                found.setdefault(miss.point.mark, set()).add(wall)
    return found


def _words(lines: list[Line]) -> str:
    return " ".join(item.text for line in lines for item in line.items if isinstance(item, Text))


@pytest.mark.parametrize("name", ["demo", "den"])
def test_a_design_s_sheet_names_just_its_panels_whose_holes_move(name: str) -> None:
    moved = _moved(name)
    assert name != "demo" or moved
    for design in setout(name).designs:
        mine = [panel.mark for panel in setout(name).panels if panel.design == design.name and panel.mark in moved]
        words = " ".join(design_texts(name, design.name))
        assert ("NOT as drawn here" in words) == bool(mine), design.name
        assert not mine or f"{'; '.join(mark_groups(mine))}: a hole must move" in words


def test_the_note_sends_a_person_to_the_lists_that_move_the_holes() -> None:
    moved = {"A-1-01": frozenset({0}), "A-1-02": frozenset({0, 2}), "A-1-03": frozenset({1})}
    assert "see frame list of wall A." in _words(move_lines(["A-1-01"], moved, 150.0))
    assert "see frame lists of walls A, B and C." in _words(move_lines(list(moved), moved, 150.0))


def test_nothing_is_said_of_panels_built_as_drawn() -> None:
    assert move_lines(["B-1-01"], {"A-1-01": frozenset({0})}, 150.0) == []


def test_walls_are_named_by_their_letters() -> None:
    assert f"wall {wall_letter(3)}." in _words(move_lines(["D-1-01"], {"D-1-01": frozenset({3})}, 150.0))
