"""The entry in the desktop's menu: valid, complete, startable, and gone again without a trace."""

import configparser
import os
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtGui import QIcon
from PySide6.QtSvg import QSvgRenderer
from PySide6.QtWidgets import QApplication

from app.assets import asset
from app.cli import main
from app.desktop_entry import ICON, data_folder, entry_text, places, program, quoted
from core.language import ENGLISH, speak


def entry_of(path: Path) -> configparser.SectionProxy:
    parser = configparser.ConfigParser(interpolation=None, delimiters=("=",), strict=True)
    parser.optionxform = str  # type: ignore[assignment,method-assign]
    parser.read(path, encoding="utf-8")
    return parser["Desktop Entry"]


@pytest.fixture
def data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    return tmp_path / "data"


def test_the_command_writes_entry_and_icon_and_takes_them_away_again(data: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["desktop-entry"]) == 0
    entry, icon = places(data)
    assert capsys.readouterr().out == f"{entry}\n{icon}\n"
    assert icon.read_bytes() == asset(ICON).read_bytes()
    assert main(["desktop-entry", "--remove"]) == 0
    assert not [path for path in data.rglob("*") if path.is_file()]
    assert main(["desktop-entry", "--remove"]) == 0


def test_the_entry_has_what_the_specification_asks_for(data: Path) -> None:
    """Desktop Entry Specification 1.4, “Recognized desktop entry keys”: Type and Name are required, Exec for applications."""
    main(["desktop-entry"])
    entry = entry_of(places(data)[0])
    assert entry["Type"] == "Application"
    assert entry["Name"] == "Coursewright"
    assert entry["Terminal"] == "false"
    assert places(data)[1].stem == entry["Icon"]
    assert all(entry[key].endswith(";") for key in ("Categories", "Keywords"))
    *command, file = shlex.split(entry["Exec"])
    assert file == "%f"
    assert os.access(command[0], os.X_OK)


@pytest.mark.skipif(shutil.which("desktop-file-validate") is None, reason="desktop-file-utils is not installed")
def test_freedesktops_own_validator_finds_nothing(data: Path) -> None:
    main(["desktop-entry"])
    done = subprocess.run(["desktop-file-validate", places(data)[0]], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout + done.stderr) == (0, "")


@given(st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]), min_size=1))
def test_a_quoted_argument_is_read_back_as_it_was(argument: str) -> None:
    """Desktop Entry Specification 1.4, “The Exec key”: escapes of values come off first, then those in quotes, then ``%%``."""
    written = quoted(argument)
    value = written.replace("\\\\", "\\") if written.startswith('"') else written
    if value.startswith('"'):
        inside, out = value[1:-1], ""
        signs = iter(inside)
        for sign in signs:
            out += next(signs) if sign == "\\" else sign
        value = out
    assert value.replace("%%", "%") == argument


def test_a_program_in_a_folder_with_a_space_is_quoted() -> None:
    assert 'Exec="/opt/my rooms/coursewright" %f' in entry_text(["/opt/my rooms/coursewright"]).splitlines()


@pytest.mark.parametrize("said", ["", "not/absolute"])
def test_without_a_usable_xdg_folder_the_entry_goes_where_the_specification_says(
    said: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """XDG Base Directory Specification: relative paths are to be ignored, and ~/.local/share is the default."""
    monkeypatch.setenv("XDG_DATA_HOME", said)
    monkeypatch.setenv("HOME", str(tmp_path))
    assert data_folder() == tmp_path / ".local" / "share"


def test_where_it_cannot_be_written_one_line_says_so(data: Path, capsys: pytest.CaptureFixture[str]) -> None:
    data.write_text("a file where the folder should be")
    assert main(["desktop-entry"]) == 2
    said = capsys.readouterr().err
    assert str(data) in said
    assert said.count("\n") == 1


def test_the_entry_names_this_very_program() -> None:
    assert Path(program()[0]).is_relative_to(Path(sys.executable).parent)


def test_the_window_wears_the_icon(dressed: QApplication) -> None:
    assert dressed.desktopFileName() == "coursewright"
    assert not dressed.windowIcon().pixmap(64, 64).isNull()


def test_the_icon_is_a_picture_that_shows_at_every_size(dressed: QApplication) -> None:  # noqa: ARG001 - pixmaps need it
    assert QSvgRenderer(str(asset(ICON))).isValid()
    for size in (16, 24, 32, 48, 64, 256):
        image = QIcon(str(asset(ICON))).pixmap(size, size).toImage()
        colours = {image.pixelColor(x, y).name() for x in range(size) for y in range(size)}
        assert len(colours) >= 4


def test_an_entry_written_in_german_keeps_its_english_for_other_desktops() -> None:
    """Desktop Entry Specification 1.4, “Localized values for keys”: the key without a locale is for everybody else."""
    plain = entry_text(("coursewright",)).splitlines()
    speak("de", asset("languages"))
    try:
        german = entry_text(("coursewright",)).splitlines()
    finally:
        speak(ENGLISH, asset("languages"))
    added = [line for line in german if line not in plain]
    assert [line for line in german if line not in added] == plain
    assert [line.partition("=")[0] for line in added] == ["GenericName[de]", "Comment[de]", "Keywords[de]"]
