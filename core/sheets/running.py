"""Superimposed running dimensions (ISO 129-1): one line from one origin, a value at every arrowhead."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise

from core.drawing import Circle, Item, Path, Pen, Text
from core.drawing.items import Point
from core.drawing.lettering import hang_mm, text_width_mm

HEIGHT_MM = 2.5
LABEL_PITCH_MM = 3.6
"""Least distance between neighbouring values, centre to centre."""
OFFSET_MM = 4.0
"""From the dimension line to its values."""
LEVEL_OFFSET_MM = 2.8
LEVEL_AIR_MM = 1.2
FARTHEST_MM = 5.0
"""How far a level value may stand aside from its place; where that is not enough, values are turned."""
_LINE = Pen(0.18)


def running_from_chain(chain: Sequence[float]) -> list[float]:
    """Distances from the origin for a chain of lengths, the origin's 0 first."""
    return list(accumulate(chain, initial=0.0))


def chain_from_running(running: Sequence[float]) -> list[float]:
    """Lengths between neighbouring values of a running dimension."""
    return [after - before for before, after in pairwise(running)]


@dataclass(frozen=True, slots=True)
class Tick:
    """A place on the dimension line, in sheet millimetres along it, and the value written there."""

    at: float
    value: str


@dataclass(frozen=True, slots=True)
class Along:
    """Where a running dimension lies: ``line`` is its fixed coordinate, ``edge`` that of the thing measured.

    ``is_upright`` runs up the sheet. Values stand on the far side from the edge, level where ``is_level`` or the line is
    upright, turned a quarter otherwise.
    """

    line: float
    edge: float
    is_upright: bool
    low: float
    high: float
    is_level: bool = False

    @property
    def away(self) -> float:
        return 1.0 if self.line > self.edge else -1.0

    def point(self, along: float, across: float) -> Point:
        return (across, along) if self.is_upright else (along, across)


def running_dimension(lie: Along, origin: float, ticks: Sequence[Tick], *, has_origin: bool = True) -> list[Item]:
    """The dimension's items. ``origin`` is its 0 on the sheet; without ``has_origin`` that lies on another sheet."""
    if not ticks:
        return []
    ticks = sorted(ticks, key=lambda tick: tick.at)
    start = origin if has_origin else (lie.low if origin < lie.low else lie.high)
    ends = [tick.at for tick in ticks] + [start]
    items: list[Item] = [Path((lie.point(min(ends), lie.line), lie.point(max(ends), lie.line)), _LINE)]
    named = [Tick(origin, "0"), *ticks] if has_origin else list(ticks)
    named = _thinned(sorted(named, key=lambda tick: tick.at), lie.high - lie.low)
    places = spread([tick.at for tick in named], _gaps([tick.value for tick in named], lie.is_level), lie.low, lie.high)
    for tick, place in zip(named, places, strict=True):
        items += _tick(lie, tick, place, origin)
    return items


def label_depth_mm(values: Sequence[str], *, is_level: bool = False) -> float:
    """Room the dimension takes beyond its line."""
    if is_level:
        return LEVEL_OFFSET_MM + HEIGHT_MM + max((hang_mm(value, HEIGHT_MM) for value in values), default=0.0)
    return OFFSET_MM + max((text_width_mm(value, HEIGHT_MM) for value in values), default=0.0)


def have_room_level(ticks: Sequence[Tick], low: float, high: float) -> bool:
    """Whether all values can be written level below a line, near to their places."""
    gaps = _gaps([tick.value for tick in ticks], is_level=True)
    if sum(gaps) > high - low:
        return False
    places = spread([tick.at for tick in ticks], gaps, low, high)
    return all(abs(place - tick.at) <= FARTHEST_MM for tick, place in zip(ticks, places, strict=True))


def _gaps(values: Sequence[str], is_level: bool) -> list[float]:
    """Least distances between the middles of neighbouring values."""
    if not is_level:
        return [LABEL_PITCH_MM] * (len(values) - 1)
    widths = [text_width_mm(value, HEIGHT_MM) for value in values]
    return [(one + other) / 2 + LEVEL_AIR_MM for one, other in pairwise(widths)]


def spread(places: Sequence[float], gaps: Sequence[float], low: float, high: float) -> list[float]:
    """The places, rising, moved as little as it takes to stand ``gaps`` apart between ``low`` and ``high``."""
    shifts = list(accumulate(gaps, initial=0.0))
    groups: list[tuple[float, int]] = []
    for place, shift in zip(places, shifts, strict=True):
        centre, count = place - shift, 1
        while groups and groups[-1][0] > centre - 1e-9:
            before, many = groups.pop()
            centre = (before * many + centre * count) / (many + count)
            count += many
        groups.append((centre, count))
    moved = [centre for centre, count in groups for _ in range(count)]
    return [min(max(centre, low), high - shifts[-1]) + shift for centre, shift in zip(moved, shifts, strict=True)]


def _thinned(ticks: list[Tick], room: float) -> list[Tick]:
    most = max(2, int(room / LABEL_PITCH_MM))
    every = -(-len(ticks) // most)
    return ticks if every == 1 else ticks[::every]


def _tick(lie: Along, tick: Tick, place: float, origin: float) -> list[Item]:
    out = lie.away
    items: list[Item] = []
    if abs(tick.at - origin) < 1e-6 and tick.value == "0":
        items.append(Circle(lie.point(origin, lie.line), 0.8, _LINE, fill=1.0))
    else:
        items.append(_arrow(lie, tick.at, 1.0 if tick.at > origin else -1.0))
    witness = (lie.point(tick.at, lie.edge + out), lie.point(tick.at, lie.line + out))
    lead = lie.point(place, lie.line + out * (LEVEL_OFFSET_MM - 0.4 if lie.is_level else OFFSET_MM - 0.8))
    items.append(Path((*witness, lead), _LINE))
    return [*items, _value(lie, tick.value, place)]


def _arrow(lie: Along, at: float, way: float) -> Path:
    tip, back = lie.point(at, lie.line), at - way * 2.0
    return Path((tip, lie.point(back, lie.line - 0.35), lie.point(back, lie.line + 0.35)), None, closed=True, fill=0.0)


def _value(lie: Along, value: str, place: float) -> Text:
    if lie.is_level:
        across = lie.line + lie.away * LEVEL_OFFSET_MM + (HEIGHT_MM if lie.away > 0 else 0.0)
        return Text((place, across), value, HEIGHT_MM, "middle")
    across = lie.line + lie.away * OFFSET_MM
    if lie.is_upright:
        return Text((across, place + HEIGHT_MM / 2), value, HEIGHT_MM, "start" if lie.away > 0 else "end")
    return Text((place + HEIGHT_MM / 2, across), value, HEIGHT_MM, "end" if lie.away > 0 else "start", 90)
