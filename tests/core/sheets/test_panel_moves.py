"""Panels whose holes the frame moves are built by sheets of their own, and every panel by one sheet."""

import re
from collections import Counter
from functools import cache

import pytest

from core.crew.standing import standing
from core.drawing import Text
from core.frame import Hung, as_hung
from core.sheets.panel_facts import mark_groups
from core.sheets.panel_moves import moved_words
from core.takeoff import Count
from core.whole_job import WholeJob
from tests.core.sheets.bench import setout, sheets

ROOMS = ("demo", "den")


@cache
def hung(name: str) -> Hung:
    return as_hung(setout(name))


def words_on(name: str, design: str) -> str:
    """All that is lettered on the sheets of one design."""
    code = f"panel-{design.replace(',', '').replace(' ', '-')}"
    mine = [s for s in sheets(name) if re.fullmatch(re.escape(code) + r"(-\d+)?", s.code)]
    assert mine, design
    return " ".join(item.text for sheet in mine for item in sheet.items if isinstance(item, Text))


def built_by(words: str) -> list[str]:
    """The marks that a sheet says it is for."""
    where = re.search(r"Where it goes: (\d+) panels? (.*)", words)
    assert where is not None
    found: list[str] = []
    for front, ends in re.findall(r"([A-Z]+-\d+)-(\d\d(?:, \d\d| to \d\d)*)", where[2]):
        for part in ends.split(", "):
            low, _, high = part.partition(" to ")
            found += [f"{front}-{n:02d}" for n in range(int(low), int(high or low) + 1)]
    return found[: int(where[1])]


@pytest.mark.parametrize("name", ROOMS)
def test_every_panel_is_on_one_panel_sheet(name: str) -> None:
    found = [mark for design in hung(name).setout.designs for mark in built_by(words_on(name, design.name))]
    assert Counter(found) == Counter(panel.mark for panel in setout(name).panels)
    codes = [sheet.code for sheet in sheets(name) if sheet.code.startswith("panel-")]
    assert len(codes) == len(set(codes))


@pytest.mark.parametrize("name", ROOMS)
def test_a_sheet_for_moved_holes_says_so_first_and_for_which_panels_only(name: str) -> None:
    assert hung(name).variants
    for variant in hung(name).variants:
        words = words_on(name, variant.name)
        marks = "; ".join(mark_groups(variant.marks))
        assert words.startswith(f"{variant.name} build {len(variant.marks)} Moved holes, ONLY for")
        assert f"Only for {marks}. Behind them there is no timber where {variant.design} has its holes." in words
        bond = WholeJob(setout(name)).bonds[variant.name]
        for said in moved_words(variant.marks[0], bond, hung(name)):
            assert said in words


def test_a_hole_is_told_by_course_and_knobs_where_it_was_and_where_it_is() -> None:
    """Wall C's lowest screws miss its sole plate; a course higher stand the studs, a course lower lies the plate."""
    bond = WholeJob(setout("demo")).bonds["half-height, holes as C-1-02"]
    up = moved_words("C-1-02", bond, hung("demo"))
    assert up == ["course 4, after 1 knob: moved to course 5", "course 4, after 37 knobs: moved to course 3"]
    assert "Holes, in knobs from the left: course 3: 37; course 5: 1; course 12: 1 and 37." in words_on(
        "demo", "half-height, holes as C-1-02"
    )


@pytest.mark.parametrize("name", ROOMS)
def test_a_design_s_own_sheet_sends_moved_panels_to_theirs(name: str) -> None:
    for design in hung(name).setout.designs:
        others = [variant for variant in hung(name).variants if variant.design == design.name]
        words = words_on(name, design.name)
        for variant in others:
            assert f"By another sheet, {variant.name}: {'; '.join(mark_groups(variant.marks))}." in words
        assert ("Holes as usual: look at the mark before you build" in words) == bool(others)


@pytest.mark.parametrize("name", ROOMS)
def test_labels_schedule_design_list_kits_and_hole_templates_name_the_sheet(name: str) -> None:
    states = standing(setout(name)).by_mark
    for prefix in ("panels-", "designs-", "kitting", "hole-template", "story-pole"):
        words = " ".join(i.text for s in sheets(name) if s.code.startswith(prefix) for i in s.items if isinstance(i, Text))
        for variant in hung(name).variants:
            is_left = any(states[mark] == "to build" for mark in variant.marks)
            assert (variant.name in words) == (is_left or prefix != "kitting"), (prefix, variant.name)
    on_labels = Counter(i.text for s in sheets(name) if s.code.startswith("labels") for i in s.items if isinstance(i, Text))
    for variant in hung(name).variants:
        assert on_labels[variant.name.partition(", ")[2]] == len(variant.marks)


@pytest.mark.parametrize("name", ROOMS)
def test_the_take_off_is_the_sum_over_the_panel_sheets(name: str) -> None:
    job = WholeJob(setout(name))
    total: Count = Counter()
    for design in job.hung.setout.designs:
        marks = built_by(words_on(name, design.name))
        one = job.bonds[design.name].parts
        for mark in marks:
            assert {item.name: n for item, n in job.takeoff.laid[mark].items()} == {part: n for part, n in one.items() if n}
            total.update(job.takeoff.per_panel[mark])
    assert total == job.takeoff.panels


def test_the_elevation_draws_moved_holes_where_they_go_and_says_so() -> None:
    for letter, wall in zip("ABCD", range(4), strict=True):
        moved = [hole for holes in hung("demo").moved.values() for hole in holes if hole.was.wall == wall]
        words = " ".join(
            i.text for s in sheets("demo") if s.code == f"elevation-{letter}" for i in s.items if isinstance(i, Text)
        )
        assert ("Moved holes are drawn where they go." in words) == bool(moved)
