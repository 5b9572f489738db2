"""Which layers of a panel are laid alike: every distinct pattern once, under a letter, with the layers it is laid in."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import count, product
from string import ascii_uppercase

from core.bond.result import Bond, Laid, Layer
from core.language import tr, trc, trn
from core.sheets.wording import span_words

PLATES, CAP = "P", "T"
"""The letters of the plate course and the cap course; courses of bricks go by the others."""
_LETTERS = [letter for letter in ascii_uppercase if letter not in (PLATES, CAP, "I", "O", "J", "Q")]
"""Without I and O, which read like one and nought, and J and Q, which hang into the line below."""


@dataclass(frozen=True, slots=True)
class Pattern:
    """Layers laid alike. ``layers`` are their places from 0 at the bottom; ``below`` the patterns they are laid on."""

    letter: str
    layer: Layer
    layers: tuple[int, ...]
    below: tuple["Below", ...]

    @property
    def has_holes(self) -> bool:
        return bool(hole_lines(self.layer))


@dataclass(frozen=True, slots=True)
class Below:
    """A pattern that another one is laid on somewhere in the panel."""

    letter: str
    layer: Layer


def patterns_of(bond: Bond) -> tuple[Pattern, ...]:
    """The patterns of a bond in the order in which the crew meets them, from the bottom."""
    alike: defaultdict[tuple[str, tuple[Laid, ...]], list[int]] = defaultdict(list)
    for number, layer in enumerate(bond.layers):
        alike[layer.kind, layer.laid].append(number)
    letters = _letters(bond, [layers[0] for layers in alike.values()])
    at = {number: letter for letter, layers in zip(letters, alike.values(), strict=True) for number in layers}
    return tuple(
        Pattern(letter, bond.layers[layers[0]], tuple(layers), _below(bond, at, layers))
        for letter, layers in zip(letters, alike.values(), strict=True)
    )


def _below(bond: Bond, letter_at: dict[int, str], layers: Sequence[int]) -> tuple[Below, ...]:
    found = {letter_at[number - 1]: bond.layers[number - 1] for number in layers if number}
    return tuple(Below(letter, layer) for letter, layer in found.items())


def _letters(bond: Bond, firsts: Sequence[int]) -> list[str]:
    free = ("".join(signs) for length in count(1) for signs in product(_LETTERS, repeat=length))
    numbers = {"plate": count(1), "cap": count(1)}
    named = {"plate": PLATES, "cap": CAP}
    found = []
    for first in firsts:
        kind = bond.layers[first].kind
        if kind == "course":
            found.append(next(free))
            continue
        number = next(numbers[kind])
        found.append(named[kind] if number == 1 else f"{named[kind]}{number}")
    return found


def letters_by_layer(patterns: Sequence[Pattern]) -> list[str]:
    """The letter of every layer from the bottom."""
    at = {number: pattern.letter for pattern in patterns for number in pattern.layers}
    return [at[number] for number in range(len(at))]


def layer_name(bond: Bond, number: int) -> str:
    """What a layer is called beside the drawing: courses by their number, the two on top by what they are made of."""
    layer = bond.layers[number]
    if layer.kind == "course":
        return str(sum(lower.kind == "course" for lower in bond.layers[:number]) + 1)
    return trc("beside a drawing", "plates") if layer.kind == "plate" else trc("beside a drawing", "cap")


def layers_words(bond: Bond, numbers: Sequence[int]) -> str:
    """Layers in words: ``course 4``, ``courses 1, 7, 9 … 25, 31``, ``plate course``."""
    kinds = {bond.layers[number].kind for number in numbers}
    if kinds == {"plate"}:
        return tr("plate course")
    if kinds == {"cap"}:
        return tr("cap course")
    courses = [int(layer_name(bond, number)) for number in numbers if bond.layers[number].kind == "course"]
    said = courses_words(courses)
    others = [name for kind, name in (("plate", tr("plate course")), ("cap", tr("cap course"))) if kind in kinds]
    return ", ".join([said, *others])


def courses_words(courses: Sequence[int]) -> str:
    """Courses by their numbers: ``course 4``, ``courses 1 to 3``."""
    numbers = numbers_words(courses)
    return trn("course {courses}", "courses {courses}", len(courses), courses=numbers)


def numbers_words(numbers: Sequence[int]) -> str:
    """Rising numbers, runs drawn together: ``4 to 6`` for neighbours, ``7, 9 … 25`` where every second one is meant."""
    said = []
    at = 0
    while at < len(numbers):
        end = _run_end(numbers, at)
        run = numbers[at : end + 1]
        if len(run) >= 3 and run[1] - run[0] == 1:
            said.append(span_words(run[0], run[-1]))
        elif len(run) >= 4:
            said.append(f"{run[0]}, {run[1]} … {run[-1]}")
        else:
            end = at
            said.append(str(run[0]))
        at = end + 1
    return ", ".join(said)


def _run_end(numbers: Sequence[int], at: int) -> int:
    """Where the run that begins at a place ends: neighbours, or every second number."""
    end = at
    step = numbers[at + 1] - numbers[at] if at + 1 < len(numbers) else 0
    while step in (1, 2) and end + 1 < len(numbers) and numbers[end + 1] - numbers[end] == step:
        end += 1
    return end


def hole_lines(layer: Layer) -> tuple[tuple[int, int], ...]:
    """Leg and pitch line of every hole in a layer: in the middle of pin-hole bricks, which alone lie side by side."""
    return tuple(sorted({(laid.leg, laid.at + laid.length // 2) for laid in layer.laid if laid.side is not None}))
