"""The contrast formula against published ratios, and the tables of ``docs/look.md`` against the program's colours."""

import re
from collections.abc import Iterator

import pytest

from app import theme
from app.theme.colours import SCHEMES
from tests.conftest import ROOT

LOOK = (ROOT / "docs" / "look.md").read_text(encoding="utf-8")
ROW = re.compile(r"^\| [\w -]+ `(#[0-9a-f]{6})` \| [\w -]+ `(#[0-9a-f]{6})` \| (\d+\.\d\d) \|$", re.MULTILINE)


def _listed() -> Iterator[tuple[str, str, float]]:
    for one, other, ratio in ROW.findall(LOOK):
        yield one, other, float(ratio)


@pytest.mark.parametrize(
    ("one", "other", "ratio", "within"),
    [
        ("#000000", "#ffffff", 21.0, 1e-9),
        ("#767676", "#ffffff", 4.5422, 5e-5),
        ("#0000ff", "#ffffff", 8.59, 5e-3),
        ("#ff0000", "#0000ff", 2.15, 5e-3),
        ("#ffff00", "#ffffff", 1.07, 5e-3),
        ("#ff8100", "#64003a", 5.235369975583679, 1e-12),
        ("#e5e5e5", "#aabb00", 1.698093107780376, 1e-12),
    ],
)
def test_contrast_agrees_with_published_ratios(one: str, other: str, ratio: float, within: float) -> None:
    """WCAG 2, contrast ratio. #767676 from the wiki of ColorfulSwift, page Contrast; blue, red and yellow from Math for Web
    Design; the last two from the tests of a public contrast-checking library.
    """
    assert theme.contrast(one, other) == pytest.approx(ratio, abs=within)


def test_a_grey_one_step_lighter_than_the_least_fails() -> None:
    """#777777 on white has 4.478, below the 4.5 of WCAG 2's success criterion 1.4.3: computed by hand from its formula."""
    assert theme.contrast("#777777", "#ffffff") == pytest.approx(4.478, abs=5e-4)


@pytest.mark.parametrize(
    ("swatch", "letters", "ratio"),
    [
        ("#e69f00", "#000000", 9.32),
        ("#56b4e9", "#000000", 9.10),
        ("#009e73", "#000000", 6.14),
        ("#f0e442", "#000000", 15.88),
        ("#0072b2", "#ffffff", 5.19),
        ("#d55e00", "#000000", 5.43),
        ("#cc79a7", "#000000", 6.86),
    ],
)
def test_contrast_on_a_palette_for_colour_blind_eyes(swatch: str, letters: str, ratio: float) -> None:
    """Colours: M. Okabe and K. Ito, Color Universal Design, 2008; ratios computed beforehand by WCAG 2's formula."""
    assert theme.contrast(swatch, letters) == pytest.approx(ratio, abs=6e-3)


@pytest.mark.parametrize("name", SCHEMES)
def test_the_page_lists_every_ink_with_its_ground(name: str) -> None:
    assert set(SCHEMES[name].text_pairs) <= {(one, other) for one, other, _ in _listed()}


def test_every_ratio_on_the_page_is_the_programs() -> None:
    wrong = {(one, other): ratio for one, other, ratio in _listed() if abs(theme.contrast(one, other) - ratio) > 0.005001}
    assert not wrong


@pytest.mark.parametrize("name", SCHEMES)
def test_the_page_lists_the_least_contrast_of_every_line_and_mark(name: str) -> None:
    pairs = SCHEMES[name].mark_pairs
    least = {min((pair for pair in pairs if pair[0] == mark), key=lambda pair: theme.contrast(*pair)) for mark, _ in pairs}
    assert least <= {(one, other) for one, other, _ in _listed()}
