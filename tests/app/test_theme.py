"""The palette can be read by everyone."""

import pytest

from app import theme


@pytest.mark.parametrize(
    ("one", "other", "ratio"), [("#000000", "#ffffff", 21.0), ("#ffffff", "#ffffff", 1.0), ("#767676", "#ffffff", 4.54)]
)
def test_contrast_agrees_with_published_ratios(one: str, other: str, ratio: float) -> None:
    """WCAG 2.1, definitions of contrast ratio (1 to 21) and relative luminance; #767676 as the least grey from memory."""
    assert theme.contrast(one, other) == pytest.approx(ratio, abs=0.005)
    assert theme.contrast(other, one) == theme.contrast(one, other)


@pytest.mark.parametrize(("ink", "ground"), theme.TEXT_PAIRS)
def test_every_ink_stands_out_from_every_ground_it_is_written_on(ink: str, ground: str) -> None:
    """WCAG 2.1, success criterion 1.4.3: at least 4.5 to 1 for text."""
    assert theme.contrast(ink, ground) >= 4.5


def test_fewer_and_more_differ_by_more_than_red_against_green() -> None:
    """Blue against orange: the blue channel alone tells them apart, which red-green blindness leaves whole (from memory)."""
    fewer, more = int(theme.FEWER[5:7], 16), int(theme.MORE[5:7], 16)
    assert fewer - more > 100
