"""Colour figures against what others published or compute."""

import numpy as np
import pytest
from PIL import Image, ImageCms

from core.colour.dither import dithered
from core.colour.lab import distances, lab, light_of, linear
from core.colouring import DEFAULT_COLOURS


def test_green_has_the_published_lab_values() -> None:
    """sRGB #008000 is lab(46.2775% -47.5621 48.5837): W3C web-platform-tests, css/css-color/lab-001.html (CSS Color 4)."""
    np.testing.assert_allclose(lab(light_of("#008000")), (46.2775, -47.5621, 48.5837), atol=2e-3)


def test_a_muted_brown_has_the_published_lab_values() -> None:
    """Lab 70, 5, 10 under D50 is sRGB 0.7282, 0.6573, 0.6007: The MathWorks, reference page of lab2rgb, example with D50."""
    np.testing.assert_allclose(lab(linear(np.array([0.7282, 0.6573, 0.6007]))), (70, 5, 10), atol=2e-2)


def test_white_and_black_end_the_scale() -> None:
    """L* is 100 for the white point and 0 for black, a* and b* are 0: ISO/CIE 11664-4, from memory."""
    np.testing.assert_allclose(lab(light_of("#ffffff")), (100, 0, 0), atol=1e-6)
    np.testing.assert_allclose(lab(light_of("#000000")), (0, 0, 0), atol=1e-6)


@pytest.mark.parametrize("colour", DEFAULT_COLOURS, ids=lambda colour: colour.name)
def test_lab_agrees_with_a_colour_management_library(colour: object) -> None:
    """Little CMS, through Pillow: its sRGB and Lab profiles. Its 8-bit answer is coarse: 100/255 in L*, 1 in a* and b*."""
    srgb = colour.srgb  # type: ignore[attr-defined]
    to_lab = ImageCms.buildTransform(ImageCms.createProfile("sRGB"), ImageCms.createProfile("LAB"), "RGB", "LAB")
    image = ImageCms.applyTransform(Image.new("RGB", (1, 1), srgb), to_lab)
    assert image is not None
    lightness, a, b = image.getpixel((0, 0))  # type: ignore[misc]
    theirs = (lightness * 100 / 255, a - 128, b - 128)
    assert distances(lab(light_of(srgb))[None], np.array([theirs]))[0, 0] < 1.5


def test_dithering_is_error_diffusion_as_published() -> None:
    """Floyd and Steinberg, An adaptive algorithm for spatial grey scale (Proc. SID 17/2, 1976): 7, 3, 5 and 1 sixteenths, from
    memory. Written down here cell by cell as published; the program settles whole fronts at once."""
    colours = np.array([light_of(colour) for colour in ("#ffffff", "#1d2023", "#98342a")])
    light = np.random.default_rng(7).uniform(size=(9, 13, 3))
    due, expected = light.copy(), np.zeros((9, 13), dtype=int)
    for y in range(9):
        for x in range(13):
            wanted = np.clip(due[y, x], -0.5, 1.5)
            pick = int(distances(lab(wanted)[None], lab(colours))[0].argmin())
            expected[y, x] = pick
            missed = wanted - colours[pick]
            for down, right, sixteenths in ((0, 1, 7), (1, -1, 3), (1, 0, 5), (1, 1, 1)):
                if y + down < 9 and 0 <= x + right < 13:
                    due[y + down, x + right] += missed * sixteenths / 16
    assert (dithered(light, colours) == expected).all()
