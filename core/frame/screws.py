"""Which screw holds a panel: through the hole, under the head, into the timber, short of the cables; with every figure shown."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import pi, radians, tan

from core.frame.figure import Figure
from core.timberwork import INCH_MM, Screw, Timberwork
from core.units import metric_size

NEWTON_PER_LB = 4.4482216152605
DIAMETERS_IN = 6
"""Least penetration of a wood screw, tip included, in diameters."""

WITHDRAWAL_SOURCE = "NDS wood-screw withdrawal, side grain, seasoned timber: W = 2850 G² D lb per inch of thread"
PENETRATION_SOURCE = "American Wood Council FAQ on penetration: at least 6 D, tip included"
CABLE_SOURCE = "NEC 300.4(A)(1): bored holes for cable keep 1 1/4 in from the timber's edge"
YIELD_SOURCE = "extrusion ABS data sheets, 29.6 to 44.1 MPa at yield; low end, divided by the safety set in the room file"
LATERAL_SOURCE = "interior walls are designed for 5 psf sideways (AWCI); spread over the panel's screws"
BEARING_SOURCE = "dowel bearing strength 16600 G^1.84 psi under 1/4 in, divided by 2.2; from memory (NDS)"
GEOMETRY = "arithmetic on the sizes in the room file"


def shank_in(number: int) -> float:
    """Diameter of a numbered wood screw's shank in inches: 0.060 + 0.013 n."""
    return 0.060 + 0.013 * number


def withdrawal_lb_per_in(gravity: float, shank_inches: float) -> float:
    """Allowable withdrawal of a wood screw from side grain, in pounds per inch of thread: 2850 G² D."""
    return 2850 * gravity**2 * shank_inches


def ultimate_withdrawal_lb_per_in(gravity: float, shank_inches: float) -> float:
    """Withdrawal at failure: 15 700 G² D, the Wood Handbook's figure. Never a load to plan with."""
    return 15_700 * gravity**2 * shank_inches


@dataclass(frozen=True, slots=True)
class Duty:
    """What one screw is asked for: pulling out, and shear, in newtons, and the least and greatest packing on the wall."""

    pull: Figure
    shear: Figure
    least_packing_mm: float
    most_packing_mm: float
    thickness_mm: float


@dataclass(frozen=True, slots=True)
class ScrewVerdict:
    """One screw of the catalogue: the length that does, or why none does; figures in the order they were found."""

    screw: Screw
    length_mm: float | None
    failures: tuple[str, ...]
    warnings: tuple[str, ...]
    figures: tuple[Figure, ...]
    governing: str
    """The part that gives first, and by how much it is stronger than what is asked."""

    @property
    def fits(self) -> bool:
        return self.length_mm is not None and not self.failures


def judge(screw: Screw, duty: Duty, timberwork: Timberwork) -> ScrewVerdict:
    """Try one screw in every respect; every reason against it is kept, not the first only."""
    failures = list(_misfits(screw, timberwork))
    grip = _grip(screw, duty, timberwork)
    least, most = _length_limits(screw, duty, timberwork, grip.value)
    lengths = [length for length in screw.lengths_mm if least.value - 1e-6 <= length <= most.value + 1e-6]
    if not lengths:
        failures.append(f"no length from {metric_size(least.value, 1)} to {metric_size(most.value, 1)} is made: {_made(screw)}")
    length = lengths[0] if lengths else None
    strengths = _strengths(screw, duty, timberwork, length, grip.value)
    weakest = min(strengths, key=lambda strength: strength.value / max(_asked(strength, duty), 1e-9))
    ratio = weakest.value / max(_asked(weakest, duty), 1e-9)
    if ratio < 1 and not failures:
        failures.append(f"{weakest.name} bears {weakest.value:.0f} N, less than the {_asked(weakest, duty):.0f} N asked")
    proud = _seat_height(screw, timberwork) - timberwork.bore.counterbore_depth_mm
    return ScrewVerdict(
        screw,
        length,
        tuple(failures),
        (f"its head stands {metric_size(proud, 1)} proud of the panel, so that no plug covers it",) if proud > 0.05 else (),
        (_lip_figure(_lip_mm(screw, timberwork)), grip, least, most, duty.pull, duty.shear, *strengths),
        f"{weakest.name}: {weakest.value:.0f} N, {ratio:.1f} times what is asked",
    )


def _misfits(screw: Screw, timberwork: Timberwork) -> Iterator[str]:
    """What keeps a screw out of the hole, or the hole from holding its head."""
    bore, lip = timberwork.bore, _lip_mm(screw, timberwork)
    if screw.thread != "wood":
        yield "a machine thread holds in no timber"
    if screw.shank_mm > bore.hole_mm:
        yield f"its shank, {metric_size(screw.shank_mm, 2)}, does not pass the {metric_size(bore.hole_mm)} hole"
    if screw.head_most_mm > bore.counterbore_mm:
        most, counterbore = metric_size(screw.head_most_mm, 2), metric_size(bore.counterbore_mm)
        yield f"its head, up to {most}, does not enter the {counterbore} counterbore"
    if lip <= 0:
        yield f"its head, down to {metric_size(screw.head_least_mm, 2)}, pulls through the {metric_size(bore.hole_mm)} hole"
    elif lip < bore.least_lip_mm:
        yield f"its head may bear on a ring only {metric_size(lip, 2)} wide; {metric_size(bore.least_lip_mm)} are needed"


def _lip_mm(screw: Screw, timberwork: Timberwork) -> float:
    return (screw.head_least_mm - timberwork.bore.hole_mm) / 2


def _made(screw: Screw) -> str:
    return f"{metric_size(screw.lengths_mm[0])} to {metric_size(screw.lengths_mm[-1])}"


def _asked(strength: Figure, duty: Duty) -> float:
    return duty.shear.value if "shear" in strength.name else duty.pull.value


def _seat_height(screw: Screw, timberwork: Timberwork) -> float:
    """From the bottom of the counterbore to the top of the head: a cone sinks until it meets the hole's edge."""
    if screw.head == "flat":
        return screw.head_height_mm
    half_angle = radians(41 if screw.name.startswith("#") else 45)
    return max(0.0, (screw.head_most_mm - timberwork.bore.hole_mm) / 2 / tan(half_angle))


def _grip(screw: Screw, duty: Duty, timberwork: Timberwork) -> Figure:
    """What of the screw's nominal length stays in the panel; a countersunk screw is measured over its head."""
    over = _seat_height(screw, timberwork) if screw.head == "countersunk" else 0.0
    depth = timberwork.bore.counterbore_depth_mm
    value = duty.thickness_mm - depth + over
    head = f" + {over:.2f} of head above the seat" if over else ""
    return Figure("grip in the panel", value, "mm", f"{duty.thickness_mm:g} - {depth:g}{head}", GEOMETRY)


def _length_limits(screw: Screw, duty: Duty, timberwork: Timberwork, grip: float) -> tuple[Figure, Figure]:
    into = DIAMETERS_IN * screw.shank_mm
    least = Figure(
        "least length",
        grip + duty.most_packing_mm + into,
        "mm",
        f"{grip:.2f} grip + {duty.most_packing_mm:g} packing + {DIAMETERS_IN} × {screw.shank_mm:.2f}",
        PENETRATION_SOURCE,
    )
    most = Figure(
        "greatest length",
        grip + duty.least_packing_mm + timberwork.cable_clear_mm,
        "mm",
        f"{grip:.2f} grip + {duty.least_packing_mm:g} packing + {timberwork.cable_clear_mm:g}",
        CABLE_SOURCE,
    )
    return least, most


def _lip_figure(lip: float) -> Figure:
    return Figure("ring of plastic under the head", lip, "mm", "(least head - hole) / 2", GEOMETRY)


def _strengths(screw: Screw, duty: Duty, timberwork: Timberwork, length: float | None, grip: float) -> list[Figure]:
    """What each part bears, in newtons per screw; with no fitting length the least penetration stands in for it."""
    bore, gravity = timberwork.bore, timberwork.specific_gravity
    into = DIAMETERS_IN * screw.shank_mm if length is None else length - grip - duty.most_packing_mm
    per_inch = withdrawal_lb_per_in(gravity, screw.shank_mm / INCH_MM)
    area = max(0.0, pi / 4 * (screw.head_least_mm**2 - bore.hole_mm**2))
    stress = bore.yield_mpa / bore.safety
    bearing = 16_600 * gravity**1.84 * 0.006894757 / 2.2
    return [
        Figure(
            "withdrawal from the timber",
            per_inch * NEWTON_PER_LB * into / INCH_MM if screw.thread == "wood" else 0.0,
            "N",
            f"2850 × {gravity:g}² × {screw.shank_mm / INCH_MM:.3f} in = {per_inch:.0f} lb/in, over {metric_size(into, 1)}",
            WITHDRAWAL_SOURCE,
        ),
        Figure(
            "plastic ring under the head",
            area * stress,
            "N",
            f"π/4 × ({screw.head_least_mm:.2f}² - {bore.hole_mm:g}²) × {bore.yield_mpa:g} / {bore.safety:g}",
            YIELD_SOURCE,
        ),
        Figure(
            "shear: plastic around the shank",
            screw.shank_mm * grip * stress,
            "N",
            f"{screw.shank_mm:.2f} × {grip:.1f} × {bore.yield_mpa:g} / {bore.safety:g}",
            YIELD_SOURCE,
        ),
        Figure(
            "shear: timber around the shank",
            screw.shank_mm * into * bearing,
            "N",
            f"{screw.shank_mm:.2f} × {into:.1f} × {bearing:.2f} MPa",
            BEARING_SOURCE,
        ),
    ]
