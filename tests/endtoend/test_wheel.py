"""The wheel has everything: installed away from the checkout it does the whole job, opens the window, and adds its menu entry.

``.ci/wheel`` does the same in an environment made from nothing; here the libraries of this one serve.
"""

import json
import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from core.language import languages, own_name
from tests.conftest import ROOT

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    build = ["-m", "pip", "wheel", "--quiet", "--disable-pip-version-check", "--no-deps", "--no-build-isolation"]
    subprocess.run([sys.executable, *build, "--wheel-dir", str(folder), str(ROOT)], check=True)
    (made,) = folder.glob("*.whl")
    return made


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("installed")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder)
    return folder


def run(installed: Path, home: Path, *arguments: str) -> str:
    """Run Python on the installed program, in a folder and with settings of its own."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("XDG_", "PYTEST"))}
    own = {"PYTHONPATH": str(installed), "HOME": str(home), "QT_QPA_PLATFORM": "offscreen"}
    done = subprocess.run(
        [sys.executable, *arguments], cwd=home, env=kept | own, capture_output=True, text=True, check=False, timeout=300
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_every_asset_is_in_the_wheel(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    assets = {
        f"app/assets/{path.relative_to(ROOT / 'assets').as_posix()}" for path in (ROOT / "assets").rglob("*") if path.is_file()
    }
    assert assets
    assert assets <= names
    assert not [name for name in names if name.startswith(("tests/", "docs/"))]


def test_the_command_line_works_from_the_wheel(installed: Path, tmp_path: Path) -> None:
    run(installed, tmp_path, "-m", "app", "demo", "--out", "pack")
    assert (tmp_path / "pack" / "setout.json").is_file()
    assert list((tmp_path / "pack").glob("*.pdf"))
    told = json.loads(run(installed, tmp_path, "-m", "app", "setout", "pack/demo.room.json", "--json"))
    assert told == json.loads((tmp_path / "pack" / "setout.json").read_text(encoding="utf-8"))


def test_the_wheel_speaks_every_language_of_the_checkout(installed: Path, tmp_path: Path) -> None:
    code = (
        "from app.language_choice import catalogues; from core.language import languages, own_name;"
        "print(*(own_name(language, catalogues()) for language in languages(catalogues())))"
    )
    known = ROOT / "assets" / "languages"
    assert run(installed, tmp_path, "-c", code).split() == [own_name(language, known) for language in languages(known)]


def test_the_window_opens_from_the_wheel(installed: Path, tmp_path: Path) -> None:
    assert str(installed) in run(installed, tmp_path, str(ROOT / "tests" / "endtoend" / "installed.py"), str(ROOT))


def test_the_menu_entry_comes_from_the_wheel(installed: Path, tmp_path: Path) -> None:
    run(installed, tmp_path, "-m", "app", "desktop-entry")
    assert (tmp_path / ".local/share/applications/coursewright.desktop").is_file()
    assert (tmp_path / ".local/share/icons/hicolor/scalable/apps/coursewright.svg").is_file()


def test_setout_from_the_wheel_loads_no_qt(installed: Path, tmp_path: Path) -> None:
    look = "import sys; from app.cli import main; main(['setout', sys.argv[1]]); assert 'PySide6' not in sys.modules"
    run(installed, tmp_path, "-c", look, str(installed / "app" / "assets" / "demo.room.json"))
