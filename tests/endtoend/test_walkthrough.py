"""The guide's walk, from a start with nothing remembered to a printed pack, by the mouse and keyboard of an X server alone."""

import csv
import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from core.colouring import BandRule, WallRule
from core.export.setout_json import setout_json
from core.files import load_room
from core.room import Room
from core.setout import solve
from core.sheets import sheets_for
from core.whole_job import WholeJob
from tests.conftest import ROOT
from tests.endtoend.walkthrough.__main__ import walk
from tests.endtoend.walkthrough.astray import NOT_A_FOLDER
from tests.endtoend.walkthrough.guide import FILE, PACK, PRICES

pytestmark = pytest.mark.xvfb
PACKED = {
    *(f"elevation-{letter}.{kind}" for letter in "ABCD" for kind in ("dxf", "svg")),
    *("plan.svg", "pack.pdf", "workbook.xlsx"),
    *(f"{table}.csv" for table in ("panels", "kitting", "orders", "take-off", "take-off-panels")),
}


@pytest.fixture(scope="module")
def walked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The home folder after the walk, of which the program said nothing on standard error."""
    base = tmp_path_factory.mktemp("walk")
    status, errors = walk(base)
    assert (status, errors) == (0, "")
    return base / "home"


@pytest.fixture(scope="module")
def room(walked: Path) -> Room:
    return load_room(walked / FILE)


def by_command_line(path: Path) -> dict[str, Any]:
    command = [sys.executable, "-m", "app", "setout", str(path), "--json"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    told: dict[str, Any] = json.loads(done.stdout)
    return told


def test_gone_astray_nothing_is_written_and_nothing_breaks(tmp_path: Path) -> None:
    assert walk(tmp_path, name="astray") == (0, "")
    home = tmp_path / "home"
    assert {path.name for path in home.iterdir() if not path.name.startswith(".")} == {NOT_A_FOLDER}
    files = [path for path in home.rglob("*") if path.is_file()]
    assert not [path for path in files if b"coursewright-room" in path.read_bytes()]


def test_the_room_is_the_guides_den(room: Room) -> None:
    assert (room.name, room.clad_height_mm) == ("Reading den", 2130)
    assert [room.wall_length_mm(wall) for wall in range(room.wall_count)] == pytest.approx([2440, 3048, 2440, 3048])
    places = {one.id: (one.wall, one.left_mm, one.sill_mm, one.width_mm, one.height_mm) for one in room.openings}
    assert places == {
        "door": (3, 1068, 0, 912, 1980),
        "window": (1, 1068, 912, 912, 912),
        "outlet-1": (0, 672, 304, 60, 100),
    }


def test_what_was_tried_and_taken_back_left_nothing(room: Room) -> None:
    """Wall C's studs and the pinned panel."""
    assert [room.frame(wall).mode for wall in range(4)] == ["to_build"] * 4
    assert not room.pins


def test_colours_stock_and_crew_are_as_typed(room: Room) -> None:
    assert room.colouring.rest == "sand"
    wall, band = room.colouring.rules
    assert isinstance(band, BandRule)
    assert isinstance(wall, WallRule)
    assert (band.colour, band.from_mm, band.to_mm, wall.colour, wall.wall) == ("umber", 0, 304, "moss", 3)
    (supplier,) = room.stock.suppliers
    assert supplier.name == "Merchant"
    assert [(one.part, str(one.pack), f"{one.price:g}") for one in supplier.offers] == list(PRICES)
    assert [(one.part, one.colour, one.count) for one in room.stock.received] == [("brick 2x1", "sand", 120)]
    assert (room.stock.budget, room.stock.spare_percent) == (9000, 5)
    assert [(one.name, one.hours_per_day) for one in room.crew.people] == [("Hazel", 4), ("Rowan", 6)]
    assert room.crew.starts_on == "2027-06-07"


def test_the_saved_room_is_worked_out_alike_by_a_fresh_process(walked: Path, room: Room) -> None:
    assert json.loads(setout_json(solve(room))) == by_command_line(walked / FILE)


def test_the_pack_is_that_of_the_saved_room(walked: Path) -> None:
    """Its set-out as ``setout --json`` has it: what the pack's tables and sheets say of the panels."""
    pack, told = walked / PACK, by_command_line(walked / FILE)
    assert {path.name for path in pack.iterdir()} == PACKED
    rows = list(csv.DictReader((pack / "panels.csv").read_text(encoding="utf-8-sig").splitlines()))
    # The table names a design by its moved holes as well, as the benches do.
    assert [(row["mark"], row["design"].split(", holes as ")[0], row["kind"]) for row in rows] == [
        (panel["mark"], panel["design"], panel["kind"]) for panel in told["panels"]
    ]


def test_the_pack_can_be_read_page_by_page(walked: Path, room: Room) -> None:
    setout = solve(room)
    sheets = sheets_for(setout, job=WholeJob(setout))
    pages = PdfReader(walked / PACK / "pack.pdf").pages
    assert len(pages) == len(sheets)
    for page, sheet in zip(pages, sheets, strict=True):
        assert float(page.mediabox.width) == pytest.approx(sheet.paper.width_mm / 25.4 * 72, abs=1)
        assert float(page.mediabox.height) == pytest.approx(sheet.paper.height_mm / 25.4 * 72, abs=1)
    assert "Reading den" in " ".join(pages[0].extract_text().split())
