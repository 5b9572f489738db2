"""Which part of a wall a sheet shows, and where on the paper: the only place where a wall turns into a sheet."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from core.drawing import Box, Paper
from core.drawing.items import Point
from core.drawing.scale import Scale
from core.language import tr
from core.room import wall_letter
from core.setout.metric import outer_mm, x_mm, z_mm
from core.setout.result import Face, Panel, Row, SetOut
from core.sheets.joints import Pattern, patterns


@dataclass(frozen=True, slots=True)
class Part:
    """A part of one wall's elevation: from ``from_mm`` to ``to_mm`` along the wall, and some of the rows.

    Panels are never cut: the part shows every panel that reaches into it, and ``shown`` is what all of them need.
    """

    wall: int
    from_mm: float
    to_mm: float
    rows: tuple[Row, ...]
    shown: Box
    """In wall millimetres, z upwards: ``top`` is the lower and ``bottom`` the upper height."""
    number: int = 1
    count: int = 1
    columns: int = 1
    is_left_end: bool = True
    is_right_end: bool = True
    is_bottom: bool = True
    is_top: bool = True
    note: str = ""
    """What is said of the wall besides its lengths."""

    @property
    def code(self) -> str:
        letter = wall_letter(self.wall)
        return f"elevation-{letter}" if self.count == 1 else f"elevation-{letter}-{self.number}"

    @property
    def title(self) -> str:
        letter = wall_letter(self.wall)
        if self.count == 1:
            return tr("Elevation of wall {wall}", wall=letter)
        return tr("Elevation of wall {wall}, part {number} of {count}", wall=letter, number=self.number, count=self.count)

    @property
    def row_numbers(self) -> frozenset[int]:
        return frozenset(row.index for row in self.rows)


@dataclass(frozen=True, slots=True)
class View:
    """A part of a wall at a scale, its shown area lying in ``field`` on the sheet; ``patterns`` are dimensioned below it."""

    part: Part
    paper: Paper
    scale: Scale
    field: Box
    patterns: tuple[Pattern, ...] = ()

    def x(self, along_mm: float) -> float:
        return self.field.left + (along_mm - self.part.shown.left) / self.scale.factor

    def y(self, height_mm: float) -> float:
        return self.field.bottom - (height_mm - self.part.shown.top) / self.scale.factor

    def point(self, at_mm: Point) -> Point:
        return self.x(at_mm[0]), self.y(at_mm[1])

    def clipped(self, left: float, low: float, right: float, high: float) -> Box | None:
        """A rectangle in wall millimetres on the sheet, cut to what is shown; None where nothing is left."""
        shown = self.part.shown
        left, right = max(left, shown.left), min(right, shown.right)
        low, high = max(low, shown.top), min(high, shown.bottom)
        return Box(self.x(left), self.y(high), self.x(right), self.y(low)) if left < right and low < high else None


def faces_on(setout: SetOut, wall: int) -> list[tuple[Panel, Face]]:
    """Every panel that shows on a wall, with its face there."""
    return [(panel, face) for panel in setout.panels for face in panel.faces if face.wall == wall]


def faces_in(setout: SetOut, part: Part) -> list[tuple[Panel, Face]]:
    """The panels a part shows: all that reach between its two ends in its rows."""
    rows = part.row_numbers
    return [
        (panel, face)
        for panel, face in faces_on(setout, part.wall)
        if panel.row in rows
        and x_mm(setout, part.wall, face.right) > part.from_mm + 1e-6
        and x_mm(setout, part.wall, face.left) < part.to_mm - 1e-6
    ]


def joints_in(setout: SetOut, part: Part) -> tuple[Pattern, ...]:
    """The patterns of joints in a part of a wall."""
    return patterns(((panel.row, face) for panel, face in faces_in(setout, part)), setout.room.kit.pitch_mm)


def whole_wall(setout: SetOut, wall: int) -> Part:
    """One part that shows all of a wall, frame and shell, from the floor to the clad height."""
    left, right = outer_mm(setout, wall)
    frame = setout.walls[wall].length_mm
    shown = Box(min(0.0, left), 0.0, max(frame, right), _head_mm(setout))
    return Part(wall, shown.left, shown.right, setout.rows, shown)


def split(setout: SetOut, whole: Part, width_mm: float, height_mm: float) -> list[Part]:
    """A wall in parts of at most the given real size, bottom rows first, left to right."""
    reach = setout.room.kit.full_width * setout.room.kit.pitch_mm
    total = whole.to_mm - whole.from_mm
    columns = 1 if total <= width_mm else -(-total // max(width_mm - 2 * reach, reach))
    edges = [whole.from_mm + total * i / columns for i in range(int(columns) + 1)]
    bands = _bands(setout, height_mm)
    count = int(columns) * len(bands)
    parts: list[Part] = []
    for band, rows in enumerate(bands):
        for column in range(int(columns)):
            ends = {
                "is_left_end": column == 0,
                "is_right_end": column == columns - 1,
                "is_bottom": band == 0,
                "is_top": band == len(bands) - 1,
            }
            begin, end = edges[column], edges[column + 1]
            blank = Part(whole.wall, begin, end, rows, whole.shown, len(parts) + 1, count, int(columns), note=whole.note, **ends)
            parts.append(_fitted(setout, blank))
    return parts


def _fitted(setout: SetOut, part: Part) -> Part:
    kit = setout.room.kit
    boxes = [face for _, face in faces_in(setout, part)]
    left = min([part.from_mm, *(x_mm(setout, part.wall, face.left) for face in boxes)])
    right = max([part.to_mm, *(x_mm(setout, part.wall, face.right) for face in boxes)])
    low = 0.0 if part.is_bottom or not part.rows else z_mm(kit, part.rows[0].z_plates)
    last = part.rows[-1] if part.rows else None
    high = _head_mm(setout) if part.is_top or last is None else z_mm(kit, last.z_plates + last.height_plates)
    return replace(part, shown=Box(left, low, right, high))


def _bands(setout: SetOut, height_mm: float) -> list[tuple[Row, ...]]:
    """The rows in groups no taller than a sheet; the strip above the last row counts with it."""
    kit = setout.room.kit
    bands: list[list[Row]] = [[]]
    for row in setout.rows:
        top = z_mm(kit, row.z_plates + row.height_plates)
        reach = _head_mm(setout) if row is setout.rows[-1] else top
        start = z_mm(kit, bands[-1][0].z_plates) if bands[-1] else 0.0
        if bands[-1] and reach - start > height_mm:
            bands.append([])
        bands[-1].append(row)
    return [tuple(band) for band in bands]


def _head_mm(setout: SetOut) -> float:
    rows: Sequence[Row] = setout.rows
    top = z_mm(setout.room.kit, rows[-1].z_plates + rows[-1].height_plates) if rows else 0.0
    return max(setout.room.clad_height_mm, top)
