"""Writes the print pack: one PDF with every sheet, drawings as SVG and DXF, and tables as CSV and XLSX."""

import os
import sys
from collections.abc import Callable, Sequence
from datetime import date
from functools import partial
from itertools import count
from pathlib import Path

from PySide6.QtCore import QBuffer, QIODevice
from PySide6.QtGui import QGuiApplication, QPdfWriter

from app.bookmarks import with_bookmarks
from app.painter import paint_pages
from core.drawing import Sheet
from core.errors import SaveError
from core.export.dxf import elevation_dxf
from core.export.schedule import panels_csv
from core.export.svg import sheet_svg
from core.export.takeoff_csv import kitting_csv, orders_csv, panel_takeoff_csv, takeoff_csv
from core.export.workbook import workbook
from core.files import replace_files
from core.language import tr
from core.laying import FromStock
from core.room import wall_letter
from core.setout.result import SetOut
from core.sheets import DRAWING_STEPS, sheets_for
from core.system_words import system_words
from core.whole_job import WholeJob

Progress = Callable[[int, int, str], bool]
"""Called with hundredths done, 100, and what comes next; returning False cancels."""

PDF_NAME = "pack.pdf"
PANELS_CSV = "panels.csv"
_DRAWN_AS_SVG = ("plan", "elevation-")
_DRAWN, _PAINTED = 60, 90
"""Hundredths done once all sheets are drawn, and once they are in the PDF."""

Step = Callable[[str], None]


class _CancelledError(Exception):
    """The person at the progress bar changed their mind."""


def write_pack(
    setout: SetOut,
    out_dir: Path,
    progress: Progress | None = None,
    *,
    issued: date | None = None,
    stock: FromStock | None = None,
) -> list[Path]:
    """Writes the pack into a folder, made if missing, and returns the files; an empty list if cancelled.

    Everything is drawn and on the disk before the first file is replaced; where one cannot be written, none is. ``issued`` is the
    date in the title blocks, today where None. With ``stock`` the panels still to build are laid from it.
    Raises SaveError where the folder or a file cannot be written.
    """
    _ensure_application()
    job = WholeJob(setout, stock)
    try:
        begins = _stage(progress, 0, _DRAWN, len(DRAWING_STEPS))
        sheets = sheets_for(setout, issued=issued or date.today(), job=job, begins=begins)
        files = {PDF_NAME: _pdf(setout.room.name, sheets, _stage(progress, _DRAWN, _PAINTED, len(sheets)))}
        makers = {**_drawings(job.hung.setout, sheets), **_tables(job)}
        step = _stage(progress, _PAINTED, 100, len(makers))
        for name, make in makers.items():
            step(tr("writing {file}", file=name))
            files[name] = make()
    except _CancelledError:
        return []
    return _put(files, out_dir)


def _stage(progress: Progress | None, begin: int, end: int, steps: int) -> Step:
    """What reports each of so many steps that lie between two hundredths of the whole; raises where the person cancelled."""
    taken = count()

    def step(label: str) -> None:
        if progress is not None and not progress(begin + (end - begin) * next(taken) // max(1, steps), 100, label):
            raise _CancelledError

    return step


def _drawings(setout: SetOut, sheets: Sequence[Sheet]) -> dict[str, Callable[[], bytes]]:
    """Plan and elevations as SVG, and every wall as DXF, by file name; made when called."""
    svg = {f"{sheet.code}.svg": partial(sheet_svg, sheet) for sheet in sheets if sheet.code.startswith(_DRAWN_AS_SVG)}
    dxf = {f"elevation-{wall_letter(one.wall)}.dxf": partial(elevation_dxf, setout, one.wall) for one in setout.walls}
    return {**svg, **dxf}


def _tables(job: WholeJob) -> dict[str, Callable[[], bytes]]:
    """Schedule, take-off, orders and kits as CSV, and all of it as a workbook, by file name; made when called."""
    setout, room = job.hung.setout, job.setout.room
    return {
        PANELS_CSV: lambda: panels_csv(setout).encode(),
        "take-off.csv": lambda: takeoff_csv(room, job.takeoff).encode(),
        "take-off-panels.csv": lambda: panel_takeoff_csv(room, job.takeoff).encode(),
        "orders.csv": lambda: orders_csv(job.purchasing).encode(),
        "kitting.csv": lambda: kitting_csv(job.kits).encode(),
        "workbook.xlsx": lambda: workbook(setout, job.parts, job.takeoff, job.purchasing, job.crew),
    }


def pdf_bytes(title: str, sheets: Sequence[Sheet], before_sheet: Callable[[int], bool] | None = None) -> bytes:
    """The sheets as a PDF in memory; needs a QGuiApplication. Raises SaveError where Qt cannot draw it."""
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(buffer)
    writer.setTitle(title)
    writer.setCreator("Coursewright")
    is_whole = paint_pages(writer, sheets, before_sheet)
    buffer.close()
    if not is_whole:
        raise SaveError(tr("{title}: the PDF could not be drawn; nothing was written", title=title))
    return bytes(buffer.data().data())


def _pdf(title: str, sheets: Sequence[Sheet], step: Step) -> bytes:
    stopped: list[_CancelledError] = []

    def before(number: int) -> bool:
        try:
            step(sheets[number].title)
        except _CancelledError as cancelled:
            stopped.append(cancelled)
        return not stopped

    try:
        return with_bookmarks(pdf_bytes(title, sheets, before), [sheet.title.removeprefix(f"{title}: ") for sheet in sheets])
    except SaveError:
        if stopped:
            raise stopped[0] from None
        raise


def _put(files: dict[str, bytes], out_dir: Path) -> list[Path]:
    try:
        out_dir.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        said = tr("{path}: this folder cannot be made ({reason}); choose another", path=out_dir, reason=_reason(error))
        raise SaveError(said) from None
    try:
        replace_files({out_dir / name: data for name, data in files.items()})
    except OSError as error:
        said = tr(
            "{path}: cannot be written ({reason}); nothing was changed; choose another folder",
            path=error.filename,
            reason=_reason(error),
        )
        raise SaveError(said) from None
    return [out_dir / name for name in files]


def _reason(error: OSError) -> str:
    return system_words(error, in_sentence=True)


_own_application: list[QGuiApplication] = []


def _ensure_application() -> None:
    """Fonts need an application; without one, and without a display, an invisible one will do."""
    if QGuiApplication.instance() is not None:
        return
    if sys.platform.startswith("linux") and not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    _own_application.append(QGuiApplication([]))
