"""What a stranger needs to lay a panel of several colours is on its colour sheet, and can be read without colour."""

import re
from collections import Counter
from functools import cache

import pytest

from core.colouring import BandRule, RoomRule, WallRule
from core.drawing import Box, Text, item_box
from core.setout.result import SetOut
from core.sheets import sheets_for
from core.sheets.colour_sheet import colour_groups, colour_sheets
from core.sheets.draft import Draft, drawing_box
from core.sheets.flow import Column, Line
from core.sheets.listing import rows_under
from core.sheets.panel_columns import in_columns
from core.sheets.panel_sheet import panel_sheets
from core.whole_job import WholeJob
from tests.core.colour.pictures import coloured, noise
from tests.core.sheets.bench import setout

BUILD = re.compile(r"build [0-9]+")

RULES = (
    WallRule(kind="wall", colour="moss", wall=0),
    BandRule(kind="band", colour="slate", from_mm=0, to_mm=30),
    noise(60, 40, seed=5, wall=1, left_mm=300.0, width_mm=500.0, height_mm=350.0),
)


@cache
def job() -> WholeJob:
    room = coloured(setout("den").room, *RULES, rest="chalk")
    base = setout("den")
    return WholeJob(SetOut(**{name: getattr(base, name) for name in SetOut.__slots__} | {"room": room}))


@cache
def drafts() -> tuple[Draft, ...]:
    return tuple(colour_sheets(job().setout, job().finishes))


def texts(code: str) -> list[str]:
    mine = [draft for draft in drafts() if draft.code == code or re.fullmatch(rf"{code}-\d+", draft.code)]
    return [item.text for draft in mine for item in draft.items if isinstance(item, Text)]


def test_panels_of_one_colour_need_no_colour_sheet() -> None:
    room = coloured(setout("den").room, RoomRule(kind="room", colour="moss"))
    base = setout("den")
    one = WholeJob(SetOut(**{name: getattr(base, name) for name in SetOut.__slots__} | {"room": room}))
    assert colour_sheets(one.setout, one.finishes) == []
    assert colour_sheets(base, {}) == []


def test_every_panel_of_several_colours_is_on_one_sheet() -> None:
    marks = [mark for group in colour_groups(job().setout, job().finishes) for mark in group.marks]
    mixed = [mark for mark, finish in job().finishes.items() if len(finish.colours) > 1]
    assert sorted(marks) == sorted(mixed)
    assert any(job().finishes[mark].is_cut for mark in marks)


def test_courses_in_words_say_every_brick_and_its_colour() -> None:
    """Counted up again from the words alone, as a stranger at the bench would."""
    colours = {colour.name: colour.code for colour in job().setout.room.colouring.colours}
    for group in colour_groups(job().setout, job().finishes):
        said: Counter[str] = Counter()
        text = " ".join(texts(group.code))
        _, *pairs = re.split(r"(courses? [\d, …to]+|plate course|cap course): ", text)
        for words, body in zip(pairs[::2], pairs[1::2], strict=True):
            for times, label in re.findall(r"(?:(\d+) × )?\b((?:\d|H|L)[a-z]{1,2})\b", body):
                said[label] += _count_of(words) * int(times or 1)
        laid = Counter(
            ("H" if one.side == 0 else "L" if "locating" in one.part else str(one.length)) + colours[str(colour)]
            for layer in group.finish.layers
            for one, colour in layer
            if not one.side
        )
        assert said == laid, group.marks


def _count_of(words: str) -> int:
    """How many layers ``courses 1, 3 … 9`` are."""
    if not words.startswith("course"):
        return 1
    total = 0
    parts = words.split(" ", 1)[1].split(", ")
    for number, part in enumerate(parts):
        if " to " in part:
            low, high = map(int, part.split(" to "))
            total += high - low + 1
        elif " … " in part:
            low, high = map(int, part.split(" … "))
            total += (high - low) // (low - int(parts[number - 1])) + 1
        else:
            total += part.isdigit()
    return total


def test_nothing_leaves_the_frame() -> None:
    for draft in drafts():
        frame = draft.paper.frame
        for item in draft.items:
            box = item_box(item)
            assert frame.left - 0.1 <= box.left, (draft.code, item)
            assert box.right <= frame.right + 0.1, (draft.code, item)
        assert drawing_box(draft.paper, has_foot=False).top > 0


def test_the_designs_own_sheet_says_which_panels_have_which_colour() -> None:
    finishes = job().finishes
    sheets = sheets_for(job().setout, job=job())
    for design in job().setout.designs:
        code = f"panel-{design.name.replace(' ', '-')}"
        mine = [s for s in sheets if s.code == code or re.fullmatch(rf"{re.escape(code)}-\d+", s.code)]
        text = " ".join(item.text for sheet in mine for item in sheet.items if isinstance(item, Text))
        kinds = {finishes[p.mark].colours for p in job().setout.panels if p.design == design.name}
        for colours in kinds:
            name = colours[0] if len(colours) == 1 else "several colours"
            assert str(name) in text, (design.name, colours)


@pytest.mark.parametrize("number", [0, 1])
def test_letters_are_explained(number: int) -> None:
    group = colour_groups(job().setout, job().finishes)[number]
    text = " ".join(texts(group.code))
    for name in group.finish.colours:
        code = job().setout.room.colouring.colour(str(name)).code
        assert f"{code} {name}" in text


def test_no_panel_is_told_to_be_built_by_two_sheets() -> None:
    """The large numbers at the top of panel sheets and colour sheets add up to the panels there are."""
    one = job()
    drafts = [*panel_sheets(one.setout, one.bonding, one.finishes), *colour_sheets(one.setout, one.finishes)]
    firsts = [draft for draft in drafts if not re.search(r", [2-9] of [0-9]+$", draft.title)]
    written = [item.text for draft in firsts for item in draft.items if isinstance(item, Text)]
    builds = [int(text[6:]) for text in written if BUILD.fullmatch(text)]
    assert len(builds) == len(firsts)
    assert sum(builds) == len(one.setout.panels)


def test_a_panel_sheet_says_how_many_more_are_on_colour_sheets() -> None:
    one = job()
    apart = {mark for group in colour_groups(one.setout, one.finishes) for mark in group.marks}
    panels = panel_sheets(one.setout, one.bonding, one.finishes)
    for design in one.setout.designs:
        mine = [panel.mark for panel in one.setout.panels if panel.design == design.name and panel.mark in apart]
        mine_first = [draft for draft in panels if draft.begins == design.name]
        written = [item.text for draft in mine_first for item in draft.items if isinstance(item, Text)]
        assert f"build {design.count - len(mine)}" in written
        assert any(text.startswith(f"{len(mine)} more by colour sheets") for text in written) == bool(mine)


def test_parts_that_go_on_in_another_column_say_again_which_colour_is_which() -> None:
    """Numbers without a colour over them would be guessed at."""
    columns = [Column("part", 40.0), Column("w", 10.0, "end"), Column("f", 10.0, "end")]
    rows = list(rows_under(columns, [[f"brick 2x{n}", "1", "2"] for n in range(1, 13)]))
    left, right = Box(0.0, 0.0, 100.0, 60.0), Box(110.0, 0.0, 210.0, 40.0)
    (page,) = in_columns([Line(10.0)], rows, left, right)
    assert [item.text for item in page if isinstance(item, Text)].count("f") == 2
    assert all(item_box(item).bottom <= 60.0 for item in page)


def test_every_page_with_counts_by_colour_has_the_colours_over_them() -> None:
    for draft in drafts():
        found = [item for item in draft.items if isinstance(item, Text)]
        counted = {item.text for item in found} & {"plate 2x4", "tile 2x4", "brick 2x4", "plug"}
        assert not counted or "part" in {item.text for item in found}, draft.title
