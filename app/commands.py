"""The commands themselves, and the window; ``cli`` brings this in only once it knows that one of them is to run."""

import argparse
import os
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, cast

from app.assets import asset
from app.second_core import meanwhile, steps_meanwhile
from core.errors import CoursewrightError, RoomError, SaveError
from core.files import load_room, replace_file, save_room
from core.language import tr
from core.places import place_words
from core.room import Units
from core.system_words import system_words
from core.units import in_units

if TYPE_CHECKING:
    from core.bond.solving import KnownBonds
    from core.laying import FromStock
    from core.setout.result import Check, SetOut
    from core.whole_job import WholeJob

DEMO_ROOM = "demo.room.json"

EXIT_CHECKS_FAILED = 1


def open_window(path: Path | None) -> int:
    if path is not None:
        load_room(path)
    needs_screen = sys.platform.startswith("linux") and "QT_QPA_PLATFORM" not in os.environ
    if needs_screen and not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
        raise CoursewrightError(tr("found no screen to open a window on; every command works without one"))
    with _qt_needed():
        from app.main import run_window
    return run_window(path)


@contextmanager
def _qt_needed() -> Iterator[None]:
    """Qt comes in only where a command needs it; a missing system library is told apart from a fault of ours."""
    try:
        yield
    except ImportError as error:
        if error.name is not None and not error.name.startswith(("PySide6", "shiboken6")):
            raise
        said = tr("Qt cannot be loaded ({reason}); run .ci/setup, which installs the libraries it needs", reason=error)
        raise CoursewrightError(said) from None


def _setout(options: argparse.Namespace) -> int:
    if options.json:
        from core.export.setout_json import setout_json

        sys.stdout.write(setout_json(_solve(options.room)))
        return 0
    ahead = steps_meanwhile(lambda: _solved_and_bonded(options.room))
    # Takes as long to bring in as a third of the set-out takes.
    from core.bond.each import bonding
    from core.bond.solving import remember
    from core.export.job_summary import job_summary_text
    from core.export.schedule import schedule_text

    job = _whole(cast("SetOut", next(ahead)))
    scheduled = schedule_text(job.hung.setout)
    crew = replace(job.crew, simulated=meanwhile(job.crew.simulated))
    # What hangs with other holes than its design has; the copy bonds the designs.
    bonding(job.hung.setout, (variant.name for variant in job.hung.variants))
    remember(cast("KnownBonds", next(ahead)))
    print(f"{scheduled}\n{job_summary_text(job, crew)}")
    return 0


def _solved_and_bonded(path: Path) -> "Iterator[SetOut | KnownBonds]":
    """The set-out, then the bonds of its designs: of most panels these are also the bonds as they hang, with some holes moved."""
    setout = _solve(path)
    yield setout
    from core.bond.each import bonding
    from core.bond.solving import known_bonds

    bonding(setout)
    yield known_bonds()


def _check(options: argparse.Namespace) -> int:
    setout = _solve(options.room)
    checks = _whole(setout).checks
    _print_checks(checks, setout.room.display_units)
    return EXIT_CHECKS_FAILED if any(check.level == "error" for check in checks) else 0


def _sheets(options: argparse.Namespace) -> int:
    setout = _solve(options.room)
    stock = None
    if options.from_stock:
        from core.laying import bond_from_stock

        stock = bond_from_stock(setout)
    folder = _folder(options.out)
    for path in _write_pack(setout, folder, stock):
        print(path)
    if stock is not None:
        print(stock.verdict, file=sys.stderr)
    return EXIT_CHECKS_FAILED if stock and stock.shortage else 0


def _stock(options: argparse.Namespace) -> int:
    # Brings solvers along.
    from core.export.stock_report import stock_json, stock_text
    from core.laying import bond_from_stock

    found = bond_from_stock(_solve(options.room))
    sys.stdout.write(stock_json(found) if options.json else stock_text(found))
    return EXIT_CHECKS_FAILED if found.shortage else 0


def _advice(options: argparse.Namespace) -> int:
    # Nothing else needs it.
    from core.advice.report import report_lines

    for line in report_lines(_solve(options.room)):
        print(line, flush=True)
    return 0


def _demo(options: argparse.Namespace) -> int:
    from core.export.job_summary import job_summary_text
    from core.export.schedule import summary_text
    from core.export.setout_json import setout_json

    folder = _folder(options.out)
    setout = _solve(asset(DEMO_ROOM))
    room = setout.room
    job = _whole(setout)
    print(f"{room.name}\n\n{summary_text(job.hung.setout)}\n\n{job_summary_text(job)}\n")
    _print_checks(job.checks, room.display_units)
    save_room(room, folder / DEMO_ROOM)
    _write_text(folder / "setout.json", setout_json(setout))
    _write_pack(setout, folder)
    said = tr(
        "The sheets, schedules and room file are in {folder}; open the room itself with: coursewright {room}",
        folder=folder,
        room=folder / DEMO_ROOM,
    )
    print(f"\n{said}")
    return 0


def _desktop_entry(options: argparse.Namespace) -> int:
    from app.desktop_entry import data_folder, remove_entry, write_entry

    done = remove_entry(data_folder()) if options.remove else write_entry(data_folder())
    for path in done:
        print(tr("removed {path}", path=path) if options.remove else path)
    return 0


def _whole(setout: "SetOut") -> "WholeJob":
    # Brings solvers along that the set-out as JSON, which other programs wait for, has no use for.
    from core.whole_job import WholeJob

    return WholeJob(setout)


def _solve(path: Path) -> "SetOut":
    room = load_room(path)
    # Comes in only now, for what does not solve can then go on without it.
    from core.setout import solve

    try:
        return solve(room)
    except RoomError as error:
        raise RoomError(f"{path}: {error}") from None


def _print_checks(checks: "Sequence[Check]", units: Units) -> None:
    for check in checks:
        print(f"{tr(check.level)}: {place_words(check.where)}: {in_units(check.text, units)} [{check.code}]")
    errors, warnings, notes = (sum(check.level == level for check in checks) for level in ("error", "warning", "note"))
    print(tr("errors: {errors}, warnings: {warnings}, notes: {notes}", errors=errors, warnings=warnings, notes=notes))


def _write_pack(setout: "SetOut", folder: Path, stock: "FromStock | None" = None) -> list[Path]:
    with _qt_needed():
        from app.pack import write_pack
    if not sys.stderr.isatty():
        return write_pack(setout, folder, stock=stock)
    try:
        return write_pack(setout, folder, _show_progress, stock=stock)
    finally:
        print(file=sys.stderr)


def _show_progress(done: int, total: int, what: str) -> bool:
    print(f"\r{100 * done // total:3} % {what:<60.60}", end="", file=sys.stderr, flush=True)
    return True


def _folder(path: Path) -> Path:
    try:
        path.mkdir(parents=True, exist_ok=True)
    except (OSError, ValueError) as error:
        raise _cannot_write(path, error) from None
    return path


def _write_text(path: Path, text: str) -> Path:
    try:
        replace_file(path, text.encode())
    except OSError as error:
        raise _cannot_write(path, error) from None
    return path


def _cannot_write(path: Path, error: Exception) -> SaveError:
    reason = system_words(error, in_sentence=True)
    return SaveError(tr("{path}: cannot be written ({reason}); choose another folder with --out", path=path, reason=reason))


RUN: Mapping[str, Callable[[argparse.Namespace], int]] = {
    "setout": _setout,
    "sheets": _sheets,
    "check": _check,
    "stock": _stock,
    "advice": _advice,
    "desktop-entry": _desktop_entry,
    "demo": _demo,
}
"""Runs a command with the arguments given; the exit status."""
