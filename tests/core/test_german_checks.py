"""Checks in German: each says the same figures as in English, and none is left as it was."""

import json
import re
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator

import pytest
from pydantic import ValidationError

from core.fault_words import fault_words
from core.files import load_room
from core.language import ENGLISH, speak
from core.room import Room
from core.setout import solve
from core.units import in_units
from core.whole_job import WholeJob
from tests.conftest import ROOT
from tests.generate import SMALL_KIT, seeded_room

LANGUAGES = ROOT / "assets" / "languages"
FIGURE = re.compile(r"[0-9]+(?:\.[0-9]+)?")


def rooms() -> Iterator[Room]:
    """The demo room, and generated ones with standing frames and openings in awkward places."""
    yield load_room(ROOT / "assets" / "demo.room.json")
    for seed in range(4):
        yield seeded_room(seed, kit=SMALL_KIT, standing=True, most_openings=6)


def said() -> list[list[str]]:
    """Every check of every room, in millimetres and in feet and inches."""
    found = []
    for room in rooms():
        job = WholeJob(solve(room))
        found.append([in_units(check.text, units) for check in job.checks for units in ("mm", "ft-in")])
    return found


def said_in_german() -> list[list[str]]:
    """The same from a process of its own: what is kept of bonds and frames is in the language of its process."""
    code = (
        "import json, sys; from core.language import speak; from tests.core import test_german_checks as t; "
        "speak('de', t.LANGUAGES); json.dump(t.said(), sys.stdout)"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=True, capture_output=True, text=True)
    texts: list[list[str]] = json.loads(done.stdout)
    return texts


def test_every_check_is_in_german_and_says_the_same_figures() -> None:
    for ours, theirs in zip(said(), said_in_german(), strict=True):
        assert len(ours) == len(theirs)
        for english, german in zip(ours, theirs, strict=True):
            assert english != german
            assert Counter(FIGURE.findall(english)) == Counter(FIGURE.findall(german)), (english, german)


@pytest.fixture
def german() -> Iterator[None]:
    speak("de", LANGUAGES)
    yield
    speak(ENGLISH, LANGUAGES)


@pytest.mark.usefixtures("german")
@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"name": ""}, "muss mindestens 1 Zeichen haben"),
        ({"name": "x" * 200}, "darf höchstens 120 Zeichen haben"),
        ({"name": 3}, "muss ein Text sein"),
        ({"clad_height_mm": 0.0}, "muss größer als 0 sein"),
        ({"clad_height_mm": 1e6}, "darf höchstens 12000 sein"),
        ({"clad_height_mm": float("inf")}, "muss eine endliche Zahl sein"),
        ({"corners_mm": ()}, "muss mindestens 3 Einträge haben"),
        ({"joints": "askew"}, "muss eines von 'in line', 'staggered' sein"),
        ({"corners_mm": ((0.0, 0.0), (0.0, 9.0), (9.0, 0.0), (9.0, 9.0))}, "corners_mm: Wände kreuzen oder berühren sich"),
    ],
)
def test_what_pydantic_refuses_is_said_in_german(changes: dict[str, object], words: str) -> None:
    room = load_room(ROOT / "assets" / "demo.room.json")
    with pytest.raises(ValidationError) as refused:
        Room(**{**dict(room), "openings": (), "frames": (), **changes})
    assert fault_words(refused.value.errors()[0]).startswith(words)
