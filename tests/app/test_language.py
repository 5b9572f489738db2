"""The program in German: menus, Qt's own words, processes beside the window, the command line; and what stays English in it."""

import json
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QLocale, QSettings, QTranslator
from PySide6.QtWidgets import QApplication, QMenu

from app.language_choice import catalogues
from app.window import Window
from app.window_language import AS_SYSTEM, LANGUAGE, chosen_language, speak_in_window
from core.language import ENGLISH, speak, spoken
from tests.app.in_another_language import menus
from tests.conftest import ROOT

SAME_IN_BOTH = {"", "English", "Deutsch", "&Normal"}


def german(*arguments: str, **environment: str) -> str:
    """What Python prints in a German environment."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("LANG", "LC_"))}
    asked = {"LANGUAGE": "de", "LANG": "C.UTF-8"} | environment
    command = [sys.executable, *arguments]
    done = subprocess.run(command, cwd=ROOT, env=kept | asked, capture_output=True, text=True, check=False, timeout=600)
    assert done.returncode == 0, done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def seen(tmp_path_factory: pytest.TempPathFactory) -> dict[str, object]:
    """What a German window says."""
    folder = tmp_path_factory.mktemp("german")
    told = german("-m", "tests.app.in_another_language", "assets/demo.room.json", str(folder))
    found: dict[str, object] = json.loads(told)
    return found


@pytest.fixture
def _english_afterwards(dressed: QApplication) -> Iterator[None]:
    known = set(dressed.findChildren(QTranslator))
    yield
    speak(ENGLISH, catalogues())
    for words in set(dressed.findChildren(QTranslator)) - known:
        dressed.removeTranslator(words)
    QLocale.setDefault(QLocale.system())
    QSettings().clear()


def test_no_menu_says_anything_in_english_to_a_german(seen: dict[str, object], window: Window) -> None:
    english, shown = menus(window), seen["menus"]
    assert isinstance(shown, dict)
    assert [len(entries) for entries in shown.values()] == [len(entries) for entries in english.values()]
    pairs = [*zip(english, shown, strict=True)]
    for entries, others in zip(english.values(), shown.values(), strict=True):
        pairs += zip(entries, others, strict=True)
    left = [words for words, other in pairs if words == other and words not in SAME_IN_BOTH]
    assert len(pairs) > 80
    assert not left


def test_german_menus_open_with_keys_of_their_own(seen: dict[str, object], window: Window) -> None:
    shown = seen["menus"]
    assert isinstance(shown, dict)
    bar = [action.text() for action in window.menuBar().actions()]
    titles = [title for english, title in zip(menus(window), shown, strict=True) if english in bar]
    letters = [title[title.index("&") + 1].casefold() for title in titles]
    assert len(letters) == len(bar) == len(set(letters))


def test_german_words_have_room_on_a_small_screen(seen: dict[str, object]) -> None:
    assert seen["cut"] == []


def test_qts_own_words_follow(seen: dict[str, object]) -> None:
    assert seen["qt"] == ["Abbrechen", "Strg+S"]


def test_a_process_beside_the_window_speaks_its_language(seen: dict[str, object]) -> None:
    assert (seen["spoken"], seen["aside"]) == ("de", "de")


def test_the_language_menu_names_each_language_in_itself(window: Window) -> None:
    menu = next(one for one in window.findChildren(QMenu) if one.title().replace("&", "") == "Language")
    offered = [action.text().replace("&", "") for action in menu.actions() if action.isCheckable()]
    assert offered == ["As the system is", "English", "Deutsch"]
    assert [action.isChecked() for action in menu.actions() if action.isCheckable()] == [True, False, False]


def test_a_chosen_language_is_kept_and_said_to_hold_from_the_next_start(window: Window) -> None:
    menu = next(one for one in window.findChildren(QMenu) if one.title().replace("&", "") == "Language")
    next(action for action in menu.actions() if action.text() == "Deutsch").trigger()
    assert QSettings().value(LANGUAGE) == "de"
    assert "opened next" in window.statusBar().currentMessage()
    assert spoken() == "en"
    next(action for action in menu.actions() if action.text() == "As the &system is").trigger()
    assert chosen_language() == AS_SYSTEM


@pytest.mark.usefixtures("_english_afterwards")
@pytest.mark.parametrize(
    ("chosen", "asked", "language"),
    [("system", "de", "de"), ("system", "en", "en"), ("de", "en", "de"), ("en", "de", "en"), ("xx", "de", "de"), (7, "de", "de")],
)
def test_the_choice_made_in_the_window_goes_before_the_environments(
    chosen: object, asked: str, language: str, dressed: QApplication, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LANGUAGE", asked)
    monkeypatch.delenv("LC_ALL", raising=False)
    QSettings().setValue(LANGUAGE, chosen)
    speak_in_window(dressed)
    assert spoken() == language


def test_commands_speak_german_with_the_same_figures(demo_room_path: Path) -> None:
    english = german("-m", "app", "setout", str(demo_room_path), LANGUAGE="en")
    shown = german("-m", "app", "setout", str(demo_room_path))
    assert "Wände" in shown
    assert sorted(_figures(shown)) == sorted(_figures(english))
    assert not [line for line in shown.splitlines() if line in english.splitlines() and re.search(r"[a-z]{3,} [a-z]{3,}", line)]


def test_json_is_the_same_in_every_language(tmp_path: Path, demo_room_path: Path) -> None:
    code = (
        "import sys; from pathlib import Path; from app.cli import main; from core.files import load_room;"
        "from core.export.setout_json import setout_json; from core.setout import solve;"
        "main(['check', sys.argv[1]]); setout = solve(load_room(Path(sys.argv[1])));"
        "Path(sys.argv[2]).write_text(setout_json(setout))"
    )
    german("-c", code, str(demo_room_path), str(tmp_path / "in-a-german-window.json"))
    english = german("-m", "app", "setout", str(demo_room_path), "--json", LANGUAGE="en")
    assert german("-m", "app", "setout", str(demo_room_path), "--json") == english
    assert (tmp_path / "in-a-german-window.json").read_text() == english


@pytest.mark.slow
def test_sheets_come_out_in_german(tmp_path: Path, demo_room_path: Path) -> None:
    german("-m", "app", "sheets", str(demo_room_path), "--out", str(tmp_path / "de"))
    german("-m", "app", "sheets", str(demo_room_path), "--out", str(tmp_path / "en"), LANGUAGE="en")
    names = sorted(path.name for path in (tmp_path / "de").iterdir())
    assert names == sorted(path.name for path in (tmp_path / "en").iterdir())
    for path in (tmp_path / "de").glob("*.csv"):
        heads = path.read_text(encoding="utf-8").splitlines()[0]
        assert heads != (tmp_path / "en" / path.name).read_text(encoding="utf-8").splitlines()[0], path.name


def _figures(text: str) -> list[str]:
    return re.findall(r"\d+(?:\.\d+)?", text)
