"""Rooms, rows and candidates that the tests of set-out build again and again."""

from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path

from hypothesis import settings
from hypothesis import strategies as st

from core.kit import Kit, Rates
from core.progress import Progress
from core.room import Frame, Opening, OpeningKind, Point, Room
from core.setout.bodies import Body, Candidate, bodies_of
from core.setout.layers import Block, layers_of
from core.setout.tariff import Tariff, tariff_of
from tests.generate import SMALL_KIT

law = settings(max_examples=25, derandomize=True, deadline=None)
few = settings(max_examples=8, derandomize=True, deadline=None)

KIT = Kit()
TARIFF: Tariff = tariff_of(KIT, Rates())
FULL_ROW_MM = 304.0
"""One row of full panels: 31 courses of 9.6 mm, a plate and a cap course of 3.2 mm each."""


def demo() -> Room:
    """The room that is shipped with the program, before anybody has built a panel of it."""
    path = Path(__file__).resolve().parents[3] / "assets" / "demo.room.json"
    return Room.model_validate_json(path.read_text("utf-8")).model_copy(update={"progress": Progress()})


def plan(
    *corners_mm: Point,
    height_mm: float = FULL_ROW_MM,
    openings: Sequence[Opening] = (),
    frames: Sequence[Frame] = (),
    kit: Kit = KIT,
    rates: Rates | None = None,
) -> Room:
    """A room over plan corners, clockwise seen from above."""
    return Room(
        name="test room",
        corners_mm=corners_mm,
        clad_height_mm=height_mm,
        openings=tuple(openings),
        frames=tuple(frames),
        kit=kit,
        rates=rates or Rates(),
    )


def rectangle(
    width_mm: float,
    depth_mm: float,
    height_mm: float = FULL_ROW_MM,
    openings: Sequence[Opening] = (),
    frames: Sequence[Frame] = (),
    rates: Rates | None = None,
) -> Room:
    """Walls A and C are as long as the room is deep, B and D as long as it is wide."""
    corners = ((0.0, 0.0), (0.0, depth_mm), (width_mm, depth_mm), (width_mm, 0.0))
    return plan(*corners, height_mm=height_mm, openings=openings, frames=frames, rates=rates)


def opening(kind: OpeningKind, wall: int, left_mm: float, sill_mm: float, width_mm: float, height_mm: float) -> Opening:
    """An opening named after its kind."""
    return Opening(id=kind, kind=kind, wall=wall, left_mm=left_mm, sill_mm=sill_mm, width_mm=width_mm, height_mm=height_mm)


def flat(width: int, *blocks: Block, courses: int = 31) -> tuple[Body, ...]:
    """The panels of a candidate on one wall, of the default kit."""
    return bodies_of(Candidate(layers_of(3, courses), width, blocks, None), TARIFF)


def around_corner(left: int, right: int, *blocks: Block, courses: int = 31) -> tuple[Body, ...]:
    """The panels of a candidate around an inside corner; blocks are counted from its left end."""
    return bodies_of(Candidate(layers_of(3, courses), left + right, blocks, ("inside", left)), TARIFF)


@st.composite
def blocks_on_a_wall(draw: st.DrawFn, pitches: int, *, courses: int = SMALL_KIT.full_courses, most: int = 3) -> tuple[Block, ...]:
    """Blocked cells side by side on a wall of that many pitches, in a row of that many courses."""
    count = draw(st.integers(0, most))
    edges = draw(st.lists(st.integers(0, pitches), min_size=2 * count, max_size=2 * count, unique=True).map(sorted))
    found = []
    for left, right in list(pairwise(edges))[::2]:
        low = draw(st.integers(0, courses + 1))
        found.append(Block(left, right, low, draw(st.integers(low + 1, courses + 2))))
    return tuple(found)
