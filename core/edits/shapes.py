"""Ready shapes: common outlines that need only their sizes."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from core.edits.revise import tidy_mm
from core.edits.sketch import clockwise
from core.errors import RoomError
from core.language import tr
from core.room import LONGEST_WALL_MM, Point

LEAST_SIZE_MM = 50.0
Sizes = Mapping[str, float]
Ends = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Size:
    """One size of a shape: its name, what it is until someone types another, and between which places it is measured."""

    name: str
    usual_mm: float
    ends: Callable[[Sizes], Ends]


@dataclass(frozen=True, slots=True)
class Shape:
    """An outline in terms of its sizes, the lower left of it at the origin, clockwise."""

    name: str
    sizes: tuple[Size, ...]
    outline: Callable[[Sizes], Sequence[Point]]
    fits: Callable[[Sizes], str]
    """What is wrong with sizes that make another shape; nothing where they fit."""

    def usual(self) -> dict[str, float]:
        """The sizes before anyone has typed any."""
        return {size.name: size.usual_mm for size in self.sizes}


def shape_corners(shape: Shape, sizes_mm: Sizes) -> tuple[Point, ...]:
    """The corners of a shape, clockwise. Raises RoomError that names the size where one is absurd or they do not fit."""
    for size in shape.sizes:
        if not LEAST_SIZE_MM <= sizes_mm[size.name] <= LONGEST_WALL_MM:
            raise RoomError(
                tr(
                    "{size}: {length:g} mm is no size for a wall; it must be {least:g} mm to {most:g} mm",
                    size=tr(size.name),
                    length=sizes_mm[size.name],
                    least=LEAST_SIZE_MM,
                    most=LONGEST_WALL_MM,
                )
            )
    if fault := shape.fits(sizes_mm):
        raise RoomError(fault)
    return clockwise([(tidy_mm(x), tidy_mm(y)) for x, y in shape.outline(sizes_mm)])


def _below(sizes: Sizes, *names: str, whole: str) -> str:
    """Says that parts leave nothing of the whole; nothing where they do."""
    total = sum(sizes[name] for name in names)
    if total < sizes[whole]:
        return ""
    return tr(
        "{sizes}: {total:g} mm must be less than {whole}, {most:g} mm",
        sizes=" + ".join(map(tr, names)),
        total=total,
        whole=tr(whole),
        most=sizes[whole],
    )


def _across(
    y: Callable[[Sizes], float], start: Callable[[Sizes], float], end: Callable[[Sizes], float]
) -> Callable[[Sizes], Ends]:
    return lambda s: ((start(s), y(s)), (end(s), y(s)))


def _up(x: Callable[[Sizes], float], start: Callable[[Sizes], float], end: Callable[[Sizes], float]) -> Callable[[Sizes], Ends]:
    return lambda s: ((x(s), start(s)), (x(s), end(s)))


def _nought(_sizes: Sizes) -> float:
    return 0.0


def _of(name: str) -> Callable[[Sizes], float]:
    return lambda s: s[name]


def _width(usual_mm: float) -> Size:
    return Size("width", usual_mm, _across(_nought, _nought, _of("width")))


def _depth(usual_mm: float) -> Size:
    return Size("depth", usual_mm, _up(_nought, _nought, _of("depth")))


def _rectangle(s: Sizes) -> Sequence[Point]:
    w, d = s["width"], s["depth"]
    return (0, 0), (0, d), (w, d), (w, 0)


def _l_shape(s: Sizes) -> Sequence[Point]:
    w, d, cw, cd = s["width"], s["depth"], s["corner width"], s["corner depth"]
    return (0, 0), (0, d), (w - cw, d), (w - cw, d - cd), (w, d - cd), (w, 0)


def _t_shape(s: Sizes) -> Sequence[Point]:
    w, d, sw, bd = s["width"], s["depth"], s["stem width"], s["bar depth"]
    left, right = (w - sw) / 2, (w + sw) / 2
    return (left, 0), (left, d - bd), (0, d - bd), (0, d), (w, d), (w, d - bd), (right, d - bd), (right, 0)


def _u_shape(s: Sizes) -> Sequence[Point]:
    w, d, left, right, cd = s["width"], s["depth"], s["left arm"], s["right arm"], s["court depth"]
    return (0, 0), (0, d), (left, d), (left, d - cd), (w - right, d - cd), (w - right, d), (w, d), (w, 0)


def _alcove(s: Sizes) -> Sequence[Point]:
    w, d, at, aw, ad = s["width"], s["depth"], s["alcove from left"], s["alcove width"], s["alcove depth"]
    return (0, 0), (0, d), (at, d), (at, d + ad), (at + aw, d + ad), (at + aw, d), (w, d), (w, 0)


def _bay(s: Sizes) -> Sequence[Point]:
    w, d, bw, bd = s["width"], s["depth"], s["bay width"], s["bay depth"]
    left, right = (w - bw) / 2, (w + bw) / 2
    return (0, 0), (0, d), (left, d), (left + bd, d + bd), (right - bd, d + bd), (right, d), (w, d), (w, 0)


def _both(*faults: str) -> str:
    return next((fault for fault in faults if fault), "")


RECTANGLE = Shape("Rectangle", (_width(3048), _depth(3048)), _rectangle, lambda _s: "")
L_SHAPE = Shape(
    "L",
    (
        _width(4800),
        _depth(4200),
        Size("corner width", 1800, _across(_of("depth"), lambda s: s["width"] - s["corner width"], _of("width"))),
        Size("corner depth", 1500, _up(_of("width"), lambda s: s["depth"] - s["corner depth"], _of("depth"))),
    ),
    _l_shape,
    lambda s: _both(_below(s, "corner width", whole="width"), _below(s, "corner depth", whole="depth")),
)
T_SHAPE = Shape(
    "T",
    (
        Size("width", 5400, _across(_of("depth"), _nought, _of("width"))),
        Size("depth", 4800, _up(_of("width"), _nought, _of("depth"))),
        Size(
            "stem width",
            2400,
            _across(_nought, lambda s: (s["width"] - s["stem width"]) / 2, lambda s: (s["width"] + s["stem width"]) / 2),
        ),
        Size("bar depth", 2400, _up(_nought, lambda s: s["depth"] - s["bar depth"], _of("depth"))),
    ),
    _t_shape,
    lambda s: _both(_below(s, "stem width", whole="width"), _below(s, "bar depth", whole="depth")),
)
U_SHAPE = Shape(
    "U",
    (
        _width(6000),
        _depth(4800),
        Size("left arm", 2100, _across(_of("depth"), _nought, _of("left arm"))),
        Size("right arm", 2100, _across(_of("depth"), lambda s: s["width"] - s["right arm"], _of("width"))),
        Size("court depth", 2400, _up(_of("left arm"), lambda s: s["depth"] - s["court depth"], _of("depth"))),
    ),
    _u_shape,
    lambda s: _both(_below(s, "left arm", "right arm", whole="width"), _below(s, "court depth", whole="depth")),
)
ALCOVE = Shape(
    "Alcove",
    (
        _width(4200),
        _depth(3600),
        Size(
            "alcove width",
            1500,
            _across(
                lambda s: s["depth"] + s["alcove depth"],
                _of("alcove from left"),
                lambda s: s["alcove from left"] + s["alcove width"],
            ),
        ),
        Size(
            "alcove depth",
            600,
            _up(lambda s: s["alcove from left"] + s["alcove width"], _of("depth"), lambda s: s["depth"] + s["alcove depth"]),
        ),
        Size("alcove from left", 1350, _across(_of("depth"), _nought, _of("alcove from left"))),
    ),
    _alcove,
    lambda s: _below(s, "alcove from left", "alcove width", whole="width"),
)
BAY = Shape(
    "Bay",
    (
        _width(4200),
        _depth(3600),
        Size(
            "bay width",
            2700,
            _across(_of("depth"), lambda s: (s["width"] - s["bay width"]) / 2, lambda s: (s["width"] + s["bay width"]) / 2),
        ),
        Size(
            "bay depth",
            600,
            _up(lambda s: (s["width"] + s["bay width"]) / 2, _of("depth"), lambda s: s["depth"] + s["bay depth"]),
        ),
    ),
    _bay,
    lambda s: _both(
        _below(s, "bay width", whole="width"),
        ""
        if 2 * s["bay depth"] < s["bay width"]
        else tr(
            "bay depth: {depth:g} mm must be less than half of bay width, as the bay's sides stand at 45°", depth=s["bay depth"]
        ),
    ),
)
SHAPES = (RECTANGLE, L_SHAPE, T_SHAPE, U_SHAPE, ALCOVE, BAY)
