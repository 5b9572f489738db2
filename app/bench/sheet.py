"""The printed sheet of one panel only, numbered as in the pack. It does without Qt: a process beside the window makes it."""

from datetime import date

from core.drawing import Sheet
from core.laying import FromStock
from core.setout.result import SetOut
from core.sheets import sheets_for
from core.sheets.colour_sheet import colour_groups
from core.sheets.draft import room_number
from core.sheets.panel_sheet import sheet_code
from core.whole_job import WholeJob

_Key = tuple[str, bool, date]
_kept: dict[_Key, tuple[WholeJob, tuple[Sheet, ...]]] = {}
"""The pack made last: whoever looks at one sheet soon looks at another."""


def sheets_of_panel(setout: SetOut, mark: str, stock: FromStock | None = None, issued: date | None = None) -> tuple[Sheet, ...]:
    """The pages of the sheet by which a panel is built; raises KeyError where there is none of that mark."""
    job, sheets = _pack(setout, stock, issued or date.today())
    design = next((panel.design for panel in job.hung.setout.panels if panel.mark == mark), None)
    if design is None:
        raise KeyError(mark)
    code = next((group.code for group in colour_groups(job.hung.setout, job.finishes) if mark in group.marks), None)
    if code is None:
        code = sheet_code(stock.names.get(mark, design) if stock else design)
    mine = tuple(sheet for sheet in sheets if _is_of(sheet, code))
    # Of a panel that is built already the stock's pack has no sheet.
    return mine or sheets_of_panel(setout, mark, None, issued)


def _is_of(sheet: Sheet, code: str) -> bool:
    rest = sheet.code.removeprefix(code)
    return sheet.code.startswith(code) and (not rest or (rest[0] == "-" and rest[1:].isdigit()))


def _pack(setout: SetOut, stock: FromStock | None, issued: date) -> tuple[WholeJob, tuple[Sheet, ...]]:
    key = room_number(setout.room), stock is not None, issued
    if key not in _kept:
        _kept.clear()
        job = WholeJob(setout, stock)
        _kept[key] = job, sheets_for(setout, issued=issued, job=job)
    return _kept[key]
