"""Panel schedule, take-off, orders and crew plan as one XLSX workbook that goes on reckoning when a person changes a number."""

import io
import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

import xlsxwriter
from xlsxwriter.utility import xl_col_to_name

from core.buying import Purchasing
from core.crew.plan import CrewPlan, Finish
from core.language import marked, tr, trc
from core.room import wall_letter
from core.setout.metric import x_mm, z_mm
from core.setout.result import SetOut
from core.takeoff import DesignParts, Material, TakeOff, in_order, shown_name

_WRITTEN_AT = datetime(2020, 1, 1)
"""The same room gives the same file."""
PANELS, DESIGNS = marked("Panels"), marked("Designs")
"""Sheets that formulas on other sheets read."""
_PANEL_HEADS = (
    marked("mark"),
    marked("design"),
    marked("kind"),
    marked("row"),
    marked("wall"),
    marked("left (mm)"),
    marked("right (mm)"),
    marked("bottom (mm)"),
    marked("top (mm)"),
    marked("mounting points"),
    marked("work (min)"),
)
_DESIGN_HEADS = (marked("design"), marked("kind"), marked("panels"))
_TAKEOFF_HEADS = (
    marked("in panels"),
    marked("starter ring and timber"),
    marked("room"),
    marked("spare (%)"),
    marked("still needed"),
    marked("spares"),
    marked("on hand"),
    marked("to buy"),
)
_ORDER_HEADS = (marked("supplier"), marked("item"), marked("packs"), marked("pieces per pack"), marked("pieces"))
_CREW_HEADS = (marked("row"), marked("work"), marked("panels"), marked("from (working day)"), marked("to (working day)"))


@dataclass(frozen=True)
class _Book:
    book: Any
    head: Any
    whole: Any
    exact: Any
    total: Any

    def sheet(self, name: str, heads: Sequence[str]) -> Any:
        """A sheet with its line of titles, which stays in sight."""
        found = self.book.add_worksheet(tr(name))
        for column, head in enumerate(heads):
            found.write_string(0, column, head, self.head)
        found.freeze_panes(1, 1)
        found.set_column(0, 0, 24)
        found.set_column(1, max(1, len(heads) - 1), 14)
        return found


def workbook(setout: SetOut, parts: DesignParts, takeoff: TakeOff, purchasing: Purchasing, plan: CrewPlan) -> bytes:
    """The workbook's bytes. Counts are pieces, lengths millimetres, times minutes; sums are formulas with their values."""
    buffer = io.BytesIO()
    book = xlsxwriter.Workbook(buffer, {"in_memory": True})
    book.set_properties({"title": setout.room.name, "created": _WRITTEN_AT})
    made = _Book(
        book,
        book.add_format({"bold": True, "bottom": 1, "text_wrap": True, "valign": "top"}),
        book.add_format({"num_format": "#,##0"}),
        book.add_format({"num_format": "#,##0.00"}),
        book.add_format({"bold": True, "top": 1, "num_format": "#,##0.00"}),
    )
    _panels(made, setout)
    items = in_order(takeoff.panels, setout.room.parts)
    _designs(made, setout, parts, takeoff, items)
    _takeoff(made, setout, takeoff, purchasing, items)
    _orders(made, setout, purchasing)
    _crew(made, setout, plan)
    book.close()
    return buffer.getvalue()


def _panels(made: _Book, setout: SetOut) -> None:
    sheet = made.sheet(PANELS, [*map(tr, _PANEL_HEADS)])
    kit = setout.room.kit
    for number, panel in enumerate(setout.panels, start=1):
        face = panel.faces[-1]
        sheet.write_row(number, 0, (panel.mark, panel.design, tr(panel.kind), panel.row + 1, wall_letter(face.wall)))
        ends = (x_mm(setout, face.wall, face.left), x_mm(setout, face.wall, face.right))
        heights = (z_mm(kit, min(f.bottom for f in panel.faces)), z_mm(kit, max(f.top for f in panel.faces)))
        sheet.write_row(number, 5, (*ends, *heights, sum(len(f.mounts) for f in panel.faces), panel.minutes))
    last = len(setout.panels)
    sheet.write_string(last + 1, 0, tr("all panels"), made.total)
    for column, value in (
        (9, sum(len(f.mounts) for p in setout.panels for f in p.faces)),
        (10, sum(p.minutes for p in setout.panels)),
    ):
        letter = xl_col_to_name(column)
        sheet.write_formula(last + 1, column, f"=SUM({letter}2:{letter}{last + 1})", made.total, value)


def _designs(made: _Book, setout: SetOut, parts: DesignParts, takeoff: TakeOff, items: Sequence[Material]) -> None:
    """What one panel of each design takes, and how many there are, counted from the schedule."""
    sheet = made.sheet(DESIGNS, [*map(tr, _DESIGN_HEADS), *map(_title, items)])
    last = len(setout.panels) + 1
    for number, design in enumerate(setout.designs, start=1):
        sheet.write_row(number, 0, (design.name, tr(design.kind)))
        sheet.write_formula(number, 2, f"=COUNTIF({_quoted(PANELS)}!$B$2:$B${last},A{number + 1})", made.whole, design.count)
        for column, item in enumerate(items, start=3):
            whole = takeoff.by_design[design.name][item]
            each = parts.get(design.name, {}).get(item.name, 0) if item.unit == "piece" else 0
            if each * design.count != whole:
                # Screws and packers hang on the wall, not on the design, so the whole is divided among its panels.
                sheet.write_formula(number, column, f"={whole}/C{number + 1}", made.exact, whole / design.count)
            elif each:
                sheet.write_number(number, column, each)


def _title(item: Material) -> str:
    name = shown_name(item, "mm")
    return f"{name}, {tr(item.colour)}" if item.colour else name


def _quoted(sheet: str) -> str:
    """A sheet's name as formulas write it."""
    name = tr(sheet)
    return name if name.isascii() and name.isalnum() else f"'{name}'"


def _takeoff(made: _Book, setout: SetOut, takeoff: TakeOff, purchasing: Purchasing, items: Sequence[Material]) -> None:
    sheet = made.sheet(marked("Take-off"), [tr("item"), trc("column", "unit"), *map(tr, _TAKEOFF_HEADS)])
    every = in_order(takeoff.room, setout.room.parts)
    place = {item: column for column, item in enumerate(items, start=3)}
    designs, of = len(setout.designs) + 1, _quoted(DESIGNS)
    for number, item in enumerate(every, start=1):
        row = number + 1
        sheet.write_row(number, 0, (_title(item), tr(item.unit)))
        if item in place:
            letter = xl_col_to_name(place[item])
            formula = f"=ROUND(SUMPRODUCT({of}!$C$2:$C${designs},{of}!{letter}$2:{letter}${designs}),0)"
            sheet.write_formula(number, 2, formula, made.whole, takeoff.panels[item])
        else:
            sheet.write_number(number, 2, 0, made.whole)
        sheet.write_number(number, 3, takeoff.room[item] - takeoff.panels[item], made.whole)
        sheet.write_formula(number, 4, f"=C{row}+D{row}", made.whole, takeoff.room[item])
        if line := purchasing.lines.get(item):
            percent = setout.room.stock.spare_percent
            sheet.write_row(number, 5, (percent, line.needed))
            sheet.write_formula(
                number, 7, f"=ROUNDUP(G{row}*F{row}/100,0)", made.whole, math.ceil(round(line.needed * percent / 100, 6))
            )
            sheet.write_number(number, 8, line.on_hand, made.whole)
            sheet.write_formula(number, 9, f"=MAX(0,G{row}+H{row}-I{row})", made.whole, line.to_buy)


def _orders(made: _Book, setout: SetOut, purchasing: Purchasing) -> None:
    money = f" ({setout.room.stock.currency})" if setout.room.stock.currency else ""
    costs = (tr("price per pack") + money, tr("cost") + money, tr("mass (kg)"))
    sheet = made.sheet(marked("Orders"), [*map(tr, _ORDER_HEADS), *costs])
    buying = purchasing.buying
    number = 0
    for supplier, lines in [*((o.supplier, o.lines) for o in buying.orders), (tr("no supplier"), buying.unsupplied)]:
        for line in lines:
            number += 1
            row = number + 1
            sheet.write_string(number, 0, supplier)
            sheet.write_string(number, 1, _title(line.material))
            sheet.write_row(number, 2, (line.packs, line.pack))
            sheet.write_formula(number, 4, f"=C{row}*D{row}", made.whole, line.pieces)
            if line.price is None:
                sheet.write_string(number, 5, tr("no price given"))
            else:
                sheet.write_number(number, 5, line.price, made.exact)
                sheet.write_formula(number, 6, f"=C{row}*F{row}", made.exact, line.cost)
            if line.mass_kg is not None:
                sheet.write_number(number, 7, line.mass_kg, made.exact)
    for order in buying.orders:
        number += 1
        sheet.write_string(number, 0, order.supplier)
        sheet.write_string(number, 1, tr("shipping"))
        sheet.write_number(number, 6, order.shipping, made.exact)
    end = number + 1
    sheet.write_string(end, 0, tr("all orders"), made.total)
    masses = sum(line.mass_kg or 0 for o in buying.orders for line in o.lines) + sum(
        line.mass_kg or 0 for line in buying.unsupplied
    )
    for column, value in ((6, buying.total), (7, masses)):
        letter = xl_col_to_name(column)
        sheet.write_formula(end, column, f"=SUM({letter}2:{letter}{end})", made.total, value)


def _crew(made: _Book, setout: SetOut, plan: CrewPlan) -> None:
    sheet = made.sheet(marked("Crew"), [*map(tr, _CREW_HEADS)])
    for number, bar in enumerate(plan.bars, start=1):
        sheet.write_row(number, 0, (bar.row + 1, tr(bar.doing), bar.panels, round(bar.begin + 1, 2), round(bar.end + 1, 2)))
    end = len(plan.bars) + 2
    facts: Mapping[str, str | float] = {
        tr("work left (min)"): round(plan.minutes, 1),
        tr("people"): len(setout.room.crew.people),
        tr("finish"): _finish_words(plan),
        tr("learning model"): tr(setout.room.crew.learning_model),
        tr("learning rate"): setout.room.crew.learning_rate,
    }
    for number, (name, value) in enumerate(facts.items(), start=end):
        sheet.write_string(number, 0, name)
        write: Callable[..., Any] = sheet.write_string if isinstance(value, str) else sheet.write_number
        write(number, 1, value)


def _finish_words(plan: CrewPlan) -> str:
    if plan.finish is None:
        return tr("not planned: no people are named, or nobody may do a kind of work")
    words = plan.finish.on or tr("working day {day}", day=plan.finish.day)
    if not plan.range:
        return words
    return tr(
        "{day} (1 in 10 by {early}, 9 in 10 by {late})", day=words, early=_day(plan.range.early), late=_day(plan.range.late)
    )


def _day(finish: Finish) -> str:
    return finish.on or tr("day {day}", day=finish.day)
