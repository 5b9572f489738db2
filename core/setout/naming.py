"""Names for designs: what a helper reads on a sheet. A name follows from the design alone, so it stays when others change."""

import hashlib
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import count

from core.kit import Kit
from core.setout.bodies import BuiltTo, ShapeKey
from core.setout.tariff import CornerKey, MakeUp, PlainKey

KIT_NAMES = frozenset({"full", "half-height", "half-width", "quarter"})
CLEAR_SIGNS = "23456789BCDFGHJKLMNPQRSTVWXZ"
"""Letters and figures that are not mistaken for one another; no vowels, so that no words come up."""
FEWEST_SIGNS = 3


@dataclass(frozen=True, slots=True)
class Names:
    """The names of a room's designs. A name follows from the design and from ``signs``, how many the shaped ones have."""

    signs: int
    by_design: Mapping[BuiltTo, str]


def names_of(designs: Iterable[BuiltTo], kit: Kit) -> Names:
    """A name for every design. Shaped ones get as many signs as keep all names of a room apart."""
    distinct = dict.fromkeys(designs)
    sized = len(kit.widths_pitches) > 2
    for signs in count(FEWEST_SIGNS):
        names = {design: _name(design, signs, sized) for design in distinct}
        if len(set(names.values())) == len(names):
            break
    return Names(signs, names)


def bears(design: BuiltTo, name: str) -> bool:
    """Whether a design could go by that name, in a room with few designs or many."""
    signs = len(name.rsplit(" ", 1)[-1]) if isinstance(design.key, ShapeKey) else FEWEST_SIGNS
    return name in (_name(design, signs, sized=False), _name(design, signs, sized=True))


def plain_key(name: str) -> PlainKey | CornerKey | None:
    """The identity of the closer or corner panel of a name; None for every other."""
    found = _PLAIN_NAME.fullmatch(name)
    if found is None:
        return None
    made = int(found["courses"]), found["less"] != "bare", found["less"] is None
    if found["width"]:
        return int(found["width"]), made
    return "outside" if found["outside"] else "inside", int(found["left"]), int(found["right"]), made


_PLAIN_NAME = re.compile(
    r"(?:closer (?P<width>\d+)|(?P<outside>outside )?corner (?P<left>\d+)\+(?P<right>\d+)) x (?P<courses>\d+)"
    r"(?: (?P<less>without cap|bare))?"
)


@lru_cache(maxsize=4096)
def _name(design: BuiltTo, signs: int, sized: bool) -> str:
    """The name with so many signs; kit panels give their size (``sized``) where the kit has several of a kind."""
    key = design.key
    if isinstance(key, ShapeKey):
        return f"{design.kind} {_signs(key, signs)}"
    if len(key) == 2:
        width, made = key
        return design.kind if design.kind in KIT_NAMES and not sized else f"{design.kind} {width} x {_height(made)}"
    kind, left, right, made = key
    return f"{'corner' if kind == 'inside' else 'outside corner'} {left}+{right} x {_height(made)}"


def _height(made: MakeUp) -> str:
    """Courses, with what is left out of the usual plate and cap course above them."""
    courses, has_plate, has_cap = made
    if has_plate and has_cap:
        return str(courses)
    return f"{courses} {'without cap' if has_plate else 'bare'}"


def _signs(key: ShapeKey, count: int) -> str:
    """The first signs of a shape's fingerprint."""
    number = int.from_bytes(hashlib.sha256(repr((key.made, key.rings, key.corner)).encode()).digest())
    signs = ""
    for _ in range(count):
        number, sign = divmod(number, len(CLEAR_SIGNS))
        signs += CLEAR_SIGNS[sign]
    return signs
