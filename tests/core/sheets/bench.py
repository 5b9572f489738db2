"""Rooms whose panel sheets the tests here look at, and a bond made by hand that no solver would find."""

import re
from functools import cache
from pathlib import Path

from core.bond import bonds_for
from core.bond.result import Bond, Laid, Layer
from core.drawing import Sheet, Text
from core.files import load_room
from core.frame import as_hung
from core.kit import Kit
from core.room import Room
from core.setout import solve
from core.setout.result import SetOut
from core.sheets import sheets_for
from core.sheets.panel_sheet import sheet_code

ROOT = Path(__file__).resolve().parents[3]
NAMES = ("demo", "den", "tall kit in feet")


@cache
def setout(name: str) -> SetOut:
    """A solved room: flat and corner panels, shaped ones, outside corners, panels too large for one sheet."""
    if name == "den":
        return solve(load_room(ROOT / "tests" / "rooms" / "reading-den.room.json"))
    demo = load_room(ROOT / "assets" / "demo.room.json")
    if name == "demo":
        return solve(demo)
    kit = Kit(widths_pitches=(38, 76), legs_pitches=(38, 76), full_courses=60, half_courses=30)
    corners = ((0.0, 0.0), (0.0, 2400.0), (2400.0, 2400.0), (2400.0, 0.0))
    return solve(Room(name="Tall", corners_mm=corners, clad_height_mm=1200.0, kit=kit, display_units="ft-in"))


@cache
def hung(name: str) -> SetOut:
    """The room as it is hung: every design with a sheet, those with moved holes among them."""
    return as_hung(setout(name)).setout


@cache
def bonds(name: str) -> dict[str, Bond]:
    return dict(bonds_for(hung(name)))


@cache
def sheets(name: str) -> tuple[Sheet, ...]:
    return sheets_for(setout(name))


def bench_sheets(name: str) -> list[Sheet]:
    """The sheets a bench gets: panel sheets, story poles, hole templates."""
    return [sheet for sheet in sheets(name) if sheet.code.startswith(("panel-", "story-pole-", "hole-template-"))]


def design_texts(name: str, design: str) -> list[str]:
    """Every text on all sheets of one design."""
    code = re.compile(re.escape(sheet_code(design)) + r"(-\d+)?")
    mine = [sheet for sheet in sheets(name) if code.fullmatch(sheet.code)]
    own = [sheet for sheet in mine if f": {design}" in sheet.title]
    return [item.text for sheet in own for item in sheet.items if isinstance(item, Text)]


def two_faced() -> Bond:
    """Eight pitches of one course whose room side and frame side differ: pin-hole bricks of two lengths back to back."""
    whole = Laid("brick 2x4", 0, 0, 4)
    front = (Laid("pin-hole brick 1x2", 0, 4, 2, 0), Laid("pin-hole brick 1x2", 0, 6, 2, 0))
    back = (Laid("plug", 0, 4, 1, 1), Laid("pin-hole brick 1x2", 0, 5, 2, 1), Laid("plug", 0, 7, 1, 1))
    return Bond("two-faced", (8,), (Layer("course", 0, 3, (whole, *front, *back)),), 6, (), 2)
