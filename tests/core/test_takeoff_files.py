"""Take-off, orders and elevations as other programs read them."""

import csv
import io
from collections import Counter
from functools import cache
from pathlib import Path

import ezdxf
import openpyxl
import pytest

from core.buying import Purchasing, purchasing
from core.crew.kitting import kit_lists
from core.crew.plan import CrewPlan, crew_plan
from core.edits.buying import set_supplier
from core.edits.crew import set_person
from core.export.dxf import LAYERS, elevation_dxf
from core.export.takeoff_csv import kitting_csv, orders_csv, panel_takeoff_csv, safe_text, takeoff_csv
from core.export.workbook import workbook
from core.files import load_room
from core.progress import Progress
from core.purchase import Offer, Purchase, Supplier
from core.setout import solve
from core.setout.result import SetOut
from core.takeoff import TakeOff, take_off
from core.workforce import Person, Workforce
from tests.conftest import ROOT
from tests.core.takeoff.guessed import guessed_parts


@cache
def everything() -> tuple[SetOut, TakeOff, Purchasing, CrewPlan]:
    demo = load_room(ROOT / "assets" / "demo.room.json")
    room = demo.model_copy(update={"stock": Purchase(), "crew": Workforce(), "progress": Progress()})
    seller = Supplier(name="=seller", offers=(Offer(part="brick 2x4", pack=600, price=41.5),), shipping=12.0)
    setout = solve(set_person(set_supplier(room, seller), Person(name="one")))
    takeoff = take_off(setout, guessed_parts(setout))
    return setout, takeoff, purchasing(setout, takeoff), crew_plan(setout)


@cache
def book() -> bytes:
    setout, takeoff, bought, plan = everything()
    return workbook(setout, guessed_parts(setout), takeoff, bought, plan)


def values(sheet: str) -> list[list[object]]:
    """The cells as a program that does not reckon reads them."""
    loaded = openpyxl.load_workbook(io.BytesIO(book()), data_only=True)
    return [[cell.value for cell in row] for row in loaded[sheet].iter_rows()]


def formulas(sheet: str) -> list[list[object]]:
    return [[cell.value for cell in row] for row in openpyxl.load_workbook(io.BytesIO(book()))[sheet].iter_rows()]


def test_the_workbook_opens_with_its_sheets_in_another_library() -> None:
    """Reopened with openpyxl, which shares no code with the library that wrote it."""
    assert openpyxl.load_workbook(io.BytesIO(book())).sheetnames == ["Panels", "Designs", "Take-off", "Orders", "Crew"]


def test_every_sum_is_a_formula_that_carries_its_value() -> None:
    _, takeoff, bought, _ = everything()
    texts, found = formulas("Take-off"), values("Take-off")
    rooms = {row[0]: row[4] for row in found[1:]}
    assert rooms == {item.name: number for item, number in takeoff.room.items() if number}
    for text, row in zip(texts[1:], found[1:], strict=True):
        assert str(text[4]).startswith("=C")
        assert isinstance(row[2], int | float)
        assert row[9] == next(line.to_buy for item, line in bought.lines.items() if item.name == row[0])


def test_the_designs_sheet_multiplies_out_to_the_take_off() -> None:
    """Panels of a design times parts of one, summed by hand over the sheet's own cells."""
    _, takeoff, _, _ = everything()
    heads, *rows = values("Designs")
    for column, name in enumerate(heads[3:], start=3):
        total = sum(float(row[2] or 0) * float(row[column] or 0) for row in rows)  # type: ignore[arg-type]
        assert round(total) == next(number for item, number in takeoff.panels.items() if item.name == name)


def test_designs_are_counted_from_the_schedule() -> None:
    setout, _, _, _ = everything()
    marks = Counter(row[1] for row in values("Panels")[1:-1])
    counts = {row[0]: row[2] for row in values("Designs")[1:]}
    assert counts == dict(marks)
    last = len(setout.panels) + 1
    assert all(str(row[2]).startswith(f"=COUNTIF(Panels!$B$2:$B${last},") for row in formulas("Designs")[1:])


def test_orders_say_where_no_price_is_given_and_add_up() -> None:
    _, _, bought, _ = everything()
    rows = values("Orders")[1:]
    assert {row[5] for row in rows if row[0] == "no supplier"} == {"no price given"}
    costs = [float(row[6]) for row in rows[:-1] if isinstance(row[6], int | float)]
    assert rows[-1][6] == pytest.approx(sum(costs)) == pytest.approx(bought.buying.total)
    assert rows[0][0] == "=seller"
    assert openpyxl.load_workbook(io.BytesIO(book()))["Orders"]["A2"].data_type == "s"


def test_lists_as_csv_add_up_to_the_room() -> None:
    setout, takeoff, bought, _ = everything()
    lines = list(csv.DictReader(io.StringIO(takeoff_csv(setout.room, takeoff))))
    for line in lines:
        walls = sum(int(value) for name, value in line.items() if name.startswith("wall_"))
        rows = sum(int(value) for name, value in line.items() if name.startswith("row_"))
        assert int(line["room"]) == walls == rows + int(line["starter_ring"])
    panels = Counter[str]()
    for line in csv.DictReader(io.StringIO(panel_takeoff_csv(setout.room, takeoff))):
        panels[line["item"]] += int(line["count"])
    assert panels == {item.name: number for item, number in takeoff.panels.items()}
    orders = list(csv.DictReader(io.StringIO(orders_csv(bought))))
    assert {line["price_per_pack"] for line in orders} == {"41.5", "no price given"}
    kits = list(csv.DictReader(io.StringIO(kitting_csv(kit_lists(setout, take_off(setout, guessed_parts(setout)).laid)))))
    bricks = sum(int(line["count"]) for line in kits if line["item"] == "brick 2x4")
    assert bricks == next(number for item, number in takeoff.panels.items() if item.name == "brick 2x4")


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@x"])
def test_no_text_in_a_csv_begins_like_a_formula(text: str) -> None:
    assert safe_text(text) == f"'{text}"
    assert safe_text("plain") == "plain"


@pytest.mark.parametrize("wall", range(4))
def test_an_elevation_as_dxf_is_sound_and_true_to_size(wall: int, tmp_path: Path) -> None:
    """Audited by ezdxf without errors; panels' polylines have the panels' corners in millimetres."""
    setout, _, _, _ = everything()
    path = tmp_path / "wall.dxf"
    path.write_bytes(elevation_dxf(setout, wall))
    drawing = ezdxf.readfile(path)  # type: ignore[attr-defined]
    audit = drawing.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    assert drawing.header["$INSUNITS"] == 4
    space = drawing.modelspace()
    assert {entity.dxf.layer for entity in space} <= set(LAYERS)
    faces = [face for panel in setout.panels for face in panel.faces if face.wall == wall]
    outlines = space.query('LWPOLYLINE[layer=="PANELS"]')
    assert len(outlines) == sum(1 + len(face.holes) for face in faces)
    assert len(space.query('CIRCLE[layer=="MOUNTING POINTS"]')) == sum(len(face.mounts) for face in faces)
    rights = max(x for outline in outlines for x, *_ in outline.get_points())
    assert rights == pytest.approx(3044.0)
