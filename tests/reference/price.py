"""The minutes of one piece, exact, and which design it is: docs/set-out.md, "Minutes of a piece", read a second time."""

from dataclasses import dataclass
from fractions import Fraction

from core.kit import Kit, Rates
from core.setout.result import PanelKind
from tests.reference.strip import Piece, RowCells

LEAST_RUN = 4
LEAST_COURSES = 3

Runs = tuple[tuple[int, int], ...]
DesignKey = tuple[object, ...]


@dataclass(frozen=True)
class Terms:
    """Crew minutes, exact."""

    build: Fraction
    handling: Fraction
    sliver: Fraction
    weak: Fraction

    @property
    def total(self) -> Fraction:
        return self.build + self.handling + self.sliver + self.weak


def exact(number: float) -> Fraction:
    """The decimal a person typed, not its nearest binary number."""
    return Fraction(str(number))


def area(cells: RowCells, piece: Piece) -> int:
    """Pitch-plates on the frame side."""
    plates = [layer.top - layer.bottom for layer in cells.layers]
    return sum(sum(plates[low:high]) * (right - left) for low, high, left, right in piece.runs)


def brick_courses(cells: RowCells, piece: Piece) -> list[int]:
    """The brick layers from the piece's lowest to its highest layer."""
    return [i for i in range(piece.lowest, piece.highest) if cells.layers[i].kind == "brick"]


def is_weak(cells: RowCells, piece: Piece) -> bool:
    """True with a horizontal run under 4 pitches or fewer than 3 brick courses."""
    return min(run[3] - run[2] for run in piece.runs) < LEAST_RUN or len(brick_courses(cells, piece)) < LEAST_COURSES


def is_sliver(kit: Kit, piece: Piece) -> bool:
    """True for a flat piece under half the full width."""
    return not piece.wraps and 2 * (piece.right - piece.left) < kit.full_width


def terms(cells: RowCells, piece: Piece, rates: Rates) -> Terms:
    """What the piece costs, without set-up and blocking."""
    kit = cells.kit
    factor = {
        (False, True): rates.plain_factor,
        (False, False): rates.shaped_factor,
        (True, True): rates.corner_factor,
        (True, False): rates.shaped_corner_factor,
    }[piece.wraps, piece.is_rectangle]
    full_area = kit.full_width * kit.row_plates(kit.full_courses)
    return Terms(
        build=exact(rates.build_full_panel) * exact(factor) * Fraction(area(cells, piece), full_area),
        handling=exact(rates.handling),
        sliver=exact(rates.sliver) if is_sliver(kit, piece) else Fraction(0),
        weak=exact(rates.weak) if is_weak(cells, piece) else Fraction(0),
    )


def kit_courses(cells: RowCells, piece: Piece) -> int | None:
    """Courses of the full or half-height row that the piece's layers make up, wherever it hangs; None where they do not.

    Choice where the page is silent: a rectangle over an opening that is built exactly like a half-height panel is one.
    """
    courses = len(brick_courses(cells, piece))
    is_topped = courses > 0 and piece.highest == len(cells.layers)
    return courses if is_topped and courses in (cells.kit.full_courses, cells.kit.half_courses) else None


def kind(cells: RowCells, piece: Piece) -> PanelKind:
    """The word for the piece."""
    kit, width, courses = cells.kit, piece.right - piece.left, kit_courses(cells, piece)
    if piece.wraps:
        return "corner" if piece.is_rectangle else "shaped-corner"
    if not piece.is_rectangle:
        return "shaped"
    if width not in kit.widths_pitches or courses is None:
        return "closer"
    if courses == kit.full_courses:
        return "full" if width == kit.full_width else "half-width"
    return "half-height" if width == kit.full_width else "quarter"


def in_kit(cells: RowCells, piece: Piece) -> bool:
    """True where the kit's own sheets cover the piece."""
    if piece.corner is not None and piece.wraps:
        legs = {piece.corner - piece.left, piece.right - piece.corner}
        return piece.is_rectangle and legs <= set(cells.kit.legs_pitches) and kit_courses(cells, piece) is not None
    return kind(cells, piece) not in ("closer", "shaped")


def design_key(cells: RowCells, piece: Piece) -> DesignKey:
    """Equal for pieces of one design: layers and outline up to translation, a flat piece also mirrored.

    Choice where the page is silent: an inside and an outside corner piece of equal legs are two designs, since the room-side
    faces of their bricks differ.
    """
    kinds = tuple(cells.layers[i].kind for i in range(piece.lowest, piece.highest))
    rows = tuple(tuple(piece.runs_of(i)) for i in range(piece.lowest, piece.highest))
    drawn = _shifted(rows, piece.left)
    if piece.corner is not None and piece.wraps:
        return ("corner", cells.strip.corners[cells.strip.line(piece.corner)], piece.corner - piece.left, kinds, drawn)
    turned = tuple(tuple(sorted((piece.right - right, piece.right - left) for left, right in row)) for row in rows)
    return ("flat", kinds, min(drawn, turned))


def _shifted(rows: tuple[Runs, ...], left: int) -> tuple[Runs, ...]:
    return tuple(tuple((a - left, b - left) for a, b in row) for row in rows)
