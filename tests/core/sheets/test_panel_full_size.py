"""Story pole and hole template: true to size on paper, in the PDF, and true to the set-out."""

from collections.abc import Iterator
from io import BytesIO
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PageObject, PdfReader
from pypdf.generic import ContentStream

from app.pack import pdf_bytes
from core.bond.bonds import first_panels
from core.bond.result import Bond
from core.drawing import Sheet, Text
from core.kit import Kit
from core.setout.mounting import whole_row_courses
from core.sheets.full_size import OVERLAP_MM, pieces
from core.sheets.hole_template import templates
from core.sheets.story_pole import poles, story_poles
from tests.core.sheets.bench import NAMES, bonds, hung, setout, sheets

MM_PER_POINT = 25.4 / 72
TRUE_MM = 0.05
Point = tuple[float, float]
every_room = pytest.mark.parametrize("name", NAMES)


def _page(sheet: Sheet) -> tuple[PageObject, PdfReader]:
    reader = PdfReader(BytesIO(pdf_bytes("measured", [sheet])))
    return reader.pages[0], reader


def _segments(sheet: Sheet) -> list[tuple[Point, Point]]:
    """Every straight stroke of a sheet's PDF page in millimetres, as its path operators place it."""
    return list(_walk(*_page(sheet)))


def _walk(page: PageObject, reader: PdfReader) -> Iterator[tuple[Point, Point]]:
    here, stack = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0), []
    begun = at = (0.0, 0.0)
    for operands, operator in ContentStream(page.get_contents(), reader).operations:
        n = [float(value) for value in operands] if operator in (b"cm", b"m", b"l") else []
        if operator == b"q":
            stack.append(here)
        elif operator == b"Q":
            here = stack.pop()
        elif operator == b"cm":
            a, b, c, d, e, f = here
            here = (
                *(n[0] * a + n[1] * c, n[0] * b + n[1] * d, n[2] * a + n[3] * c, n[2] * b + n[3] * d),
                *(n[4] * a + n[5] * c + e, n[4] * b + n[5] * d + f),
            )
        elif operator in (b"m", b"l"):
            a, b, c, d, e, f = here
            to = ((a * n[0] + c * n[1] + e) * MM_PER_POINT, (b * n[0] + d * n[1] + f) * MM_PER_POINT)
            if operator == b"l":
                yield at, to
            begun, at = (to, to) if operator == b"m" else (begun, to)
        elif operator == b"h":
            yield at, begun
            at = begun


def _level(segments: list[tuple[Point, Point]]) -> list[float]:
    return [abs(b[0] - a[0]) for a, b in segments if abs(b[1] - a[1]) < 0.01]


@pytest.mark.usefixtures("qapp")
@every_room
def test_every_full_size_sheet_has_a_line_of_100_mm_that_is_true(name: str) -> None:
    found = [sheet for sheet in sheets(name) if sheet.code.startswith(("story-pole-", "hole-template-"))]
    assert len(found) >= 2
    for sheet in found:
        assert any(abs(length - 100.0) < TRUE_MM for length in _level(_segments(sheet))), sheet.code
        words = " ".join(item.text for item in sheet.items if isinstance(item, Text))
        assert "SCALE 1:1" in words
        assert "100 % (actual size), never fitted to the page" in words


@pytest.mark.usefixtures("qapp")
def test_full_panels_pole_is_304_mm_with_every_course_where_it_belongs() -> None:
    """31 courses of 9.6 mm, a plate course and a cap course of 3.2 mm each: 304.0 mm."""
    segments = _segments(next(sheet for sheet in sheets("demo") if sheet.code == "story-pole-1"))
    edges = [(a, b) for a, b in segments if abs(b[1] - a[1]) < 0.01 and abs(abs(b[0] - a[0]) - 304.0) < TRUE_MM]
    assert edges
    left, right = sorted((edges[0][0][0], edges[0][1][0]))
    y = edges[0][0][1]
    upright = [a[0] for a, b in segments if abs(b[0] - a[0]) < 0.01 and min(a[1], b[1]) - 0.1 <= y <= max(a[1], b[1]) + 0.1]
    for height in (*(9.6 * course for course in range(32)), 300.8, 304.0):
        assert min(abs(right - x - height) for x in upright) < TRUE_MM, height
    assert right - left == pytest.approx(304.0, abs=TRUE_MM)


@pytest.mark.usefixtures("qapp")
def test_hole_axes_of_the_full_panel_are_8_mm_from_either_edge_in_the_pdf() -> None:
    """One pitch of 8.0 mm from the left edge, and from the right one: the kit's hole pattern."""
    segments = _segments(next(sheet for sheet in sheets("demo") if sheet.code == "hole-template-1"))
    strips = [(a, b) for a, b in segments if abs(b[1] - a[1]) < 0.01 and abs(abs(b[0] - a[0]) - 304.0) < TRUE_MM]
    left, right = sorted((strips[0][0][0], strips[0][1][0]))
    long = [a[0] for a, b in segments if abs(b[0] - a[0]) < 0.01 and abs(abs(b[1] - a[1]) - 24.0) < TRUE_MM]
    assert any(abs(x - left - 8.0) < TRUE_MM for x in long)
    assert any(abs(right - x - 8.0) < TRUE_MM for x in long)


@every_room
def test_templates_hold_the_mounting_points_of_the_set_out(name: str) -> None:
    """Bonding and sheets stand between the two: the points are read from the set-out's faces."""
    kit = setout(name).room.kit
    for design, panel in first_panels(hung(name)).items():
        bond = bonds(name)[design]
        if bond.corner is not None:
            continue
        left, bottom = min(face.left for face in panel.faces), min(face.bottom for face in panel.faces)
        points = {
            (m.x_pitches - left, round((m.z_half_plates / 2 - bottom) * kit.plate_mm, 2))
            for face in panel.faces
            for m in face.mounts
        }
        drawn = {
            (line, level)
            for template, uses in templates({design: bond}, kit).items()
            for levels in uses
            for level in levels
            for line in template.lines
        }
        assert drawn == points, design


def test_pole_marks_the_kits_hole_courses() -> None:
    """The 4th course from the bottom and the 4th from the top: the kit's rule."""
    (full,) = [pole for pole, designs in poles(bonds("demo")).items() if "full" in designs]
    holed = [int(mark.name) - 1 for mark in full if mark.has_holes]
    assert tuple(holed) == whole_row_courses(Kit(), 31) == (3, 27)


@every_room
def test_every_design_has_a_pole_and_a_template(name: str) -> None:
    on_poles = [design for designs in poles(bonds(name)).values() for design in designs]
    assert sorted(on_poles) == sorted(bonds(name))
    kit = setout(name).room.kit
    on_templates = {design for uses in templates(bonds(name), kit).values() for designs in uses.values() for design in designs}
    assert on_templates == {design for design, bond in bonds(name).items() if bond.mounts}


@given(st.floats(1, 3000), st.floats(60, 400))
def test_pieces_cover_the_strip_and_share_their_joins(length: float, most: float) -> None:
    found = pieces(length, most)
    assert found[0].start_mm == 0.0
    assert found[-1].end_mm == length
    for piece in found:
        assert 0 < piece.length_mm <= most + 1e-6
    for one, other in pairwise(found):
        assert one.end_mm - other.start_mm == pytest.approx(OVERLAP_MM)
        assert one.joins_mm[-1] == other.joins_mm[0]
        assert other.start_mm < one.joins_mm[-1] < one.end_mm


def test_poles_longer_than_the_paper_are_split_with_every_line_kept() -> None:
    """60 courses and two plates, 582.4 mm, on sheets 420 mm wide."""
    tall: dict[str, Bond] = {name: bond for name, bond in bonds("tall kit in feet").items() if len(bond.layers) == 62}
    metric = setout("demo")
    drafts = story_poles(metric, tall)
    texts = [item.text for draft in drafts for item in draft.items if isinstance(item, Text)]
    assert texts.count("join") == 2 * len(poles(tall))
    assert {f"{9.6 * course:.1f}" for course in range(1, 61)} | {"579.2", "582.4"} <= set(texts)
