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
from core.crew.plan import CrewPlan
from core.room import wall_letter
from core.setout.metric import x_mm, z_mm
from core.setout.result import SetOut
from core.takeoff import DesignParts, Material, TakeOff, in_order

_WRITTEN_AT = datetime(2020, 1, 1)
"""The same room gives the same file."""


@dataclass(frozen=True)
class _Book:
    book: Any
    head: Any
    whole: Any
    exact: Any
    total: Any

    def sheet(self, name: str, heads: Sequence[str]) -> Any:
        """A sheet with its line of titles, which stays in sight."""
        found = self.book.add_worksheet(name)
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
    heads = (
        "mark",
        "design",
        "kind",
        "row",
        "wall",
        "left (mm)",
        "right (mm)",
        "bottom (mm)",
        "top (mm)",
        "mounting points",
        "work (min)",
    )
    sheet = made.sheet("Panels", heads)
    kit = setout.room.kit
    for number, panel in enumerate(setout.panels, start=1):
        face = panel.faces[-1]
        sheet.write_row(number, 0, (panel.mark, panel.design, panel.kind, panel.row + 1, wall_letter(face.wall)))
        ends = (x_mm(setout, face.wall, face.left), x_mm(setout, face.wall, face.right))
        heights = (z_mm(kit, min(f.bottom for f in panel.faces)), z_mm(kit, max(f.top for f in panel.faces)))
        sheet.write_row(number, 5, (*ends, *heights, sum(len(f.mounts) for f in panel.faces), panel.minutes))
    last = len(setout.panels)
    sheet.write_string(last + 1, 0, "all panels", made.total)
    for column, value in (
        (9, sum(len(f.mounts) for p in setout.panels for f in p.faces)),
        (10, sum(p.minutes for p in setout.panels)),
    ):
        letter = xl_col_to_name(column)
        sheet.write_formula(last + 1, column, f"=SUM({letter}2:{letter}{last + 1})", made.total, value)


def _designs(made: _Book, setout: SetOut, parts: DesignParts, takeoff: TakeOff, items: Sequence[Material]) -> None:
    """What one panel of each design takes, and how many there are, counted from the schedule."""
    sheet = made.sheet("Designs", ("design", "kind", "panels", *(_title(item) for item in items)))
    last = len(setout.panels) + 1
    for number, design in enumerate(setout.designs, start=1):
        sheet.write_row(number, 0, (design.name, design.kind))
        sheet.write_formula(number, 2, f"=COUNTIF(Panels!$B$2:$B${last},A{number + 1})", made.whole, design.count)
        for column, item in enumerate(items, start=3):
            whole = takeoff.by_design[design.name][item]
            each = parts.get(design.name, {}).get(item.name, 0) if item.unit == "piece" else 0
            if each * design.count != whole:
                # Screws and packers hang on the wall, not on the design, so the whole is divided among its panels.
                sheet.write_formula(number, column, f"={whole}/C{number + 1}", made.exact, whole / design.count)
            elif each:
                sheet.write_number(number, column, each)


def _title(item: Material) -> str:
    return f"{item.name}{f', {item.colour}' if item.colour else ''}"


def _takeoff(made: _Book, setout: SetOut, takeoff: TakeOff, purchasing: Purchasing, items: Sequence[Material]) -> None:
    heads = (
        "item",
        "unit",
        "in panels",
        "starter ring and timber",
        "room",
        "spare (%)",
        "still needed",
        "spares",
        "on hand",
        "to buy",
    )
    sheet = made.sheet("Take-off", heads)
    every = in_order(takeoff.room, setout.room.parts)
    place = {item: column for column, item in enumerate(items, start=3)}
    designs = len(setout.designs) + 1
    for number, item in enumerate(every, start=1):
        row = number + 1
        sheet.write_row(number, 0, (_title(item), item.unit))
        if item in place:
            letter = xl_col_to_name(place[item])
            formula = f"=ROUND(SUMPRODUCT(Designs!$C$2:$C${designs},Designs!{letter}$2:{letter}${designs}),0)"
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
    heads = ("supplier", "item", "packs", "pieces per pack", "pieces", f"price per pack{money}", f"cost{money}", "mass (kg)")
    sheet = made.sheet("Orders", heads)
    buying = purchasing.buying
    number = 0
    for supplier, lines in [*((o.supplier, o.lines) for o in buying.orders), ("no supplier", buying.unsupplied)]:
        for line in lines:
            number += 1
            row = number + 1
            sheet.write_string(number, 0, supplier)
            sheet.write_string(number, 1, _title(line.material))
            sheet.write_row(number, 2, (line.packs, line.pack))
            sheet.write_formula(number, 4, f"=C{row}*D{row}", made.whole, line.pieces)
            if line.price is None:
                sheet.write_string(number, 5, "no price given")
            else:
                sheet.write_number(number, 5, line.price, made.exact)
                sheet.write_formula(number, 6, f"=C{row}*F{row}", made.exact, line.cost)
            if line.mass_kg is not None:
                sheet.write_number(number, 7, line.mass_kg, made.exact)
    for order in buying.orders:
        number += 1
        sheet.write_string(number, 0, order.supplier)
        sheet.write_string(number, 1, "shipping")
        sheet.write_number(number, 6, order.shipping, made.exact)
    end = number + 1
    sheet.write_string(end, 0, "all orders", made.total)
    masses = sum(line.mass_kg or 0 for o in buying.orders for line in o.lines) + sum(
        line.mass_kg or 0 for line in buying.unsupplied
    )
    for column, value in ((6, buying.total), (7, masses)):
        letter = xl_col_to_name(column)
        sheet.write_formula(end, column, f"=SUM({letter}2:{letter}{end})", made.total, value)


def _crew(made: _Book, setout: SetOut, plan: CrewPlan) -> None:
    sheet = made.sheet("Crew", ("row", "work", "panels", "from (working day)", "to (working day)"))
    for number, bar in enumerate(plan.bars, start=1):
        sheet.write_row(number, 0, (bar.row + 1, bar.doing, bar.panels, round(bar.begin + 1, 2), round(bar.end + 1, 2)))
    end = len(plan.bars) + 2
    facts: Mapping[str, str | float] = {
        "work left (min)": round(plan.minutes, 1),
        "people": len(setout.room.crew.people),
        "finish": _finish_words(plan),
        "learning model": setout.room.crew.learning_model,
        "learning rate": setout.room.crew.learning_rate,
    }
    for number, (name, value) in enumerate(facts.items(), start=end):
        sheet.write_string(number, 0, name)
        write: Callable[..., Any] = sheet.write_string if isinstance(value, str) else sheet.write_number
        write(number, 1, value)


def _finish_words(plan: CrewPlan) -> str:
    if plan.finish is None:
        return "not planned: no people are named, or nobody may do a kind of work"
    words = plan.finish.on or f"working day {plan.finish.day}"
    if plan.range:
        early, late = plan.range.early, plan.range.late
        words += f" (1 in 10 by {early.on or f'day {early.day}'}, 9 in 10 by {late.on or f'day {late.day}'})"
    return words
