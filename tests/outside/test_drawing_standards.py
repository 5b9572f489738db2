"""Published drawing standards, each value with the standard and the page it was read on."""

import pytest

from core.drawing import Text
from core.drawing.items import PEN_WIDTHS_MM, TEXT_HEIGHTS_MM
from core.drawing.scale import ISO_FACTORS, US_INCHES_PER_FOOT, Scale, largest_scale
from core.drawing.sheet import A3, A4, LETTER, TABLOID, Paper
from core.room import Room
from core.sheets import sheets_for
from core.sheets.draft import title_block_box
from core.sheets.running import Along, Tick, chain_from_running, running_dimension, running_from_chain
from tests.core.handmade import handmade


def test_metric_sheets_are_a4_and_a3() -> None:
    """A4 210 x 297, A3 297 x 420 mm: ISO 216, read on wiki3.en-us.nina.az/ISO_216.html."""
    assert sorted((A4.width_mm, A4.height_mm)) == [210, 297]
    assert sorted((A3.width_mm, A3.height_mm)) == [297, 420]


def test_us_sheets_are_a_and_b() -> None:
    """A 8.5 x 11 in, B 11 x 17 in: ANSI/ASME Y14.1 sizes, read on graphics-cad.blogspot.com/2009/11/sizes-of-drawings.html."""
    assert sorted((LETTER.width_mm / 25.4, LETTER.height_mm / 25.4)) == pytest.approx([8.5, 11])
    assert sorted((TABLOID.width_mm / 25.4, TABLOID.height_mm / 25.4)) == pytest.approx([11, 17])


def test_reductions_are_the_standard_ones() -> None:
    """1:1, 1:2, 1:5 ... 1:10000: ISO 5455, read on educationdiscussion.com/use-of-scale-in-drawing/."""
    assert ISO_FACTORS == (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000)


def test_in_between_scales_are_not_used() -> None:
    """1:2.5, 1:25, 1:250 are not in ISO 5455, though drafting guides show them: metrication.com/drafting/scales.html."""
    assert not {2.5, 25, 250} & set(ISO_FACTORS)
    assert largest_scale(100.0, 100.0, (2500.0, 10.0), is_us=False).factor == 50


def test_scale_is_written_as_the_standard_writes_it() -> None:
    """SCALE 1:X in the title block: ISO 5455 clause 3,
    read on yumpu.com/en/document/view/54905672/bs-iso-5455-mjerilo-crteza/7.
    """
    assert Scale(10).title == "SCALE 1:10"


def test_us_scale_factor_is_twelve_over_the_inches() -> None:
    """1/16" 192, 1/8" 96, 1/4" 48, 1/2" 24, 3/4" 16, 1" 12, 3" 4:
    slidegur.com/doc/2451/architectural-scales---notes-and-explanations.
    """
    assert {inches: factor for factor, inches in US_INCHES_PER_FOOT.items()} == {
        12.0: 1, 6.0: 2, 3.0: 4, 1.5: 8, 1.0: 12, 0.75: 16, 0.5: 24, 0.375: 32, 0.25: 48, 0.1875: 64, 0.125: 96, 0.09375: 128,
        0.0625: 192,
    }  # fmt: skip


def test_24_feet_at_a_quarter_inch_are_6_inches() -> None:
    """24 ft at 1:48 = 6 in, and half an inch at 1:48 = 2 ft: datumspot.com/learn/reading-architectural-scales."""
    scale = Scale(48, is_us=True)
    assert scale.on_paper_mm(24 * 304.8) / 25.4 == pytest.approx(6.0)
    assert scale.on_paper_mm(2 * 304.8) / 25.4 == pytest.approx(0.5)
    assert scale.title == 'SCALE 1:48  (1/4" = 1\'-0")'


def test_lettering_heights_rise_by_root_two() -> None:
    """1.8, 2.5, 3.5, 5, 7, 10, 14, 20 mm: ISO 3098,
    read on roymech.org/Useful_Tables/Drawing/Lettering.html (2.5 misprinted there).
    """
    assert TEXT_HEIGHTS_MM == (1.8, 2.5, 3.5, 5.0, 7.0, 10.0, 14.0, 20.0)


def test_pen_widths_are_the_series() -> None:
    """0.13 to 2.0 mm: ISO 128 series, read on graphics-cad.blogspot.com/2009/11/sizes-of-drawings.html (1.4 misprinted there)."""
    assert PEN_WIDTHS_MM == (0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0)


@pytest.mark.parametrize("paper", [A4, A3])
def test_frame_leaves_20_mm_for_filing_and_10_elsewhere(paper: Paper) -> None:
    """20 mm left, 10 mm elsewhere: ISO 5457:1999, from memory; at least 10 mm on A2 to A4 also on
    expertsmind.com/topic/drawing-sheet-and-layout/border-and-frame-917410.aspx.
    """
    frame = paper.frame
    assert (frame.left, frame.top) == (20, 10)
    assert (paper.width_mm - frame.right, paper.height_mm - frame.bottom) == (10, 10)


@pytest.mark.parametrize("paper", [A4, A3, LETTER, TABLOID])
def test_title_block_stands_bottom_right_at_most_180_mm_wide(paper: Paper) -> None:
    """Bottom right in the frame, width at most 180 mm: ISO 7200 and ISO 5457, from memory."""
    block = title_block_box(paper)
    assert (block.right, block.bottom) == (paper.frame.right, paper.frame.bottom)
    assert block.width <= 180


def test_title_block_has_every_mandatory_field() -> None:
    """Legal owner, identification number, date of issue, sheet number, title, approval person, creator, document type:
    ISO 7200:2004, read on proficad.com/help/tb/data-fields-iso-7200.htm.
    """
    room = Room(name="Shed", corners_mm=((0.0, 0.0), (0.0, 2000.0), (2000.0, 2000.0), (2000.0, 0.0)), clad_height_mm=1000.0)
    fields = {
        "Legal owner",
        "Identification number",
        "Date of issue",
        "Sheet",
        "Title",
        "Approved by",
        "Creator",
        "Document type",
    }
    for sheet in sheets_for(handmade(room)):
        assert fields <= {item.text for item in sheet.items if isinstance(item, Text)}, sheet.code


def test_running_values_are_the_sums_of_the_chain() -> None:
    """Running 0 - 150 - 420 - 640 for the chain 150, 270, 220: superimposed running dimensions of ISO 129,
    read on issuhub.com/view/index/5590?pageIndex=55.
    """
    assert running_from_chain([150, 270, 220]) == [0, 150, 420, 640]
    assert chain_from_running([0, 150, 420, 640]) == [150, 270, 220]


def test_running_dimension_starts_in_a_circle_and_names_every_value() -> None:
    """One origin 0 marked by a small circle, a value at every arrowhead: ISO 129-1, the circle from memory;
    values 0 - 150 - 420 - 640 on issuhub.com/view/index/5590?pageIndex=55.
    """
    lie = Along(line=50.0, edge=40.0, is_upright=False, low=0.0, high=80.0)
    items = running_dimension(lie, 5.0, [Tick(5.0 + value / 10, str(value)) for value in (150, 420, 640)])
    circles = [item for item in items if type(item).__name__ == "Circle"]
    assert [circle.centre for circle in circles] == [(5.0, 50.0)]
    assert [item.text for item in items if isinstance(item, Text)] == ["0", "150", "420", "640"]
