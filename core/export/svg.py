"""A sheet as SVG: the sheet's own millimetres as user units, text as text."""

import re
from functools import singledispatch
from xml.etree import ElementTree

from core.drawing import Circle, Item, Path, Pen, Rings, Sheet, Text
from core.drawing.lettering import CAP_HEIGHT, text_width_mm

NAMESPACE = "http://www.w3.org/2000/svg"
_UNWRITABLE = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What XML 1.0 (section 2.2, Char) cannot hold, not even escaped. A room's name may."""
_IN_ITS_PLACE = "\ufffd"


def sheet_svg(sheet: Sheet) -> bytes:
    """The sheet as a UTF-8 SVG document whose printed size is the sheet's."""
    paper = sheet.paper
    root = ElementTree.Element(
        "svg",
        {
            "xmlns": NAMESPACE,
            "width": f"{paper.width_mm:g}mm",
            "height": f"{paper.height_mm:g}mm",
            "viewBox": f"0 0 {paper.width_mm:g} {paper.height_mm:g}",
            "font-family": "'Noto Sans', sans-serif",
            "style": "font-kerning: none",
            "fill": "none",
            "stroke-linejoin": "miter",
        },
    )
    ElementTree.SubElement(root, "title").text = _writable(sheet.title)
    ElementTree.SubElement(root, "rect", {"width": "100%", "height": "100%", "fill": "#ffffff"})
    for item in sheet.items:
        root.append(_element(item))
    ElementTree.indent(root, " ")
    return bytes(ElementTree.tostring(root, encoding="utf-8", xml_declaration=True)) + b"\n"


@singledispatch
def _element(item: Item) -> ElementTree.Element:
    raise TypeError(f"a sheet cannot hold {type(item).__name__}")


@_element.register
def _path(item: Path) -> ElementTree.Element:
    points = " ".join(f"{_number(x)},{_number(y)}" for x, y in item.points)
    return ElementTree.Element("polygon" if item.closed else "polyline", {"points": points, **_ink(item.pen, item.fill)})


@_element.register
def _rings(item: Rings) -> ElementTree.Element:
    left, top = item.at
    lines = (" L".join(f"{_number(left + x)},{_number(top + y)}" for x, y in ring) for ring in item.rings)
    drawn = " ".join(f"M{line} Z" for line in lines)
    return ElementTree.Element("path", {"d": drawn, "fill-rule": "evenodd", **_ink(item.pen, item.fill)})


@_element.register
def _circle(item: Circle) -> ElementTree.Element:
    (x, y), r = item.centre, item.radius_mm
    return ElementTree.Element("circle", {"cx": _number(x), "cy": _number(y), "r": _number(r), **_ink(item.pen, item.fill)})


@_element.register
def _text(item: Text) -> ElementTree.Element:
    x, y = _number(item.at[0]), _number(item.at[1])
    attributes = {
        "x": x,
        "y": y,
        "font-size": _number(item.height_mm / CAP_HEIGHT),
        "fill": _colour(item.grey),
        "text-anchor": item.anchor,
        "textLength": _number(text_width_mm(item.text, item.height_mm)),
        "lengthAdjust": "spacingAndGlyphs",
    }
    if item.turn_degrees:
        attributes["transform"] = f"rotate({-item.turn_degrees} {x} {y})"
    element = ElementTree.Element("text", attributes)
    element.text = _writable(item.text)
    return element


def _writable(text: str) -> str:
    return _UNWRITABLE.sub(_IN_ITS_PLACE, text)


def _ink(pen: Pen | None, fill: float | None) -> dict[str, str]:
    ink: dict[str, str] = {}
    if fill is not None:
        ink["fill"] = _colour(fill)
    if pen is not None:
        ink |= {"stroke": _colour(pen.grey), "stroke-width": f"{pen.width_mm:g}"}
        if pen.dashes_mm:
            ink["stroke-dasharray"] = " ".join(f"{dash:g}" for dash in pen.dashes_mm)
    return ink


def _colour(grey: float) -> str:
    level = round(255 * grey)
    return f"#{level:02x}{level:02x}{level:02x}"


def _number(value: float) -> str:
    return f"{value:.4f}".rstrip("0").rstrip(".")
