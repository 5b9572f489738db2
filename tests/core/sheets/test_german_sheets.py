"""The print pack in German: nothing on it is left in English, cut short, outside its frame or over other text."""

import json
import re
import subprocess
import sys
from functools import cache
from itertools import combinations

import pytest

from core.drawing import Sheet, Text, item_box
from core.files import load_room
from core.room import Room
from core.setout import solve
from core.sheets import sheets_for
from tests.conftest import ROOT

LANGUAGES = ROOT / "assets" / "languages"
MEASURED = re.compile(r"[\d\s.×+]*\s?(mm|min|kg|m|EUR [\d\s.]+|\d+ h \d+ min)?")


def room(units: str) -> Room:
    return load_room(ROOT / "assets" / "demo.room.json").model_copy(update={"display_units": units})


def texts(sheet: Sheet) -> list[Text]:
    return [item for item in sheet.items if isinstance(item, Text) and item.text.strip()]


def faults(sheets: tuple[Sheet, ...]) -> list[str]:
    """Texts cut short, outside their frame or over one another. A list of orders in the contents may have a long name."""
    found = []
    for sheet in sheets:
        placed = [(text.text, item_box(text)) for text in texts(sheet)]
        frame = sheet.paper.frame
        found += [
            f"{sheet.code}: cut: {text}" for text, _ in placed if re.search("[^ ]…$", text) and "Bestellung: " not in text[1:]
        ]
        found += [f"{sheet.code}: outside: {text}" for text, box in placed if not frame.holds(box)]
        pairs = combinations(placed, 2)
        found += [f"{sheet.code}: over: {one}, {other}" for (one, a), (other, b) in pairs if a.overlaps(b, 0.3)]
    return found


@cache
def in_german(units: str) -> tuple[list[str], list[str]]:
    """All texts and all faults, from a process of its own: what is kept of bonds is in the language of its process."""
    code = (
        "import json, sys; from core.language import speak; from tests.core.sheets import test_german_sheets as t; "
        f"speak('de', t.LANGUAGES); sheets = t.sheets_for(t.solve(t.room('{units}'))); "
        "json.dump(([text.text for sheet in sheets for text in t.texts(sheet)], t.faults(sheets)), sys.stdout)"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=True, capture_output=True, text=True)
    said, wrong = json.loads(done.stdout)
    return said, wrong


@pytest.mark.parametrize("units", ["mm", pytest.param("ft-in", marks=pytest.mark.slow)])
def test_german_fits_the_sheets_as_english_does(units: str) -> None:
    assert in_german(units)[1] == []


def test_nothing_but_names_and_figures_is_on_both_packs() -> None:
    """Names are those of the room file, of designs and of marks; a line that a paragraph was broken into is a line of words."""
    setout = solve(room("mm"))
    names = (
        {panel.design for panel in setout.panels} | {panel.mark for panel in setout.panels} | {setout.room.name, "Coursewright"}
    )
    names |= {opening.id for opening in setout.room.openings}
    english = {text.text for sheet in sheets_for(setout) for text in texts(sheet)}
    shared = {text for text in english.intersection(in_german("mm")[0]) if not MEASURED.fullmatch(text)}
    words = {word for text in shared - names for word in re.findall(r"[A-Za-z]{4,}", text)}
    designs = {word for name in names for word in re.findall(r"[A-Za-z]{4,}", name)}
    assert words <= designs
