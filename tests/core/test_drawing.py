"""The drawing model: boxes, lettering, scales, hatching and the SVG backend."""

from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon

from core.drawing import Box, Circle, Path, Pen, Rings, Sheet, Text, item_box
from core.drawing.hatch import hatch
from core.drawing.items import moved
from core.drawing.lettering import shorten, text_width_mm, wrap
from core.drawing.scale import ISO_FACTORS, US_FEET_PER_INCH, US_INCHES_PER_FOOT, largest_scale
from core.drawing.sheet import A4
from core.export.svg import NAMESPACE, sheet_svg

TAG = f"{{{NAMESPACE}}}"


def test_pen_of_a_width_outside_the_series_is_refused() -> None:
    with pytest.raises(ValueError, match=r"0\.3 mm"):
        Pen(0.3)


def test_text_of_a_height_outside_the_series_is_refused() -> None:
    with pytest.raises(ValueError, match="3 mm"):
        Text((0, 0), "a", 3.0)


def test_turned_text_stands_on_its_anchor() -> None:
    upright = item_box(Text((50.0, 80.0), "A-1-01", 2.5, "start", 90))
    width = text_width_mm("A-1-01", 2.5)
    assert (upright.left, upright.bottom) == pytest.approx((47.5, 80.0))
    assert (upright.right, upright.top) == pytest.approx((50.0, 80.0 - width))


@given(st.sampled_from(["start", "middle", "end"]), st.sampled_from([0, 90]), st.floats(-50, 50), st.floats(-50, 50))
def test_moving_an_item_moves_its_box(anchor: str, turn: int, dx: float, dy: float) -> None:
    text = Text((10.0, 20.0), "gap 912 × 608", 3.5, anchor, turn)  # type: ignore[arg-type]
    before, after = item_box(text), item_box(moved(text, dx, dy))
    assert (after.left, after.top) == pytest.approx((before.left + dx, before.top + dy))
    assert (after.width, after.height) == pytest.approx((before.width, before.height))


@given(st.text(max_size=80), st.floats(5.0, 80.0))
def test_shortened_text_fits_or_is_only_an_ellipsis(text: str, width: float) -> None:
    short = shorten(text, width, 2.5)
    assert text_width_mm(short, 2.5) <= width or short == "…"


@given(st.text(alphabet="abc 123-", max_size=120), st.floats(10.0, 80.0))
def test_wrapping_keeps_every_letter_and_every_line_fits(text: str, width: float) -> None:
    lines = wrap(text, width, 2.5)
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert all(text_width_mm(line, 2.5) <= width for line in lines)


@given(st.floats(100, 2_000_000), st.floats(100, 12_000), st.booleans())
def test_no_larger_scale_of_the_series_would_fit(width: float, height: float, is_us: bool) -> None:
    scale = largest_scale(300.0, 200.0, (width, height), is_us)
    assert width / scale.factor <= 300.0
    assert height / scale.factor <= 200.0
    series = (*US_INCHES_PER_FOOT, *US_FEET_PER_INCH) if is_us else ISO_FACTORS
    assert all(factor >= scale.factor or width / factor > 300.0 or height / factor > 200.0 for factor in series)


def test_hatching_stays_inside_the_outline_and_out_of_its_hole() -> None:
    outline = [(0.0, 0.0), (30.0, 0.0), (30.0, 30.0), (0.0, 30.0)]
    hole = [(10.0, 10.0), (20.0, 10.0), (20.0, 20.0), (10.0, 20.0)]
    area = Polygon(outline, [hole]).buffer(1e-6)
    lines = hatch(outline, [hole], 2.0, Pen(0.13))
    assert len(lines) > 20
    assert all(area.contains(LineString(line.points)) for line in lines)


def test_many_rings_move_as_one() -> None:
    square = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
    rings = Rings((10.0, 20.0), (square, tuple((x + 5.0, y + 1.0) for x, y in square)))
    assert item_box(rings) == Box(10.0, 20.0, 17.0, 23.0)
    assert item_box(moved(rings, 3.0, -4.0)) == Box(13.0, 16.0, 20.0, 19.0)


def test_svg_cuts_rings_within_rings_out() -> None:
    outer, inner = (((1.0, 1.0), (9.0, 1.0), (9.0, 9.0), (1.0, 9.0)), ((4.0, 4.0), (6.0, 4.0), (6.0, 6.0), (4.0, 6.0)))
    root = ElementTree.fromstring(sheet_svg(Sheet("x", "x", A4, (Rings((10.0, 20.0), (outer, inner)),))))
    path = root.find(f"{TAG}path")
    assert path is not None
    assert path.get("d") == "M11,21 L19,21 L19,29 L11,29 Z M14,24 L16,24 L16,26 L14,26 Z"
    assert (path.get("fill-rule"), path.get("fill"), path.get("stroke")) == ("evenodd", "#000000", None)


def test_svg_is_in_millimetres_and_keeps_text_as_text() -> None:
    items = (
        Path(((10.0, 10.0), (110.0, 10.0)), Pen(0.5, (2.0, 1.0))),
        Path(((10.0, 20.0), (20.0, 20.0), (15.0, 30.0)), None, closed=True, fill=0.5),
        Circle((50.0, 50.0), 4.0),
        Text((60.0, 60.0), "B-3-07 & 10' 6 1/2\"", 2.5, "middle", 90),
    )
    root = ElementTree.fromstring(sheet_svg(Sheet("x", "A <title>", A4, items)))
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("210mm", "297mm", "0 0 210 297")
    assert root.findtext(f"{TAG}title") == "A <title>"
    line, text = root.find(f"{TAG}polyline"), root.find(f"{TAG}text")
    assert line is not None
    assert text is not None
    assert line.get("points") == "10,10 110,10"
    assert line.get("stroke-dasharray") == "2 1"
    assert text.text == "B-3-07 & 10' 6 1/2\""
    assert text.get("transform") == "rotate(-90 60 60)"
    assert float(text.get("textLength", "0")) == pytest.approx(text_width_mm(text.text, 2.5), abs=1e-3)
    assert root.find(f"{TAG}polygon").get("fill") == "#808080"  # type: ignore[union-attr]


def test_boxes_that_only_touch_do_not_overlap() -> None:
    assert not Box(0, 0, 10, 10).overlaps(Box(10, 0, 20, 10))
    assert Box(0, 0, 10, 10).overlaps(Box(9, 9, 20, 20))


@given(st.text(max_size=12))
def test_svg_can_be_read_whatever_a_room_is_called(name: str) -> None:
    """XML 1.0 has no way to write NUL, escape or U+FFFF; each becomes U+FFFD, all else stays (expat reads it back)."""
    sheet = Sheet("plan", f"{name}\0\x1b\uffff", A4, (Text((10.0, 20.0), f"{name}\0", 3.5),))
    root = ElementTree.fromstring(sheet_svg(sheet))
    title, text = root.findtext(f"{TAG}title"), root.findtext(f"{TAG}text")
    assert title is not None
    assert text is not None
    assert title.endswith("\ufffd\ufffd\ufffd")
    kept = [sign for sign in name if sign >= " " and sign not in "\ufffe\uffff"]
    assert all(sign in text for sign in kept)
