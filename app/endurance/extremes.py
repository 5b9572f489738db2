"""Rooms and kits at the edge of what a room file may hold: each set out, or refused in one line, with the time it took."""

import math
import time
import traceback
from collections.abc import Callable, Mapping
from types import MappingProxyType

from app.endurance.outcome import Outcome
from core.errors import CoursewrightError
from core.kit import Kit, MountRule
from core.room import LONGEST_WALL_MM, TALLEST_WALL_MM, Opening, Point, Room
from core.setout import sketch, solve

MOST_CORNERS = 200
MOST_OPENINGS = 500


def _rectangle(name: str, width_mm: float, depth_mm: float, height_mm: float, kit: Kit | None = None) -> Room:
    corners = ((0.0, 0.0), (0.0, depth_mm), (width_mm, depth_mm), (width_mm, 0.0))
    return Room(name=name, corners_mm=corners, clad_height_mm=height_mm, kit=kit or Kit())


def tallest_room() -> Room:
    """As high as the format allows."""
    return _rectangle("tallest", 3000, 3000, TALLEST_WALL_MM)


def longest_room() -> Room:
    """Walls as long as the format allows."""
    return _rectangle("longest", LONGEST_WALL_MM, LONGEST_WALL_MM, 1980)


def largest_room() -> Room:
    """Walls as long and as high as the format allows."""
    return _rectangle("largest", LONGEST_WALL_MM, LONGEST_WALL_MM, TALLEST_WALL_MM)


def room_of_most_corners() -> Room:
    """A ring of walls that all slant, two hundred of them, 600 mm each."""
    radius = 600 / (2 * math.sin(math.pi / MOST_CORNERS))
    turns = [math.pi - 2 * math.pi * n / MOST_CORNERS for n in range(MOST_CORNERS)]
    corners = tuple((radius * math.cos(turn), radius * math.sin(turn)) for turn in turns)
    return Room(name="most corners", corners_mm=corners, clad_height_mm=1980)


def room_of_most_steps() -> Room:
    """Square corners, inside and outside by turns: a stair of two hundred walls."""
    corners: list[Point] = [(0.0, 0.0)]
    x = y = 0.0
    for _ in range(MOST_CORNERS // 2 - 1):
        y += 600
        corners.append((x, y))
        x += 600
        corners.append((x, y))
    return Room(name="most steps", corners_mm=(*corners, (x, 0.0)), clad_height_mm=1980)


def room_of_most_openings() -> Room:
    """Five hundred openings in four walls of 50 m."""
    room = _rectangle("most openings", 50_000, 50_000, 1980)
    openings = tuple(
        Opening(
            id=f"o{n}",
            kind="outlet",
            wall=n % 4,
            left_mm=300.0 + n // 4 * 390.0,
            sill_mm=300.0 + n % 7 * 110.0,
            width_mm=60.0,
            height_mm=100.0,
        )
        for n in range(MOST_OPENINGS)
    )
    return Room.model_validate({**dict(room), "openings": openings})


EXTREME_ROOMS: Mapping[str, Callable[[], Room]] = MappingProxyType(
    {
        "12 m high": tallest_room,
        "200 corners, all slanting": room_of_most_corners,
        "500 openings": room_of_most_openings,
        "200 corners, all square": room_of_most_steps,
        "100 m walls": longest_room,
        "100 m walls, 12 m high": largest_room,
    }
)
SHORT_ROOMS = ("12 m high",)


def try_extreme_rooms(is_long: bool) -> list[Outcome]:
    """Sketch and set out every extreme room; in short only those that take a moment."""
    return [_try_room(name, make()) for name, make in EXTREME_ROOMS.items() if is_long or name in SHORT_ROOMS]


def _try_room(name: str, room: Room) -> Outcome:
    times, came, fault = [], "", None
    for way in (sketch, solve):
        start = time.process_time()
        found, fault = _panels(way, room)
        times.append(time.process_time() - start)
        came = found
        if fault is not None:
            break
    besides = (
        f"{came}; sketch {times[0]:.1f} s" + (f", in full {times[1]:.1f} s" if len(times) > 1 else "") + " of processor time"
    )
    return Outcome(f"room: {name}", len(times), (fault,) if fault else (), besides)


def _panels(way: Callable[[Room], object], room: Room) -> tuple[str, str | None]:
    """What came of a room, and what was wrong with that."""
    try:
        setout = way(room)
    except CoursewrightError as error:
        return f"refused: {error}", None if str(error).isprintable() else f"not one printable line: {error}"
    except Exception:
        return "failed", traceback.format_exc(limit=-2).replace("\n", " | ")
    return f"{len(setout.panels):,} panels", None  # type: ignore[attr-defined]


def extreme_kits() -> list[Kit]:
    """Kits of one to four widths from 4 to 200 pitches, plates and pitches of other sizes, rows of few and many courses."""
    kits = [
        Kit(
            widths_pitches=widths,
            legs_pitches=(widths[0],),
            least_width_pitches=min(4, widths[0]) if widths[-1] < 16 else 8 if widths[0] >= 8 else 4,
        )
        for widths in ((4, 7), (4, 8), (8, 15), (5, 10, 15), (16, 32, 64), (8, 9, 10, 11), (50, 100), (100, 200), (200,))
    ]
    kits += [Kit(pitch_mm=pitch, plate_mm=plate) for pitch, plate in ((2.0, 0.8), (16.0, 9.6), (100.0, 40.0), (1000.0, 1000.0))]
    kits += [Kit(full_courses=full, half_courses=half) for full, half in ((4, 3), (200, 100), (200, 3))]
    kits += [Kit(thickness_pitches=n) for n in (1, 8)]
    kits += [
        Kit(plates_per_course=1),
        Kit(plates_per_course=12),
        Kit(mounts=MountRule(inset_pitches=8, course=15, clear_pitches=8)),
    ]
    return kits


def try_extreme_kits(is_long: bool) -> Outcome:
    """Set a small room out with every kit; in short with a third of them."""
    faults, refused, slowest = list[str](), 0, (0.0, "")
    kits = extreme_kits() if is_long else extreme_kits()[::3]
    for kit in kits:
        name = ", ".join(f"{field} {value}" for field, value in kit.model_dump(exclude_defaults=True).items())
        room = _rectangle("kit", 3048, 2400, 1980, kit)
        start = time.process_time()
        came, fault = _panels(solve, room)
        slowest = max(slowest, (time.process_time() - start, name))
        refused += came.startswith("refused")
        if fault is not None:
            faults.append(f"{name}: {fault}")
    besides = f"{refused} refused in one line; slowest {slowest[0]:.1f} s of processor time ({slowest[1]})"
    return Outcome("kits of other sizes", len(kits), tuple(faults), besides)
