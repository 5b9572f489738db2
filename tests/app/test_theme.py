"""Both schemes can be read by everyone, and paper is always light."""

from itertools import product

import numpy as np
import pytest
from PySide6.QtGui import QColor, QImage

from app import theme
from app.elevation.fills import panel_brush
from app.pictures.eyes import MATRICES, seen
from app.theme.colours import SCHEMES, Colours
from core.setout.result import PanelKind

KIT: tuple[PanelKind, ...] = ("full", "half-height", "half-width", "quarter", "corner")
SPECIAL: tuple[PanelKind, ...] = ("closer", "shaped")
TOLD_APART = 10.0
"""Colours this far apart in CIELAB are told apart at a glance when side by side: common practice, no published source."""


@pytest.mark.parametrize(
    ("one", "other", "ratio"), [("#000000", "#ffffff", 21.0), ("#ffffff", "#ffffff", 1.0), ("#767676", "#ffffff", 4.54)]
)
def test_contrast_agrees_with_published_ratios(one: str, other: str, ratio: float) -> None:
    """WCAG 2.1, definitions of contrast ratio (1 to 21) and relative luminance; #767676 as the least grey from memory."""
    assert theme.contrast(one, other) == pytest.approx(ratio, abs=0.005)
    assert theme.contrast(other, one) == theme.contrast(one, other)


@pytest.mark.parametrize("name", SCHEMES)
def test_every_ink_stands_out_from_every_ground_it_is_written_on(name: str) -> None:
    """WCAG 2.1, success criterion 1.4.3: at least 4.5 to 1 for text."""
    weak = {pair: theme.contrast(*pair) for pair in SCHEMES[name].text_pairs if theme.contrast(*pair) < 4.5}
    assert not weak


@pytest.mark.parametrize("name", SCHEMES)
def test_every_line_and_mark_stands_out_from_what_it_is_drawn_on(name: str) -> None:
    """WCAG 2.1, success criterion 1.4.11: at least 3 to 1 for what carries a meaning."""
    weak = {pair: theme.contrast(*pair) for pair in SCHEMES[name].mark_pairs if theme.contrast(*pair) < 3.0}
    assert not weak


@pytest.mark.parametrize("name", SCHEMES)
def test_fewer_and_more_differ_by_more_than_red_against_green(name: str) -> None:
    """Blue against orange: the blue channel alone tells them apart, which red-green blindness leaves whole (from memory)."""
    fewer, more = int(SCHEMES[name].fewer[5:7], 16), int(SCHEMES[name].more[5:7], 16)
    assert fewer - more > 100


@pytest.mark.parametrize(("name", "eyes"), tuple(product(SCHEMES, ["protanopia", "deuteranopia", "tritanopia"])))
def test_special_panels_stay_apart_from_the_kit_to_colour_blind_eyes(name: str, eyes: str) -> None:
    """Machado, Oliveira and Fernandes 2009 (IEEE TVCG 15) for the eyes; distances in CIELAB (CIE 15)."""
    lab = _lab_as_seen(SCHEMES[name], eyes)
    near = {(special, kit): round(float(np.linalg.norm(lab[special] - lab[kit])), 1) for special, kit in product(SPECIAL, KIT)}
    assert min(near.values()) >= TOLD_APART, near


@pytest.mark.parametrize(
    ("srgb", "lab"),
    [((255, 255, 255), (100.0, 0.0, 0.0)), ((255, 0, 0), (53.24, 80.09, 67.20)), ((0, 0, 255), (32.30, 79.19, -107.86))],
)
def test_distances_are_taken_in_cielab(srgb: tuple[int, int, int], lab: tuple[float, float, float]) -> None:
    """L*a*b* of white, red and blue of sRGB under D65: widely published; the figures from memory."""
    np.testing.assert_allclose(_lab(np.array(srgb) / 255), lab, atol=0.05)


def test_paper_is_light_whatever_is_shown() -> None:
    theme.wear(theme.DARK, 1.5)
    try:
        dark = panel_brush("full", 1.0).color().name()
        with theme.on_paper():
            assert theme.shown is theme.LIGHT
            assert theme.px(10) == 10
            assert panel_brush("full", 1.0).color().name() == theme.LIGHT.panel_fills["full"]
        assert (theme.shown, theme.px(10)) == (theme.DARK, 15)
        assert panel_brush("full", 1.0).color().name() == dark == theme.DARK.panel_fills["full"]
    finally:
        theme.wear(theme.LIGHT, 1.0)


def test_lines_on_a_fill_are_darker_in_the_light_and_lighter_in_the_dark() -> None:
    for scheme in SCHEMES.values():
        theme.wear(scheme, 1.0)
        for fill in scheme.panel_fills.values():
            assert (theme.shaded(fill, 130).lightness() > QColor(fill).lightness()) is scheme.is_dark
    theme.wear(theme.LIGHT, 1.0)


def _lab_as_seen(scheme: Colours, eyes: str) -> dict[PanelKind, "np.ndarray"]:
    kinds = (*KIT, *SPECIAL)
    image = QImage(len(kinds), 1, QImage.Format.Format_RGB32)
    for place, kind in enumerate(kinds):
        image.setPixelColor(place, 0, QColor(scheme.panel_fills[kind]))
    shown = seen(image, MATRICES[eyes])
    return {kind: _lab(np.array(shown.pixelColor(place, 0).getRgbF()[:3])) for place, kind in enumerate(kinds)}


def _lab(srgb: "np.ndarray") -> "np.ndarray":
    linear = np.where(srgb <= 0.04045, srgb / 12.92, ((srgb + 0.055) / 1.055) ** 2.4)
    to_xyz = np.array([[0.4124564, 0.3575761, 0.1804375], [0.2126729, 0.7151522, 0.0721750], [0.0193339, 0.1191920, 0.9503041]])
    share = to_xyz @ linear / np.array([0.95047, 1.0, 1.08883])
    bent = np.where(share > (6 / 29) ** 3, np.cbrt(share), share / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.array([116 * bent[1] - 16, 500 * (bent[0] - bent[1]), 200 * (bent[1] - bent[2])])
