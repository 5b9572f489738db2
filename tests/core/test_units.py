"""Lengths people type and read."""

import contextlib
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.errors import LengthError, RoomError
from core.units import SIXTEENTH_INCH_MM, format_length, gap_words, in_units, metric_size, parse_length_mm, reason


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("3048", 3048.0),
        ("3048 mm", 3048.0),
        (" 3048MM ", 3048.0),
        ("304.8 cm", 3048.0),
        ("304,8 cm", 3048.0),
        ("3.048 m", 3048.0),
        ("3,048 m", 3048.0),
        (".5 m", 500.0),
        ("0", 0.0),
    ],
)
def test_metric_lengths_read_as_written(text: str, mm: float) -> None:
    assert parse_length_mm(text) == mm


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("1 in", 25.4),
        ("1'", 304.8),
        ("10'", 3048.0),
        ("10' 0\"", 3048.0),
        ("10' 6 1/2\"", 3213.1),
        ("10'-6 1/2\"", 3213.1),
        ("10'6.5\"", 3213.1),
        ("10ft 6-1/2in", 3213.1),
        ("10 feet 6 inches", 3200.4),
        ("126.5 in", 3213.1),
        ('6 1/2"', 165.1),
        ('3/4"', 19.05),
        ("10′ 6½″", 3213.1),
        ("10’ 6 1⁄2”", 3213.1),
        ("10.5'", 3200.4),
        ("0,375 in", 9.525),
    ],
)
def test_feet_and_inches_are_the_international_ones(text: str, mm: float) -> None:
    """1 in = 25.4 mm and 1 ft = 0.3048 m exactly: NIST Special Publication 811 (2008), appendix B.6 and table B.8."""
    assert parse_length_mm(text) == mm


@pytest.mark.parametrize("text", ["-3", "-3 mm", "−10'", "- 6 in"])
def test_negative_lengths_are_refused_as_negative(text: str) -> None:
    with pytest.raises(LengthError, match="cannot be negative"):
        parse_length_mm(text)


@pytest.mark.parametrize("text", ["3,048", "3,048 mm", "126,500 in", "1,250'"])
def test_a_comma_that_may_part_thousands_is_refused(text: str) -> None:
    with pytest.raises(LengthError, match="without the comma"):
        parse_length_mm(text)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "no length"),
        ("   ", "no length"),
        ("nan", "not a length"),
        ("inf", "not a length"),
        ("1e3", "not a length"),
        ("1.234,5", "not a length"),
        ("ten", "not a length"),
        ("٣", "not a length"),
        ("3048 km", "not a length"),
        ("10' 6", "not a length"),
        ("12-1/2", "not a length"),
        ("3 m 4 cm", "not a length"),
        ("1'2'", "not a length"),
        ("10' 14\"", "below 12"),
        ("10.5' 3\"", "whole number"),
        ('6 5/4"', "fraction below one"),
        ('6.5 1/2"', "fraction below one"),
        ('1/0"', "must not be 0"),
        ("9" * 400, "too many"),
    ],
)
def test_anything_else_is_refused_with_what_would_be_right(text: str, reason: str) -> None:
    with pytest.raises(LengthError, match=reason):
        parse_length_mm(text)


@pytest.mark.parametrize(
    ("mm", "text"),
    [
        (0, '0"'),
        (1.0, '1/16"'),
        (19.05, '3/4"'),
        (165.1, '6 1/2"'),
        (304.8, "1' 0\""),
        (3047.9, "10' 0\""),
        (3213.1, "10' 6 1/2\""),
        (3067.05, "10' 0 3/4\""),
        (-4.0, '-3/16"'),
        (-0.1, '0"'),
    ],
)
def test_feet_and_inches_show_the_nearest_sixteenth(mm: float, text: str) -> None:
    assert format_length(mm, "ft-in") == text


@pytest.mark.parametrize(
    ("mm", "precision", "text"),
    [(3048.0, 1, "3048 mm"), (304.8, 1, "304.8 mm"), (19.05, 2, "19.05 mm"), (-0.01, 1, "0 mm"), (1500.4, 0, "1500 mm")],
)
def test_millimetres_show_no_idle_decimals(mm: float, precision: int, text: str) -> None:
    assert format_length(mm, "mm", precision) == text


def test_running_dimensions_go_without_the_unit() -> None:
    assert format_length(304.8, with_unit=False) == "304.8"


@pytest.mark.parametrize("mm", [float("nan"), float("inf")])
def test_a_length_without_end_cannot_be_shown(mm: float) -> None:
    with pytest.raises(LengthError):
        format_length(mm)


def test_a_finding_is_read_into_the_rooms_units_with_its_fields_named_in_words() -> None:
    said = "Rows end within 10 mm under clad_height_mm = 304.8 mm; -6.4 mm stay open, 60 mm² do not."
    assert in_units(said, "mm") == "Rows end within 10 mm under clad height = 304.8 mm; -6.4 mm stay open, 60 mm² do not."
    assert in_units(said, "ft-in") == 'Rows end within 3/8" under clad height = 1\' 0"; -1/4" stay open, 60 mm² do not.'


def test_a_size_that_is_made_in_millimetres_stays_metric() -> None:
    said = f"a {metric_size(4.8)} hole, {metric_size(3.25, 1)} and 25.4 mm"
    assert in_units(said, "ft-in") == 'a 4.8\u00a0mm hole, 3.2\u00a0mm and 1"'


def test_what_was_typed_is_quoted_as_typed() -> None:
    assert reason(LengthError("'20 mm x' is not a length"), "ft-in") == "'20 mm x' is not a length"
    assert reason(RoomError("openings.0 (door) and openings.12 (hatch 2) overlap"), "mm") == "door and hatch 2 overlap"
    assert reason(RoomError("the saw cut is 25.4 mm"), "ft-in") == 'the saw cut is 1"'


def test_a_gap_too_small_for_inches_is_not_shown_as_none() -> None:
    assert gap_words(0.6, "ft-in") == 'under 1/16"'
    assert gap_words(0.0, "ft-in") == '0"'
    assert gap_words(0.6, "mm") == "0.6 mm"


room_lengths = st.floats(min_value=0, max_value=1_000_000)


@given(room_lengths)
def test_feet_and_inches_read_back_within_half_a_sixteenth(mm: float) -> None:
    assert abs(parse_length_mm(format_length(mm, "ft-in")) - mm) <= SIXTEENTH_INCH_MM / 2 + 1e-6


@given(room_lengths, st.integers(min_value=0, max_value=6))
def test_millimetres_read_back_within_half_the_last_place(mm: float, precision: int) -> None:
    assert abs(parse_length_mm(format_length(mm, "mm", precision)) - mm) <= 0.5 * 10**-precision + 1e-6


typed = st.text(alphabet="0123456789.,'\"/- mcftin½′e", max_size=12) | st.text(max_size=60)


@given(typed)
def test_any_text_is_a_length_or_refused_(text: str) -> None:
    with contextlib.suppress(LengthError):
        assert 0 <= parse_length_mm(text) < math.inf
