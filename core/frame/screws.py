"""Which screw holds a panel: through the hole, under the head, into the timber, short of the cables; with every figure shown."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import pi, radians, tan

from core.frame.figure import Figure
from core.language import marked, tr
from core.timberwork import INCH_MM, Screw, Timberwork
from core.units import metric_size

NEWTON_PER_LB = 4.4482216152605
DIAMETERS_IN = 6
"""Least penetration of a wood screw, tip included, in diameters."""

WITHDRAWAL_SOURCE = marked("NDS wood-screw withdrawal, side grain, seasoned timber: W = 2850 G² D lb per inch of thread")
PENETRATION_SOURCE = marked("American Wood Council FAQ on penetration: at least 6 D, tip included")
CABLE_SOURCE = marked("NEC 300.4(A)(1): bored holes for cable keep 1 1/4 in from the timber's edge")
YIELD_SOURCE = marked("extrusion ABS data sheets, 29.6 to 44.1 MPa at yield; low end, divided by the safety set in the room file")
LATERAL_SOURCE = marked("interior walls are designed for 5 psf sideways (AWCI); spread over the panel's screws")
BEARING_SOURCE = marked("dowel bearing strength 16600 G^1.84 psi under 1/4 in, divided by 2.2; from memory (NDS)")
GEOMETRY = marked("arithmetic on the sizes in the room file")


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

    @property
    def fails_by_length_only(self) -> bool:
        """Whether it would do, were it made in a length for all of the packing."""
        return self.length_mm is None and len(self.failures) == 1


def judge(screw: Screw, duty: Duty, timberwork: Timberwork) -> ScrewVerdict:
    """Try one screw in every respect; every reason against it is kept, not the first only."""
    failures = list(_misfits(screw, timberwork))
    grip = _grip(screw, duty, timberwork)
    least, most = _length_limits(screw, duty, timberwork, grip.value)
    lengths = [length for length in screw.lengths_mm if least.value - 1e-6 <= length <= most.value + 1e-6]
    if not lengths:
        failures.append(
            tr(
                "no length from {least} to {most} is made: {made}",
                least=metric_size(least.value, 1),
                most=metric_size(most.value, 1),
                made=_made(screw),
            )
        )
    length = lengths[0] if lengths else None
    strengths = _strengths(screw, duty, timberwork, length, grip.value)
    asked = (duty.pull, duty.pull, duty.shear, duty.shear)
    ratios = [strength.value / max(one.value, 1e-9) for strength, one in zip(strengths, asked, strict=True)]
    ratio = min(ratios)
    at = ratios.index(ratio)
    said = {"part": strengths[at].name, "bears": strengths[at].value}
    if ratio < 1 and not failures:
        failures.append(tr("{part} bears {bears:.0f} N, less than the {asked:.0f} N asked", asked=asked[at].value, **said))
    proud = _seat_height(screw, timberwork) - timberwork.bore.counterbore_depth_mm
    warning = tr("its head stands {height} proud of the panel, so that no plug covers it", height=metric_size(proud, 1))
    return ScrewVerdict(
        screw,
        length,
        tuple(failures),
        (warning,) if proud > 0.05 else (),
        (_lip_figure(_lip_mm(screw, timberwork)), grip, least, most, duty.pull, duty.shear, *strengths),
        tr("{part}: {bears:.0f} N, {ratio:.1f} times what is asked", ratio=ratio, **said),
    )


def _misfits(screw: Screw, timberwork: Timberwork) -> Iterator[str]:
    """What keeps a screw out of the hole, or the hole from holding its head."""
    bore, lip = timberwork.bore, _lip_mm(screw, timberwork)
    hole = metric_size(bore.hole_mm)
    if screw.thread != "wood":
        yield tr("a machine thread holds in no timber")
    if screw.shank_mm > bore.hole_mm:
        yield tr("its shank, {shank}, does not pass the {hole} hole", shank=metric_size(screw.shank_mm, 2), hole=hole)
    if screw.head_most_mm > bore.counterbore_mm:
        most, counterbore = metric_size(screw.head_most_mm, 2), metric_size(bore.counterbore_mm)
        yield tr("its head, up to {head}, does not enter the {counterbore} counterbore", head=most, counterbore=counterbore)
    if lip <= 0:
        yield tr("its head, down to {head}, pulls through the {hole} hole", head=metric_size(screw.head_least_mm, 2), hole=hole)
    elif lip < bore.least_lip_mm:
        ring, needed = metric_size(lip, 2), metric_size(bore.least_lip_mm)
        yield tr("its head may bear on a ring only {ring} wide; {needed} are needed", ring=ring, needed=needed)


def _lip_mm(screw: Screw, timberwork: Timberwork) -> float:
    return (screw.head_least_mm - timberwork.bore.hole_mm) / 2


def _made(screw: Screw) -> str:
    return tr("{first} to {last}", first=metric_size(screw.lengths_mm[0]), last=metric_size(screw.lengths_mm[-1]))


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
    formula = f"{duty.thickness_mm:g} - {depth:g}"
    if over:
        formula = tr("{formula} + {over:.2f} of head above the seat", formula=formula, over=over)
    return Figure(tr("grip in the panel"), value, "mm", formula, tr(GEOMETRY))


def _length_limits(screw: Screw, duty: Duty, timberwork: Timberwork, grip: float) -> tuple[Figure, Figure]:
    into = DIAMETERS_IN * screw.shank_mm
    least = Figure(
        tr("least length"),
        grip + duty.most_packing_mm + into,
        "mm",
        tr(
            "{grip:.2f} grip + {packing:g} packing + {times} × {shank:.2f}",
            grip=grip,
            packing=duty.most_packing_mm,
            times=DIAMETERS_IN,
            shank=screw.shank_mm,
        ),
        tr(PENETRATION_SOURCE),
    )
    most = Figure(
        tr("greatest length"),
        grip + duty.least_packing_mm + timberwork.cable_clear_mm,
        "mm",
        tr(
            "{grip:.2f} grip + {packing:g} packing + {clear:g}",
            grip=grip,
            packing=duty.least_packing_mm,
            clear=timberwork.cable_clear_mm,
        ),
        tr(CABLE_SOURCE),
    )
    return least, most


def _lip_figure(lip: float) -> Figure:
    return Figure(tr("ring of plastic under the head"), lip, "mm", tr("(least head - hole) / 2"), tr(GEOMETRY))


def _strengths(screw: Screw, duty: Duty, timberwork: Timberwork, length: float | None, grip: float) -> list[Figure]:
    """What each part bears, in newtons per screw: two against pulling out, then two against shear.

    With no fitting length the least penetration stands in for it.
    """
    bore, gravity = timberwork.bore, timberwork.specific_gravity
    into = DIAMETERS_IN * screw.shank_mm if length is None else length - grip - duty.most_packing_mm
    per_inch = withdrawal_lb_per_in(gravity, screw.shank_mm / INCH_MM)
    area = max(0.0, pi / 4 * (screw.head_least_mm**2 - bore.hole_mm**2))
    stress = bore.yield_mpa / bore.safety
    bearing = 16_600 * gravity**1.84 * 0.006894757 / 2.2
    return [
        Figure(
            tr("withdrawal from the timber"),
            per_inch * NEWTON_PER_LB * into / INCH_MM if screw.thread == "wood" else 0.0,
            "N",
            tr(
                "2850 × {gravity:g}² × {shank:.3f} in = {per_inch:.0f} lb/in, over {depth}",
                gravity=gravity,
                shank=screw.shank_mm / INCH_MM,
                per_inch=per_inch,
                depth=metric_size(into, 1),
            ),
            tr(WITHDRAWAL_SOURCE),
        ),
        Figure(
            tr("plastic ring under the head"),
            area * stress,
            "N",
            f"π/4 × ({screw.head_least_mm:.2f}² - {bore.hole_mm:g}²) × {bore.yield_mpa:g} / {bore.safety:g}",
            tr(YIELD_SOURCE),
        ),
        Figure(
            tr("shear: plastic around the shank"),
            screw.shank_mm * grip * stress,
            "N",
            f"{screw.shank_mm:.2f} × {grip:.1f} × {bore.yield_mpa:g} / {bore.safety:g}",
            tr(YIELD_SOURCE),
        ),
        Figure(
            tr("shear: timber around the shank"),
            screw.shank_mm * into * bearing,
            "N",
            f"{screw.shank_mm:.2f} × {into:.1f} × {bearing:.2f} MPa",
            tr(BEARING_SOURCE),
        ),
    ]
