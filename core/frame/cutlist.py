"""Everything to cut, grouped, and the boards it comes from."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from core.frame.stock import CuttingPlan, cut_from_stock
from core.room import Room, wall_letter
from core.timberwork import FOOT_STOCK_MM, METRIC_STOCK_MM


@dataclass(frozen=True, slots=True)
class Piece:
    """One thing to cut: what it is, for which wall, how long, and the number it has there."""

    name: str
    wall: int
    length_mm: float
    label: str


@dataclass(frozen=True, slots=True)
class CutGroup:
    """Pieces of one name and length; ``where`` counts them by wall in words."""

    name: str
    length_mm: float
    count: int
    where: str


@dataclass(frozen=True, slots=True)
class CutList:
    """All pieces of the room in groups, and the least boards they are cut from."""

    size: str
    kg_per_m: float
    groups: tuple[CutGroup, ...]
    plan: CuttingPlan
    stock_mm: tuple[float, ...]
    kerf_mm: float
    mm_by_wall: Mapping[int, float]
    """What each wall's pieces measure end to end."""

    @property
    def kg(self) -> float:
        """What the pieces weigh."""
        return self.plan.needed_mm / 1000 * self.kg_per_m


def stock_of(room: Room) -> tuple[float, ...]:
    """The lengths boards are bought in."""
    return room.timberwork.stock_mm or (METRIC_STOCK_MM if room.display_units == "mm" else FOOT_STOCK_MM)


def cut_list(room: Room, pieces: Iterable[Piece]) -> CutList:
    """Group the pieces and pack them into stock."""
    timberwork, stock = room.timberwork, stock_of(room)
    groups: defaultdict[tuple[str, float], list[Piece]] = defaultdict(list)
    by_wall: defaultdict[int, float] = defaultdict(float)
    for piece in pieces:
        groups[piece.name, round(piece.length_mm, 1)].append(piece)
        by_wall[piece.wall] += piece.length_mm
    made = [CutGroup(name, length, len(found), _where(found)) for (name, length), found in groups.items()]
    made.sort(key=lambda group: (-group.length_mm, group.name))
    counts: defaultdict[float, int] = defaultdict(int)
    for group in made:
        counts[group.length_mm] += group.count
    plan = cut_from_stock(counts, stock, timberwork.kerf_mm)
    return CutList(
        size=timberwork.frame_size,
        kg_per_m=timberwork.size.kg_per_m,
        groups=tuple(made),
        plan=plan,
        stock_mm=tuple(sorted(stock)),
        kerf_mm=timberwork.kerf_mm,
        mm_by_wall=dict(sorted(by_wall.items())),
    )


def _where(pieces: Sequence[Piece]) -> str:
    walls: defaultdict[int, int] = defaultdict(int)
    for piece in pieces:
        walls[piece.wall] += 1
    return ", ".join(f"{wall_letter(wall)} {count}" for wall, count in sorted(walls.items()))


def spliced(length_mm: float, longest_mm: float, supports_mm: Sequence[float]) -> tuple[float, ...]:
    """The lengths a long plate is cut in so that it fits the stock, butted over the middles of studs where one is in reach.

    ``supports_mm`` are the studs' middles from the plate's left end, rising.
    """
    cuts: list[float] = []
    begin = 0.0
    while length_mm - begin > longest_mm + 1e-6:
        reachable = [at for at in supports_mm if begin < at <= begin + longest_mm + 1e-6]
        end = reachable[-1] if reachable else begin + longest_mm
        cuts.append(end - begin)
        begin = end
    return (*cuts, length_mm - begin)
