"""Timber and hardware as a person chose them: sizes, stock lengths, screws, readings of the frame's face, allowances."""

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from core.language import tr
from core.settings import Settings

INCH_MM = 25.4
FOOT_MM = 304.8

Thickness = Annotated[float, Field(gt=0, le=400, allow_inf_nan=False)]
Small = Annotated[float, Field(ge=0, le=200, allow_inf_nan=False)]
StockLength = Annotated[float, Field(ge=200, le=20_000, allow_inf_nan=False)]
Place = Annotated[float, Field(ge=0, le=100_000, allow_inf_nan=False)]
Name = Annotated[str, Field(min_length=1, max_length=60)]
Source = Annotated[str, Field(min_length=1, max_length=200)]
Head = Literal["flat", "countersunk"]
"""How a head bears: on a flat underside, or on a cone that sinks into the hole's edge."""
Thread = Literal["wood", "machine"]


class TimberSize(Settings):
    """A sawn size: its name in the yard, what it really measures and weighs."""

    name: Name
    thickness_mm: Thickness
    depth_mm: Thickness
    kg_per_m: Annotated[float, Field(gt=0, le=200, allow_inf_nan=False)]


_LB_PER_FT = 0.45359237 / 0.3048

PS20_INCHES: dict[str, tuple[float, float, float]] = {
    "2x2": (1.5, 1.5, 0.55),
    "2x3": (1.5, 2.5, 0.94),
    "2x4": (1.5, 3.5, 1.28),
    "2x6": (1.5, 5.5, 2.00),
    "2x8": (1.5, 7.25, 2.64),
    "2x10": (1.5, 9.25, 3.37),
    "2x12": (1.5, 11.25, 4.10),
    "1x2": (0.75, 1.5, 0.27),
    "1x4": (0.75, 3.5, 0.64),
}
"""Nominal size: thickness and depth in inches, pounds per foot. American Softwood Lumber Standard PS 20."""

DEFAULT_SIZES: tuple[TimberSize, ...] = tuple(
    TimberSize(name=name, thickness_mm=t * INCH_MM, depth_mm=d * INCH_MM, kg_per_m=lb * _LB_PER_FT)
    for name, (t, d, lb) in PS20_INCHES.items()
)

METRIC_STOCK_MM = (2400.0, 3000.0, 3600.0, 4200.0, 4800.0)
"""Common practice, no published source."""
FOOT_STOCK_MM = tuple(feet * FOOT_MM for feet in (6, 8, 10, 12, 14, 16, 18, 20, 22, 24))
"""Stock lengths of a North American yard, whole even feet from 6 to 24."""


class Screw(Settings):
    """A screw as its table prints it. ``head_least_mm`` and ``head_most_mm`` are the smallest and largest head allowed."""

    name: Name
    thread: Thread
    head: Head
    shank_mm: Annotated[float, Field(gt=0, le=20, allow_inf_nan=False)]
    head_least_mm: Annotated[float, Field(gt=0, le=40, allow_inf_nan=False)]
    head_most_mm: Annotated[float, Field(gt=0, le=40, allow_inf_nan=False)]
    head_height_mm: Annotated[float, Field(gt=0, le=20, allow_inf_nan=False)]
    lengths_mm: tuple[Annotated[float, Field(gt=0, le=300, allow_inf_nan=False)], ...] = Field(min_length=1, max_length=60)
    source: Source

    @model_validator(mode="after")
    def _sizes_agree(self) -> Self:
        if self.head_least_mm > self.head_most_mm:
            raise ValueError(
                tr(
                    "head_least_mm {head_least:g} is larger than head_most_mm {head_most:g}",
                    head_least=self.head_least_mm,
                    head_most=self.head_most_mm,
                )
            )
        if self.shank_mm >= self.head_least_mm:
            raise ValueError(
                tr(
                    "shank_mm {shank:g} must be smaller than the head ({head_least:g})",
                    shank=self.shank_mm,
                    head_least=self.head_least_mm,
                )
            )
        if list(self.lengths_mm) != sorted(set(self.lengths_mm)):
            raise ValueError(tr("lengths_mm must rise, each length once"))
        return self


_B18 = "ASME B18.6.1-type flat-head table, largest sharp and least head; shank 0.060 + 0.013 n in; height and lengths from memory"
_INCH_LENGTHS = tuple(n * INCH_MM / 8 for n in (4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20, 24))
_MM_LENGTHS = (16.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0)


def _flat_head(number: int, most_in: float, least_in: float) -> Screw:
    shank_in = 0.060 + 0.013 * number
    return Screw(
        name=f"#{number} flat-head wood screw",
        thread="wood",
        head="countersunk",
        shank_mm=shank_in * INCH_MM,
        head_least_mm=least_in * INCH_MM,
        head_most_mm=most_in * INCH_MM,
        head_height_mm=(most_in - shank_in) / 2 * INCH_MM * 1.15,
        lengths_mm=_INCH_LENGTHS,
        source=_B18,
    )


def _machine(name: str, head: Head, shank: float, least: float, most: float, height: float, source: str) -> Screw:
    return Screw(
        name=name,
        thread="machine",
        head=head,
        shank_mm=shank,
        head_least_mm=least,
        head_most_mm=most,
        head_height_mm=height,
        lengths_mm=_MM_LENGTHS,
        source=source,
    )


DEFAULT_SCREWS: tuple[Screw, ...] = (
    _flat_head(2, 0.172, 0.147),
    _flat_head(4, 0.225, 0.195),
    _flat_head(5, 0.252, 0.220),
    _flat_head(6, 0.279, 0.244),
    _flat_head(8, 0.332, 0.292),
    _flat_head(10, 0.385, 0.340),
    Screw(
        name="3.0 mm pan-head chipboard screw",
        thread="wood",
        head="flat",
        shank_mm=3.0,
        head_least_mm=5.7,
        head_most_mm=6.0,
        head_height_mm=2.3,
        lengths_mm=_MM_LENGTHS,
        source="head about twice the diameter, from memory (DIN 7505); makers differ, so measure before buying",
    ),
    Screw(
        name="3.5 mm countersunk chipboard screw",
        thread="wood",
        head="countersunk",
        shank_mm=3.5,
        head_least_mm=6.7,
        head_most_mm=7.0,
        head_height_mm=2.2,
        lengths_mm=_MM_LENGTHS,
        source="head about twice the diameter, from memory (DIN 7505); makers differ, so measure before buying",
    ),
    _machine("M3 countersunk machine screw", "countersunk", 3.0, 5.2, 5.5, 1.65, "ISO 7046-2"),
    _machine("M3 pan-head machine screw", "flat", 3.0, 5.7, 6.0, 2.52, "DIN 7985"),
    _machine("M3 cheese-head machine screw", "flat", 3.0, 5.32, 5.5, 2.0, "ISO 1207"),
    _machine("M3.5 cheese-head machine screw", "flat", 3.5, 5.82, 6.0, 2.4, "ISO 1207, head height from memory"),
)


class Bore(Settings):
    """What a screw meets in a pin-hole brick. The counterbore's depth is an estimate: measure it."""

    hole_mm: Annotated[float, Field(gt=0, le=20, allow_inf_nan=False)] = 4.8
    counterbore_mm: Annotated[float, Field(gt=0, le=40, allow_inf_nan=False)] = 6.2
    counterbore_depth_mm: Small = 0.9
    least_lip_mm: Small = 0.3
    """Least ring of plastic under the head's edge, measured along the radius. Common practice, no published source."""
    yield_mpa: Annotated[float, Field(gt=0, le=1_000, allow_inf_nan=False)] = 29.6
    """Yield stress of the plastic: the low end of data sheets for extrusion ABS, 29.6 to 44.1 MPa."""
    safety: Annotated[float, Field(ge=1, le=50, allow_inf_nan=False)] = 4.0
    """By how much the plastic's yield is divided, for creep and age. Common practice, no published source."""

    @model_validator(mode="after")
    def _bore_is_wider(self) -> Self:
        if self.counterbore_mm <= self.hole_mm:
            raise ValueError(
                tr(
                    "counterbore_mm {counterbore:g} must be wider than hole_mm {hole:g}",
                    counterbore=self.counterbore_mm,
                    hole=self.hole_mm,
                )
            )
        return self


class Reading(Settings):
    """One reading of a frame's face: how far it lies behind a straight line held in front of the wall."""

    x_mm: Place
    z_mm: Place
    depth_mm: Annotated[float, Field(ge=-200, le=200, allow_inf_nan=False)]


class FaceReadings(Settings):
    """Bow and lean of one wall's frame, as read from one plumb plane."""

    wall: int = Field(ge=0, le=1_000)
    readings: tuple[Reading, ...] = Field(min_length=1, max_length=2_000)

    @model_validator(mode="after")
    def _places_differ(self) -> Self:
        seen: set[tuple[float, float]] = set()
        for number, reading in enumerate(self.readings):
            if (reading.x_mm, reading.z_mm) in seen:
                raise ValueError(
                    tr(
                        "readings.{number}: x {along:g}, z {up:g} was read twice; keep one",
                        number=number,
                        along=reading.x_mm,
                        up=reading.z_mm,
                    )
                )
            seen.add((reading.x_mm, reading.z_mm))
        return self


class CoverPlate(Settings):
    """The cover plate of outlets and switches: its size for one gang, and what each further gang adds."""

    width_mm: Thickness = 2.75 * INCH_MM
    height_mm: Thickness = 4.5 * INCH_MM
    further_gang_mm: Thickness = 1.8125 * INCH_MM


class Timberwork(Settings):
    """How the frame is to be built and what panels are screwed on with."""

    sizes: tuple[TimberSize, ...] = Field(default=DEFAULT_SIZES, min_length=1, max_length=100)
    frame_size: Name = "2x4"
    """The size every member of a frame to build is cut from."""
    header_plies: int = Field(default=2, ge=1, le=4)
    """Timbers side by side in a header. A qualified person judges headers; this is a default, not a design."""
    stock_mm: tuple[StockLength, ...] | None = Field(default=None, max_length=40)
    """Lengths the yard sells; None for common lengths in the room's units."""
    kerf_mm: Annotated[float, Field(ge=0, le=20, allow_inf_nan=False)] = 3.0
    """What a saw cut takes. From memory."""
    least_offcut_mm: Annotated[float, Field(ge=0, le=20_000, allow_inf_nan=False)] = 300.0
    """Offcuts from this length on are listed to be kept."""
    specific_gravity: Annotated[float, Field(ge=0.2, le=1.2, allow_inf_nan=False)] = 0.41
    """Of the frame's timber, oven-dry: spruce 0.41, Douglas fir 0.51, southern pine 0.59 in a printed handbook list."""
    screws: tuple[Screw, ...] = Field(default=DEFAULT_SCREWS, min_length=1, max_length=200)
    screw: Name | None = None
    """The screw a person decided on; None leaves the choice to the check."""
    bore: Bore = Bore()
    cable_clear_mm: Annotated[float, Field(gt=0, le=200, allow_inf_nan=False)] = 1.25 * INCH_MM
    """How deep a screw may go into timber before it can meet a cable: 1 1/4 in (NEC 300.4)."""
    lateral_kpa: Annotated[float, Field(ge=0, le=10, allow_inf_nan=False)] = 0.24
    """Sideways load on the lining: 5 psf, for which interior walls are designed."""
    faces: tuple[FaceReadings, ...] = Field(default=(), max_length=200)
    panel_tolerance_mm: Annotated[float, Field(ge=0, le=5, allow_inf_nan=False)] = 0.1
    """By how much a panel's width may differ. An estimate: measure ten panels in a row."""
    trim_lap_mm: Small = 5.0
    """How far trim reaches over the panels beside a reveal. Common practice, no published source."""
    opening_loss_mm: Small = 0.0
    """What the unit in an opening, and trim that laps into it, takes off the clear opening on each side."""
    plate: CoverPlate = CoverPlate()

    @model_validator(mode="after")
    def _named_once(self) -> Self:
        for field, named in (("sizes", self.sizes), ("screws", self.screws)):
            names = [one.name for one in named]
            for number, name in enumerate(names):
                if name in names[:number]:
                    raise ValueError(
                        tr(
                            "{field}.{number}.name {name!r} is used twice; give each its own name",
                            field=field,
                            number=number,
                            name=name,
                        )
                    )
        if self.frame_size not in {size.name for size in self.sizes}:
            raise ValueError(
                tr(
                    "frame_size {frame_size!r} is not among sizes; list it there, or choose one of them",
                    frame_size=self.frame_size,
                )
            )
        if self.screw is not None and self.screw not in {screw.name for screw in self.screws}:
            raise ValueError(tr("screw {screw!r} is not among screws; list it there, or choose one of them", screw=self.screw))
        if self.stock_mm is not None and (not self.stock_mm or len(set(self.stock_mm)) < len(self.stock_mm)):
            raise ValueError(tr("stock_mm must list at least one length, each once"))
        walls = [face.wall for face in self.faces]
        if len(set(walls)) < len(walls):
            raise ValueError(tr("faces lists a wall twice; put all of its readings in one entry"))
        return self

    @property
    def size(self) -> TimberSize:
        """The size the frame is cut from."""
        return next(size for size in self.sizes if size.name == self.frame_size)
