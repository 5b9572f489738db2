"""Superimposed running dimensions (ISO 129-1): one line from one origin, a value at every arrowhead."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise

from core.drawing import Circle, Item, Path, Pen, Text
from core.drawing.items import Point
from core.drawing.lettering import text_width_mm

HEIGHT_MM = 2.5
LABEL_PITCH_MM = 3.6
"""Least distance between neighbouring values, centre to centre."""
OFFSET_MM = 4.0
"""From the dimension line to its values."""
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

    ``is_upright`` runs up the sheet with values level; the values stand on the far side from the edge.
    """

    line: float
    edge: float
    is_upright: bool
    low: float
    high: float

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
    places = spread([tick.at for tick in named], LABEL_PITCH_MM, lie.low, lie.high)
    for tick, place in zip(named, places, strict=True):
        items += _tick(lie, tick, place, origin)
    return items


def label_depth_mm(values: Sequence[str]) -> float:
    """Room the dimension takes beyond its line."""
    return OFFSET_MM + max((text_width_mm(value, HEIGHT_MM) for value in values), default=0.0)


def spread(places: Sequence[float], pitch: float, low: float, high: float) -> list[float]:
    """The places, rising, moved as little as it takes to stand ``pitch`` apart between ``low`` and ``high``."""
    groups: list[tuple[float, int]] = []
    for place in places:
        centre, count = place, 1
        while groups and groups[-1][0] + groups[-1][1] * pitch / 2 > centre - count * pitch / 2 - 1e-9:
            before, many = groups.pop()
            centre = (before * many + centre * count) / (many + count)
            count += many
        groups.append((centre, count))
    moved = [centre + (i - (count - 1) / 2) * pitch for centre, count in groups for i in range(count)]
    for i, place in enumerate(moved):
        moved[i] = max(place, low if i == 0 else moved[i - 1] + pitch)
    for i in range(len(moved) - 1, -1, -1):
        moved[i] = min(moved[i], high if i == len(moved) - 1 else moved[i + 1] - pitch)
    return moved


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
    lead = lie.point(place, lie.line + out * (OFFSET_MM - 0.8))
    items.append(Path((*witness, lead), _LINE))
    return [*items, _value(lie, tick.value, place)]


def _arrow(lie: Along, at: float, way: float) -> Path:
    tip, back = lie.point(at, lie.line), at - way * 2.0
    return Path((tip, lie.point(back, lie.line - 0.35), lie.point(back, lie.line + 0.35)), None, closed=True, fill=0.0)


def _value(lie: Along, value: str, place: float) -> Text:
    across = lie.line + lie.away * OFFSET_MM
    if lie.is_upright:
        return Text((across, place + HEIGHT_MM / 2), value, HEIGHT_MM, "start" if lie.away > 0 else "end")
    return Text((place + HEIGHT_MM / 2, across), value, HEIGHT_MM, "end" if lie.away > 0 else "start", 90)
