"""Writes the print pack: one PDF with every sheet, plan and elevations as SVG, and the panels as CSV."""

import os
import sys
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path

from PySide6.QtCore import QBuffer, QIODevice
from PySide6.QtGui import QGuiApplication, QPdfWriter

from app.painter import paint_pages
from core.drawing import Sheet
from core.errors import SaveError
from core.export.schedule import panels_csv
from core.export.svg import sheet_svg
from core.files import replace_files
from core.setout.result import SetOut
from core.sheets import sheets_for

Progress = Callable[[int, int, str], bool]
"""Called with steps done, steps in all and what comes next; returning False cancels."""

PDF_NAME = "pack.pdf"
PANELS_CSV = "panels.csv"
_DRAWN_AS_SVG = ("plan", "elevation-")


class _CancelledError(Exception):
    """The person at the progress bar changed their mind."""


def write_pack(setout: SetOut, out_dir: Path, progress: Progress | None = None, *, issued: date | None = None) -> list[Path]:
    """Writes the pack into a folder, made if missing, and returns the files; an empty list if cancelled.

    Everything is drawn and on the disk before the first file is replaced; where one cannot be written, none is. ``issued`` is the
    date in the title blocks, today where None. Raises SaveError where the folder or a file cannot be written.
    """
    _ensure_application()
    sheets = sheets_for(setout, issued=issued or date.today())
    drawn = [sheet for sheet in sheets if sheet.code.startswith(_DRAWN_AS_SVG)]
    total = len(sheets) + len(drawn)
    done = 0

    def step(label: str) -> None:
        nonlocal done
        if progress is not None and not progress(done, total, label):
            raise _CancelledError
        done += 1

    try:
        files = {PDF_NAME: _pdf(setout.room.name, sheets, step)}
        for sheet in drawn:
            step(f"drawing {sheet.code}.svg")
            files[f"{sheet.code}.svg"] = sheet_svg(sheet)
    except _CancelledError:
        return []
    files[PANELS_CSV] = panels_csv(setout).encode()
    return _put(files, out_dir)


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
        raise SaveError(f"{title}: the PDF could not be drawn; nothing was written")
    return bytes(buffer.data().data())


def _pdf(title: str, sheets: Sequence[Sheet], step: Callable[[str], None]) -> bytes:
    stopped: list[_CancelledError] = []

    def before(number: int) -> bool:
        try:
            step(sheets[number].title)
        except _CancelledError as cancelled:
            stopped.append(cancelled)
        return not stopped

    try:
        return pdf_bytes(title, sheets, before)
    except SaveError:
        if stopped:
            raise stopped[0] from None
        raise


def _put(files: dict[str, bytes], out_dir: Path) -> list[Path]:
    try:
        out_dir.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise SaveError(f"{out_dir}: this folder cannot be made ({_reason(error)}); choose another") from None
    try:
        replace_files({out_dir / name: data for name, data in files.items()})
    except OSError as error:
        raise SaveError(
            f"{error.filename}: cannot be written ({_reason(error)}); nothing was changed; choose another folder"
        ) from None
    return [out_dir / name for name in files]


def _reason(error: OSError) -> str:
    return (error.strerror or str(error)).lower()


_own_application: list[QGuiApplication] = []


def _ensure_application() -> None:
    """Fonts need an application; without one, and without a display, an invisible one will do."""
    if QGuiApplication.instance() is not None:
        return
    if sys.platform.startswith("linux") and not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    _own_application.append(QGuiApplication([]))
