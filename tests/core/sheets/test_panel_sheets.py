"""What a stranger needs to build a panel is on its sheet, and all of it comes from the bond."""

import re
from collections import Counter
from collections.abc import Iterable
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon

from core.bond.bonds import first_panels
from core.bond.each import bonding
from core.bond.result import Bond
from core.drawing import Item, Path, Text, item_box
from core.drawing.scale import Scale
from core.frame import as_hung
from core.kit import Kit
from core.setout import solve
from core.sheets import sheets_for
from core.sheets.panel_back import back_differs
from core.sheets.panel_bricks import EDGE, Look, looks_of
from core.sheets.panel_corner import corner_lines
from core.sheets.panel_facts import check_rows, mark_groups, mass_kg, place_lines, slack_mm
from core.sheets.panel_legs import leg_spans, owns_square
from core.sheets.panel_patterns import letters_by_layer, numbers_words, patterns_of
from core.sheets.panel_sheet import first_pages, panel_sheets, sheet_code
from core.sheets.panel_strip import StripView, pattern_lines
from core.sheets.panel_view import PanelView, view_items
from tests.core.sheets.bench import NAMES, bench_sheets, bonds, design_texts, hung, setout, sheets, two_faced

every_room = pytest.mark.parametrize("name", NAMES)
KIT = Kit()


def _bricks(items: Iterable[Item]) -> list[Path]:
    return [item for item in items if isinstance(item, Path) and item.closed and item.pen == EDGE]


def _area(items: list[Path]) -> float:
    return sum(item_box(item).width * item_box(item).height for item in items)


@every_room
def test_front_view_draws_every_part_once_and_covers_the_panels_outline(name: str) -> None:
    """Areas are held against the set-out's outline, which bonding starts from but does not draw."""
    room = setout(name).room
    looks = looks_of(room.parts)
    for design, bond in bonds(name).items():
        view = PanelView(bond, room.kit, Scale(2))
        drawn = _bricks(view_items(view, looks, patterns_of(bond)))
        # The boxes to tick are drawn with the same pen, one a layer; nothing else is.
        parts = [path for path in drawn if item_box(path).left < view.width_mm - 20.0]
        assert len(parts) == sum(laid.side in (None, 0) for layer in bond.layers for laid in layer.laid), design
        if bond.corner is None:
            faces = first_panels(hung(name))[design].faces
            cells = sum(Polygon(face.outline, face.holes).area for face in faces)
            assert _area(parts) * 4 == pytest.approx(cells * room.kit.pitch_mm * room.kit.plate_mm)


@every_room
def test_large_drawing_of_a_pattern_shows_every_part_of_its_layer_with_its_label(name: str) -> None:
    """A helper who lays what the large drawing says has laid the whole course."""
    room = setout(name).room
    looks = looks_of(room.parts)
    for design, bond in bonds(name).items():
        strip = StripView(bond, room.kit, 2.0, 174.0)
        for pattern in patterns_of(bond):
            items = [item for line in pattern_lines(strip, pattern, looks) for item in line.items]
            texts = [item for item in items if isinstance(item, Text)]
            boxes = [item_box(path) for path in _bricks(items)]
            assert len(boxes) == len(pattern.layer.laid), (design, pattern.letter)
            labels = [text for text in texts if any(box.holds(item_box(text), 0.1) for box in boxes)]
            assert Counter(text.text for text in labels) == Counter(looks[laid.part].label for laid in pattern.layer.laid)
            assert any(f"{len(pattern.layer.laid)} parts" in text.text for text in texts)


@every_room
def test_every_layer_is_listed_with_its_pattern(name: str) -> None:
    for design, bond in bonds(name).items():
        patterns = patterns_of(bond)
        assert sorted(n for pattern in patterns for n in pattern.layers) == list(range(len(bond.layers)))
        assert all(bond.layers[n].laid == pattern.layer.laid for pattern in patterns for n in pattern.layers)
        letters = letters_by_layer(patterns)
        texts = design_texts(name, design)
        for pattern in patterns:
            assert pattern.letter in texts
        courses = sum(layer.kind == "course" for layer in bond.layers)
        assert {str(n) for n in range(1, courses + 1)} <= set(texts)
        assert len(letters) == len(bond.layers)


def _spoken(words: str) -> list[int]:
    found: list[int] = []
    for part in re.split(r", (?!\d+ …)", words):
        if to := re.fullmatch(r"(\d+) to (\d+)", part):
            found += range(int(to[1]), int(to[2]) + 1)
        elif every := re.fullmatch(r"(\d+), (\d+) … (\d+)", part):
            found += range(int(every[1]), int(every[3]) + 1, int(every[2]) - int(every[1]))
        else:
            found.append(int(part))
    return found


@given(st.sets(st.integers(1, 200), min_size=1, max_size=60).map(sorted))
def test_numbers_drawn_together_mean_the_same_numbers(numbers: list[int]) -> None:
    assert _spoken(numbers_words(numbers)) == numbers


def test_numbers_are_drawn_together_as_a_person_would() -> None:
    assert numbers_words([1, 7, 9, 11, 13, 25]) == "1, 7, 9 … 13, 25"
    assert numbers_words([3, 4, 5, 6]) == "3 to 6"
    assert numbers_words([4, 28]) == "4, 28"


@every_room
def test_parts_list_is_the_bonds_own(name: str) -> None:
    for design in hung(name).designs:
        bond = bonds(name)[design.name]
        texts = design_texts(name, design.name)
        assert f"Parts: {sum(bond.parts.values())} in one panel" in texts
        for part, count in bond.parts.items():
            if count:
                assert part in texts
                at = texts.index(part)
                assert {str(count), str(count * design.count)} <= set(texts[at : at + 4]), (design.name, part)


@every_room
def test_every_mark_stands_on_the_sheet_of_its_design(name: str) -> None:
    for design in hung(name).designs:
        words = " ".join(design_texts(name, design.name))
        marks = [panel.mark for panel in hung(name).panels if panel.design == design.name]
        said = [mark for group in mark_groups(marks) for mark in _marks_in(group)]
        assert said == marks
        assert all(group.split("-")[0] in words for group in mark_groups(marks))
        assert f"Where it goes: {len(marks)} panel" in words


def _marks_in(group: str) -> list[str]:
    wall, row, places = group.split("-", 2)
    found = []
    for part in places.split(", "):
        first, _, last = part.partition(" to ")
        width = len(first)
        found += [f"{wall}-{row}-{n:0{width}d}" for n in range(int(first), int(last or first) + 1)]
    return found


def test_panels_hung_turned_about_are_named_by_themselves() -> None:
    lines = place_lines(("A-1-01", "A-1-02"), ("A-1-02",), 200.0)
    texts = [item.text for line in lines for item in line.items if isinstance(item, Text)]
    assert texts == ["Where it goes: 2 panels", "A-1-01", "Turned about, its back to the room: A-1-02"]


@every_room
def test_design_list_points_to_the_sheet_of_each_design(name: str) -> None:
    benches = [sheet for sheet in sheets(name) if sheet.code.startswith("panel-")]
    for design in hung(name).designs:
        page = next(n for n, sheet in enumerate(benches, start=1) if sheet.code == sheet_code(design.name))
        lists = [sheet for sheet in sheets(name) if sheet.code.startswith("designs-")]
        listed = [item for sheet in lists for item in sheet.items if isinstance(item, Text)]
        row = next(item.at[1] for item in listed if item.text == design.name)
        assert str(page) in {item.text for item in listed if item.at[1] == row}


@every_room
def test_cover_lists_panel_sheets_story_pole_and_hole_template(name: str) -> None:
    words = " ".join(
        i.text for sheet in sheets(name) if sheet.code.startswith("cover") for i in sheet.items if isinstance(i, Text)
    )
    assert all(title in words for title in ("Panel sheets", "Story pole", "Hole template"))


@every_room
def test_check_figures_are_the_set_outs_sizes_with_half_the_fit_either_way(name: str) -> None:
    """Half the fit: the shell's own rule, that each panel may take no more than one end's share; no published source."""
    kit = setout(name).room.kit
    for design, bond in bonds(name).items():
        faces = first_panels(hung(name))[design].faces
        height = (max(f.top for f in faces) - min(f.bottom for f in faces)) * kit.plate_mm
        rows = {row[0]: [float(value) for value in row[1:]] for row in check_rows(bond, kit)}
        assert rows["height without top knobs,\u00a0mm"] == pytest.approx([height, height - 0.5, height + 0.5])
        if bond.corner is None:
            width = (max(f.right for f in faces) - min(f.left for f in faces)) * kit.pitch_mm
            assert rows["width,\u00a0mm"] == pytest.approx([width, width - 0.5, width + 0.5])
            assert rows["knobs across"] == [width / kit.pitch_mm] * 3


def test_full_panel_has_the_kits_figures() -> None:
    """38 pitches of 8.0 mm, 31 courses of 9.6 mm and two plates of 3.2 mm: 304.0 mm both ways."""
    rows = {row[0]: row[1:] for row in check_rows(bonds("demo")["full"], KIT)}
    assert rows["knobs across"] == ["38", "38", "38"]
    assert rows["brick courses up"] == ["31", "31", "31"]
    assert rows["width,\u00a0mm"] == rows["height without top knobs,\u00a0mm"] == ["304.0", "303.5", "304.5"]


@given(st.floats(0.01, 900), st.floats(0.5, 900), st.floats(0.5, 900))
def test_no_limit_lets_a_knob_or_a_plate_be_miscounted(fit: float, pitch: float, plate: float) -> None:
    slack = slack_mm(Kit(fit_mm=fit, pitch_mm=pitch, plate_mm=plate))
    assert slack <= fit / 2
    assert 2 * slack < pitch
    assert 2 * slack <= plate


def test_mass_is_the_sum_of_the_parts() -> None:
    parts = {part.name: part for part in setout("demo").room.parts}
    bond = bonds("demo")["full"]
    grams = sum(parts[laid.part].mass_g for layer in bond.layers for laid in layer.laid) + 4 * parts["plug"].mass_g
    assert mass_kg(bond, parts) == pytest.approx(grams / 1000)


@every_room
def test_corner_sheets_say_which_leg_is_laid_first(name: str) -> None:
    for design, bond in bonds(name).items():
        if bond.corner is None:
            continue
        patterns = patterns_of(bond)
        looks = looks_of(setout(name).room.parts)
        lines = corner_lines(bond, setout(name).room.kit, 2.0, 174.0, patterns, looks)
        texts = [item for line in lines for item in line.items if isinstance(item, Text)]
        said = [
            t.text.split()[0] for t in sorted(texts, key=lambda t: t.at[0]) if t.text.endswith("leg first, the other up to it")
        ]
        wanted = [next(("left", "right")[s.leg] for s in leg_spans(bond) if owns_square(p.layer, s)) for p in patterns[:2]]
        assert said == wanted
        assert wanted[0] != wanted[1], "the legs take turns at the corner"
        assert {"left leg", "right leg", "corner"} <= set(design_texts(name, design))


def test_corner_plan_is_one_l_without_gaps_or_overlaps() -> None:
    """Parts of a course from above: the two legs and the square, once each."""
    for name, design in (("demo", "corner 19+19 x 15"), ("den", "outside corner 19+19 x 15")):
        bond = bonds(name)[design]
        lines = corner_lines(bond, KIT, 2.0, 250.0, patterns_of(bond), looks_of(setout(name).room.parts))
        boxes = [item_box(path) for path in _bricks(lines[0].items)]
        cells = 2 * (sum(span.width for span in leg_spans(bond)) * 2 - 4)
        assert sum(box.width * box.height for box in boxes) == pytest.approx(cells * 16.0)
        for n, one in enumerate(boxes):
            assert not any(one.overlaps(other, 0.01) for other in boxes[n + 1 :])


def test_back_is_drawn_mirrored_where_it_differs_and_only_there() -> None:
    assert not any(back_differs(bond) for bond in bonds("demo").values())
    bond = two_faced()
    assert back_differs(bond)
    looks = looks_of(setout("demo").room.parts)
    front, back = (_lefts(PanelView(bond, KIT, Scale(2), from_back), looks, bond) for from_back in (False, True))
    assert front == [0.0, 16.0, 24.0]
    assert back == [0.0, 4.0, 12.0, 16.0]


def _lefts(view: PanelView, looks: dict[str, Look], bond: Bond) -> list[float]:
    paths = _bricks(view_items(view, looks, patterns_of(bond)))
    left = view.legs()[0][1]
    return sorted(round(item_box(path).left - left, 3) for path in paths if item_box(path).left < view.width_mm - 20.0)


@every_room
def test_running_counts_never_leave_a_reader_to_count_more_than_eight_knobs(name: str) -> None:
    looks = looks_of(setout(name).room.parts)
    for bond in bonds(name).values():
        view = PanelView(bond, setout(name).room.kit, Scale(2))
        texts = [item for item in view_items(view, looks, patterns_of(bond)) if isinstance(item, Text)]
        ends = sorted(int(text.text) for text in texts if text.at[1] > view.y(0) + 1.0 and text.text.isdigit())
        assert max(b - a for a, b in pairwise(ends)) <= 8
        assert max(span.width for span in leg_spans(bond)) == ends[-1]


@every_room
def test_bench_sheets_keep_to_their_frame_and_no_two_texts_overlap(name: str) -> None:
    for sheet in bench_sheets(name):
        assert all(sheet.paper.frame.holds(item_box(item), 1e-6) for item in sheet.items), sheet.code
        boxes = sorted(((item_box(i), i.text) for i in sheet.items if isinstance(i, Text)), key=lambda pair: pair[0].left)
        for n, (one, text) in enumerate(boxes):
            for other, words in boxes[n + 1 :]:
                if other.left > one.right:
                    break
                assert not one.overlaps(other, 0.01), f"{sheet.code}: {text!r} and {words!r}"


@every_room
def test_sheets_of_the_same_room_are_the_same(name: str) -> None:
    assert sheets_for(setout(name)) == sheets(name)


def test_a_design_that_cannot_be_bonded_says_why_on_its_sheet() -> None:
    room = setout("demo").room
    parts = tuple(part.model_copy(update={"is_stocked": part.kind != "brick"}) for part in room.parts)
    bare = solve(room.model_copy(update={"parts": parts}))
    panels, designs = [sheet for sheet in sheets_for(bare) if sheet.code.startswith("panel-")], as_hung(bare).setout.designs
    assert len(panels) == len(designs)
    for sheet, design in zip(panels, designs, strict=True):
        words = " ".join(item.text for item in sheet.items if isinstance(item, Text))
        assert f"{design.name}: no bond from the stocked parts" in words
        assert "brick" in words


def test_first_pages_are_counted_from_one() -> None:
    found = panel_sheets(hung("demo"), bonding(hung("demo")))
    places = first_pages(found)
    assert places["full"] == "1"
    assert sorted(places) == sorted(design.name for design in hung("demo").designs)
