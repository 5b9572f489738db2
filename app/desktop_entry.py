"""An entry in the desktop's menu, after freedesktop.org's Desktop Entry Specification 1.4, and the icon it shows.

Both go where a person's own entries are looked for (XDG Base Directory Specification), so no root is needed.
"""

import os
import shutil
import sys
from collections.abc import Sequence
from pathlib import Path

from app.assets import asset
from core.errors import SaveError
from core.files import replace_file
from core.language import ENGLISH, marked, spoken, tr
from core.system_words import system_words

NAME = "coursewright"
ICON = f"{NAME}.svg"
MUST_QUOTE = frozenset(" \t\n\"'\\><~|&;$*?#()`")
"""Characters that the specification reserves: an argument with one of them is quoted."""
ESCAPED = frozenset('"`$\\')


def write_entry(data_folder: Path) -> tuple[Path, Path]:
    """Write entry and icon; returns where they are. Raises SaveError that says which could not be written."""
    entry, icon = places(data_folder)
    _write(icon, asset(ICON).read_bytes())
    _write(entry, entry_text(program()).encode())
    return entry, icon


def remove_entry(data_folder: Path) -> tuple[Path, ...]:
    """Remove both again, as far as they are there; returns which were. Raises SaveError that says which stays."""
    gone = []
    for path in places(data_folder):
        try:
            if path.exists():
                path.unlink()
                gone.append(path)
        except OSError as error:
            raise SaveError(tr("{path} cannot be removed: {reason}", path=path, reason=system_words(error))) from None
    return tuple(gone)


def places(data_folder: Path) -> tuple[Path, Path]:
    """Where the entry and its icon belong below a folder of data."""
    return data_folder / "applications" / f"{NAME}.desktop", data_folder / "icons" / "hicolor" / "scalable" / "apps" / ICON


def data_folder() -> Path:
    """The person's own folder of data: XDG_DATA_HOME where it is an absolute path, as its specification asks."""
    said = os.environ.get("XDG_DATA_HOME", "")
    return Path(said) if said and Path(said).is_absolute() else Path.home() / ".local" / "share"


def program() -> tuple[str, ...]:
    """How this very program is started from anywhere."""
    if getattr(sys, "frozen", False):
        return (sys.executable,)
    beside = Path(sys.executable).with_name(NAME)
    if os.access(beside, os.X_OK):
        return (str(beside),)
    found = shutil.which(NAME)
    return (str(Path(found).absolute()),) if found else (sys.executable, "-m", "app")


def entry_text(command: Sequence[str]) -> str:
    """The entry that starts a command, with the file that was dropped on it."""
    return "\n".join(
        (
            "[Desktop Entry]",
            "Type=Application",
            "Version=1.4",
            "Name=Coursewright",
            *_shown("GenericName", marked("Panel planner")),
            *_shown("Comment", marked("Plan a room lined with screw-on panels built from small interlocking bricks")),
            f"Exec={' '.join(quoted(part) for part in command)} %f",
            f"Icon={NAME}",
            "Terminal=false",
            "Categories=Graphics;Engineering;",
            *_shown("Keywords", marked("panel;lining;brick;set-out;take-off;")),
            f"StartupWMClass={NAME}",
            "",
        )
    )


def _shown(key: str, words: str) -> tuple[str, ...]:
    """What a desktop shows or searches: in English for all, and besides in the language spoken while the entry is written."""
    english = f"{key}={words}"
    return (english,) if spoken() == ENGLISH else (english, f"{key}[{spoken()}]={tr(words)}")


def quoted(argument: str) -> str:
    """An argument of ``Exec``: quoted where it must be, with what is special in quotes and in a value escaped."""
    written = argument.replace("%", "%%")
    if not MUST_QUOTE & set(written):
        return written
    within = "".join(f"\\{sign}" if sign in ESCAPED else sign for sign in written)
    return '"' + within.replace("\\", "\\\\") + '"'


def _write(path: Path, data: bytes) -> None:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        replace_file(path, data)
    except OSError as error:
        raise SaveError(tr("{path} cannot be written: {reason}", path=path, reason=system_words(error))) from None
