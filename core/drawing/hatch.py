"""Hatching: an area filled with thin parallel lines, which any printer and any copier keeps apart from plain paper."""

from collections.abc import Sequence

from shapely import LineString, MultiLineString, Polygon, intersection

from core.drawing.items import Path, Pen, Point


def hatch(outline: Sequence[Point], holes: Sequence[Sequence[Point]], spacing_mm: float, pen: Pen) -> list[Path]:
    """Lines at 45 degrees across a polygon on the sheet, clear of its holes; in line from one polygon to the next."""
    area = Polygon(outline, [list(hole) for hole in holes])
    left, top, right, bottom = area.bounds
    step = spacing_mm * 2**0.5
    sums = [k * step for k in range(int((left + top) // step), int((right + bottom) // step) + 2)]
    strokes = MultiLineString([LineString([(total - bottom, bottom), (total - top, top)]) for total in sums])
    found = intersection(strokes, area)
    parts = getattr(found, "geoms", [found])
    lines = [part for part in parts if isinstance(part, LineString) and part.length > 0.05]
    return [Path(tuple((x, y) for x, y in line.coords), pen) for line in lines]
