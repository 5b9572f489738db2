"""Measured walls as people list them: a length, then the turn at its end, wall after wall round the room."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from core.errors import LengthError, RoomError
from core.language import marked, tr
from core.room import LONGEST_WALL_MM, Units, wall_letter
from core.units import format_length, parse_length_mm

MOST_WALLS = 200
LONGEST_LIST = 10_000
SQUARE_DEG = 90.0
LEAST_TURN_DEG, _MOST_TURN_DEG = 0.1, 179.0
_NUMBER = r"[0-9]+(?:[.,][0-9]+)?"
_TURN = re.compile(rf"(?P<way>r|l|right|left) *(?P<angle>{_NUMBER})? *(?:°|deg|degrees)?", re.IGNORECASE)
_IN_LIST = re.compile(
    rf"(?<![a-z])(?P<way>right|left|r|l)(?P<near>{_NUMBER})?(?![a-z'\"])(?: *(?P<far>{_NUMBER}) *°|°)?", re.IGNORECASE
)
_ANGLE_FIRST = re.compile(rf"(?P<angle>{_NUMBER})(?:\s+(?P<rest>.+))?", re.DOTALL)
EXAMPLE = marked("write lengths and turns in order, like 3048 R 3048 R 3050 R 3048 R; L turns left, R 45 turns by 45 degrees")


@dataclass(frozen=True, slots=True)
class Leg:
    """One wall: its length and the turn at its far end, degrees to the right; None where the list leaves it open."""

    length_mm: float
    turn_deg: float | None = SQUARE_DEG


def parse_turn_deg(text: str) -> float:
    """Degrees to the right of ``R``, ``L``, ``R 45`` or ``left 30.5°``; nothing written is a square turn to the right.

    Raises RoomError for anything else and for turns that are no corner.
    """
    if not text.strip():
        return SQUARE_DEG
    found = _TURN.fullmatch(text.strip())
    if found is None:
        raise RoomError(tr("{text!r} is not a turn; write R or L, or with degrees R 45", text=text.strip()[:40]))
    return _turn_deg(found["way"], found["angle"])


def _turn_deg(way: str, angle: str | None) -> float:
    degrees = SQUARE_DEG if angle is None else float(angle.replace(",", "."))
    if not LEAST_TURN_DEG <= degrees <= _MOST_TURN_DEG:
        raise RoomError(
            tr(
                "a turn by {degrees:g}° is no corner; give {least:g}° to {most:g}°",
                degrees=degrees,
                least=LEAST_TURN_DEG,
                most=_MOST_TURN_DEG,
            )
        )
    return degrees if way.lower().startswith("r") else -degrees


def read_leg(number: int, length: str, turn: str) -> Leg:
    """One row of a table of walls, counted from 0. Raises RoomError or LengthError that names the wall."""
    where = tr("wall {wall}", wall=wall_letter(number))
    try:
        length_mm, turn_deg = parse_length_mm(length), parse_turn_deg(turn)
    except (LengthError, RoomError) as error:
        raise type(error)(f"{where}: {error}") from None
    if not 0 < length_mm <= LONGEST_WALL_MM:
        raise RoomError(
            tr(
                "{where}: {length:g} mm is no wall; it must be longer than 0 and at most {most:g} mm",
                where=where,
                length=length_mm,
                most=LONGEST_WALL_MM,
            )
        )
    return Leg(length_mm, turn_deg)


def parse_list(text: str) -> tuple[Leg, ...]:
    """The walls of a list like ``3048 R 3048 R 3050 R 3048 R`` or ``10' 6 1/2" R 45 8' L``.

    The turn after the last wall, back to the first, may be left out. A bare number after a turn is its angle only where a length
    follows it, or at the list's end below 180. Raises RoomError that names the wall where the list cannot be read.
    """
    if len(text) > LONGEST_LIST:
        raise RoomError(
            tr("found {count} characters, too many for a list of walls; {example}", count=len(text), example=tr(EXAMPLE))
        )
    plain = re.sub(r"[;\n\t]+|,(?=\s|$)", " ", text).strip()
    turns = list(_IN_LIST.finditer(plain))
    if not turns:
        raise RoomError(tr("found no turns; {example}", example=tr(EXAMPLE)))
    if plain[: turns[0].start()].strip() == "":
        raise RoomError(tr("the list begins with a turn; {example}", example=tr(EXAMPLE)))
    length, legs = plain[: turns[0].start()].strip(), list[Leg]()
    for turn, following in zip(turns, [*turns[1:], None], strict=True):
        rest = plain[turn.end() : following.start() if following else len(plain)].strip()
        angle = turn["near"] or turn["far"]
        if angle is None and rest:
            angle, rest = _angle_and_length(rest, is_last=following is None)
        legs.append(read_leg(len(legs), length, f"{turn['way']} {angle or ''}"))
        length = rest
        if not length and following is not None:
            raise RoomError(
                tr(
                    "wall {wall}: found a turn where its length should be; {example}",
                    wall=wall_letter(len(legs)),
                    example=tr(EXAMPLE),
                )
            )
        if len(legs) > MOST_WALLS:
            raise RoomError(tr("the list has more than {most} walls; a room has at most so many", most=MOST_WALLS))
    if length:
        legs.append(Leg(read_leg(len(legs), length, "R").length_mm, None))
    return tuple(legs)


def _angle_and_length(text: str, *, is_last: bool) -> tuple[str | None, str]:
    """Parts what follows a turn into its angle, if any, and the next wall's length."""
    parts = _ANGLE_FIRST.fullmatch(text)
    if parts is None:
        return None, text
    if parts["rest"] is None:
        ends_the_list = is_last and float(parts["angle"].replace(",", ".")) < 180
        return (text, "") if ends_the_list else (None, text)
    rest = parts["rest"].strip()
    # What is mistyped after a length is a fault of that length; only a length makes an angle of the number before it.
    return (parts["angle"], rest) if _is_length(rest) and not _is_length(text) else (None, text)


def _is_length(text: str) -> bool:
    try:
        parse_length_mm(text)
    except LengthError:
        return False
    return True


def written(legs: Sequence[Leg], units: Units) -> str:
    """The legs as a list that reads back."""
    return " ".join(f"{format_length(leg.length_mm, units, with_unit=False)} {turn_text(leg)}".strip() for leg in legs)


def turn_text(leg: Leg) -> str:
    """The turn at a leg's end as people write it; nothing where it is left open."""
    if leg.turn_deg is None:
        return ""
    way, degrees = "R" if leg.turn_deg > 0 else "L", abs(leg.turn_deg)
    return way if degrees == SQUARE_DEG else f"{way} {degrees:g}°"
