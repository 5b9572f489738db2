"""Damage done to room files: to the document a file holds, and to its bytes."""

import copy
import json
import random
from collections.abc import Callable
from typing import Any, TypeAlias

Step: TypeAlias = Any
"""A key of an object or an index of a list."""
Document = dict[str, Any]

ODD_VALUES: tuple[Any, ...] = (
    *(None, True, False, 0, -1, 1, 0.5, -0.0, 1e-300, 1e308, -1e308, 10**18, 10**400, 2**63, 2**31, 12_001, 100_001),
    *(
        "",
        " ",
        "x" * 200,
        "\x00",
        "\n",
        "\u2028",
        "\u202e",
        "\ud800",
        "\udfff\ud800",
        "Ωß漢🪵",
        "A-1-1",
        "mm",
        "1",
        "NaN",
        "#ffffff",
    ),
    *([], [[]], {}, {"": None}, {"mode": "regular"}, {"kind": "joint"}, [0], [0, 0, 0], [None] * 300),
)
ODD_LITERALS = (
    "NaN",
    "-Infinity",
    "1e999",
    "-0",
    "0x1F",
    "01",
    "1" * 5000,
    '"\\ud800"',
    '"\\u0000"',
    "[" * 3000,
    "undefined",
    '"\t"',
)
ODD_BYTES = (
    b"\x00",
    b"\xff",
    b"\xc3\x28",
    b"\xed\xa0\x80",
    b"\xf0\x9f",
    b"\xef\xbb\xbf",
    b"{",
    b"}",
    b"]",
    b",",
    b'"',
    b"\\",
    b"9",
)


def mutated(document: Document, pick: random.Random) -> bytes:
    """The document with one to four damages, as the bytes of a file."""
    document = copy.deepcopy(document)
    for _ in range(pick.choice((1, 1, 1, 2, 4))):
        pick.choice(_DAMAGES)(document, pick)
    data = _written(document, pick)
    return pick.choice(_BYTE_DAMAGES)(data, pick) if pick.random() < 0.25 else data


def _places(document: Any) -> list[tuple[Any, Step]]:
    """Every container with every key or index in it."""
    found: list[tuple[Any, Step]] = []
    todo = [document]
    while todo:
        here = todo.pop()
        steps: list[Step] = list(here) if isinstance(here, dict) else list(range(len(here)))
        for step in steps:
            found.append((here, step))
            if isinstance(here[step], dict | list):
                todo.append(here[step])
    return found


def _place(document: Document, pick: random.Random) -> tuple[Any, Step]:
    """A place in a section chosen first, so that small sections get as much as large ones."""
    section = pick.choice(list(document) or ["name"])
    inside = _places(document[section]) if isinstance(document.get(section), dict | list) else []
    return pick.choice(inside) if inside and pick.random() < 0.9 else (document, section)


def _drop(document: Document, pick: random.Random) -> None:
    here, step = _place(document, pick)
    if isinstance(here, list) or step in here:
        del here[step]


def _double(document: Document, pick: random.Random) -> None:
    here, step = _place(document, pick)
    if isinstance(here, list) and isinstance(step, int):
        here[step:step] = [copy.deepcopy(here[step])] * pick.choice((1, 1, 2, 600))
    elif step in here:
        here[f"{step}2"] = copy.deepcopy(here[step])


def _retype(document: Document, pick: random.Random) -> None:
    here, step = _place(document, pick)
    here[step] = copy.deepcopy(pick.choice(ODD_VALUES))


def _rescale(document: Document, pick: random.Random) -> None:
    numbers = [
        (here, step)
        for here, step in _places(document)
        if isinstance(here[step], int | float) and not isinstance(here[step], bool)
    ]
    if numbers:
        here, step = pick.choice(numbers)
        here[step] = pick.choice(
            (-here[step], here[step] * 10, here[step] + 1, here[step] + 0.5, here[step] / 7, here[step] * 1e9)
        )


def _nest(document: Document, pick: random.Random) -> None:
    here, step = _place(document, pick)
    value = here[step] if isinstance(here, list) else here.get(step)
    for _ in range(pick.choice((1, 3, 200))):
        value = [value] if pick.random() < 0.5 else {"name": value}
    here[step] = value


def _swap(document: Document, pick: random.Random) -> None:
    (here, step), (there, other) = _place(document, pick), _place(document, pick)
    if (isinstance(here, list) or step in here) and (isinstance(there, list) or other in there):
        here[step] = copy.deepcopy(there[other])


_DAMAGES: tuple[Callable[[Document, random.Random], None], ...] = (
    _drop,
    _double,
    _retype,
    _retype,
    _rescale,
    _rescale,
    _nest,
    _swap,
)


def _written(document: Document, pick: random.Random) -> bytes:
    """The document as JSON, now and then with what no JSON writer would write."""
    text = _as_json(document, pick)
    if pick.random() < 0.15:
        commas = [n for n, sign in enumerate(text) if sign == ":"]
        if commas:
            at = pick.choice(commas) + 1
            text = text[:at] + pick.choice(ODD_LITERALS) + text[at:] * pick.choice((0, 1))
    if pick.random() < 0.1 and document:
        key = pick.choice(list(document))
        text = "{" + f"{json.dumps(key)}: {_as_json(document[key], pick)}, " + text[1:]
    return text.encode("utf-8", "surrogatepass")


def _as_json(value: Any, pick: random.Random) -> str:
    try:
        return json.dumps(value, ensure_ascii=pick.random() < 0.5)
    except ValueError:
        # A number of more digits than Python writes out.
        return "null"


def _cut(data: bytes, pick: random.Random) -> bytes:
    return data[: pick.randrange(len(data) + 1)]


def _flip(data: bytes, pick: random.Random) -> bytes:
    at = pick.randrange(len(data))
    return data[:at] + bytes([data[at] ^ (1 << pick.randrange(8))]) + data[at + 1 :]


def _insert(data: bytes, pick: random.Random) -> bytes:
    at = pick.randrange(len(data) + 1)
    return data[:at] + pick.choice(ODD_BYTES) + data[at:]


def _repeat(data: bytes, pick: random.Random) -> bytes:
    start, end = sorted((pick.randrange(len(data)), pick.randrange(len(data))))
    return data[:end] + data[start:]


_BYTE_DAMAGES: tuple[Callable[[bytes, random.Random], bytes], ...] = (_cut, _flip, _insert, _repeat)
