"""What a sheet says of how its panel holds together, held against knobs counted from the bricks as laid."""

import re
from collections import Counter
from functools import cache
from itertools import pairwise

import pytest

from core.bond.result import Bond, Laid, Layer
from core.drawing import Text
from core.kit import Kit
from core.sheets.panel_sheet import sheet_code
from core.sheets.panel_strength import strength_words, stretch_words
from core.whole_job import WholeJob
from tests.core.sheets.bench import NAMES, setout, sheets

every_room = pytest.mark.parametrize("name", NAMES)


@cache
def _bonds(name: str) -> dict[str, Bond]:
    """Every bond with a sheet, those with moved holes among them."""
    job = WholeJob(setout(name))
    built = {panel.design for panel in job.hung.setout.panels}
    return {design: bond for design, bond in job.bonds.items() if design in built}


def _own_texts(name: str, design: str) -> list[str]:
    """Every text on the sheets of one bond."""
    title = re.compile(rf".*: {re.escape(design)}(, \d+ of \d+)?")
    mine = [sheet for sheet in sheets(name) if sheet.code.startswith("panel-") and title.fullmatch(sheet.title)]
    return [item.text for sheet in mine for item in sheet.items if isinstance(item, Text)]


def _level_knobs(bond: Bond) -> list[int]:
    """Knobs at every level of a flat bond, from its bricks alone."""
    cells = [
        {(x, side) for one in layer.laid for x in range(one.at, one.at + one.length) for side in _sides(one, bond)}
        for layer in bond.layers
    ]
    return [len(lower & upper) for lower, upper in pairwise(cells)]


def _sides(one: Laid, bond: Bond) -> range:
    return range(bond.depth) if one.side is None else range(one.side, one.side + 1)


@every_room
def test_every_design_s_sheet_reports_its_strength_once(name: str) -> None:
    for design, bond in _bonds(name).items():
        words = " ".join(_own_texts(name, design))
        assert words.count("Strength, in knobs (loads not judged).") == 1, design
        assert "One piece." in words
        if bond.corner is None:
            knobs = _level_knobs(bond)
            told = re.search(r"(?:Every level: |Weakest level: )(\d+) knobs?", words)
            assert told is not None
            assert int(told[1]) == min(knobs)
            assert ("Every level" in words) == (len(set(knobs)) == 1)


@every_room
def test_a_cut_out_s_stretch_is_told_by_course_and_length(name: str) -> None:
    seen = Counter[bool]()
    for design, bond in _bonds(name).items():
        if bond.corner is not None:
            continue
        covered = [{x for one in layer.laid for x in range(one.at, one.at + one.length)} for layer in bond.layers]
        bare = {n: upper - lower for n, (lower, upper) in enumerate(pairwise(covered), start=1) if upper - lower}
        words = " ".join(_own_texts(name, design))
        seen[bool(bare)] += 1
        assert bool(bare) == ("Longest stretch with nothing below" in words) == ("No part is over a cut-out" not in words)
        if len(bare) == 1:
            ((course, pitches),) = bare.items()
            assert f"{len(pitches)} knobs ({len(pitches) * 8}\u00a0mm), course {course + 1} after {min(pitches)} knobs." in words
    assert seen[False] > 0
    assert name != "demo" or seen[True] > 0


def test_a_plain_panel_of_the_demo_room_stays_on_one_sheet() -> None:
    codes = [sheet.code for sheet in sheets("demo")]
    for design in ("full", "half-height", "half-width"):
        assert sheet_code(design) in codes
        assert f"{sheet_code(design)}-2" not in codes


def _strip(*lengths: int) -> Bond:
    ends = [sum(lengths[:n]) for n in range(len(lengths))]
    laid = tuple(Laid(f"brick 2x{length}", 0, at, length) for at, length in zip(ends, lengths, strict=True))
    return Bond("strip", (sum(lengths),), (Layer("course", 0, 3, laid),), len(lengths), (), 0)


def test_loose_bricks_are_named_and_many_are_counted() -> None:
    words = " ".join(strength_words(_strip(4, 3, 2, 4), Kit()))
    assert "Not one piece: 4 pieces that no knob joins." in words
    assert (
        "brick 2x4, course 1 after 0 knobs; brick 2x3, course 1 after 4 knobs; brick 2x2, course 1 after 7 knobs; 1 more" in words
    )


def test_a_course_over_an_opening_is_to_be_held_until_the_next_is_on() -> None:
    lower = Layer("course", 0, 3, (Laid("brick 2x4", 0, 0, 4), Laid("brick 2x4", 0, 9, 4)))
    upper = Layer("course", 3, 3, (Laid("brick 2x6", 0, 0, 6), Laid("brick 2x7", 0, 6, 7)))
    bond = Bond("shaped", (13,), (lower, upper), 4, (), 0)
    assert stretch_words(bond, Kit(), 0) == []
    assert stretch_words(bond, Kit(), 1) == ["5 knobs (40\u00a0mm) with nothing below: hold it until the next course is on"]
