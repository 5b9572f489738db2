"""Texts in other languages: which one an environment asks for, and how gaps, counts and contexts come through."""

import json
import subprocess
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo

from core.language import DOMAIN, ENGLISH, asked_by, in_english, languages, own_name, speak, spoken, tr, trc, trn
from tests.conftest import ROOT


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Catalogues of German and of Brazilian Portuguese; of French there is only an empty folder."""
    german = Catalog("de")
    german.add("wall {wall}", "Wand {wall}")
    german.add(("{n} panel of {room}", "{n} panels of {room}"), ("ein Paneel von {room}", "{n} Paneele von {room}"))
    german.add("window", "Fenster", context="in a wall")
    german.add("English", "Deutsch", context="the name of this language")
    for language, catalogue in (("de", german), ("pt_BR", Catalog("pt_BR"))):
        messages = tmp_path / language / "LC_MESSAGES"
        messages.mkdir(parents=True)
        with (messages / f"{DOMAIN}.mo").open("wb") as file:
            write_mo(file, catalogue)
    (tmp_path / "fr" / "LC_MESSAGES").mkdir(parents=True)
    return tmp_path


@pytest.fixture
def german(folder: Path) -> Iterator[None]:
    speak("de", folder)
    yield
    speak(ENGLISH, folder)


# GNU gettext manual, 2.3 "Setting the Locale through Environment Variables", https://www.gnu.org/software/gettext/manual/
@pytest.mark.parametrize(
    ("environment", "language"),
    [
        ({}, "en"),
        ({"LANG": "de_DE.UTF-8"}, "de"),
        ({"LANG": "de"}, "de"),
        ({"LANG": "de_AT@euro"}, "de"),
        ({"LANG": "pt_BR.UTF-8"}, "pt_BR"),
        ({"LANG": "pt_PT.UTF-8"}, "en"),
        ({"LANG": "fr_FR.UTF-8"}, "en"),
        ({"LANG": "en_GB.UTF-8"}, "en"),
        ({"LANG": "C.UTF-8"}, "en"),
        ({"LC_MESSAGES": "de_DE.UTF-8", "LANG": "en_US.UTF-8"}, "de"),
        ({"LC_MESSAGES": "en_US.UTF-8", "LANG": "de_DE.UTF-8"}, "en"),
        ({"LC_ALL": "de_DE.UTF-8", "LC_MESSAGES": "en_US.UTF-8", "LANG": "en_US.UTF-8"}, "de"),
        ({"LC_ALL": "", "LC_MESSAGES": "", "LANG": "de_DE.UTF-8"}, "de"),
        ({"LC_NUMERIC": "de_DE.UTF-8", "LANG": "en_US.UTF-8"}, "en"),
        ({"LANGUAGE": "de", "LANG": "en_US.UTF-8"}, "de"),
        ({"LANGUAGE": "de", "LANG": "C.UTF-8"}, "de"),
        ({"LANGUAGE": "de"}, "de"),
        ({"LANGUAGE": "", "LANG": "de_DE.UTF-8"}, "de"),
        ({"LANGUAGE": "fr:de", "LANG": "en_US.UTF-8"}, "de"),
        ({"LANGUAGE": "sv:nb", "LANG": "de_DE.UTF-8"}, "en"),
        ({"LANGUAGE": "pt_PT:pt_BR:de", "LANG": "en_US.UTF-8"}, "pt_BR"),
        ({"LANGUAGE": "en:de", "LANG": "de_DE.UTF-8"}, "en"),
        ({"LANGUAGE": "de", "LC_ALL": "C"}, "en"),
        ({"LANGUAGE": "de", "LANG": "POSIX"}, "en"),
        ({"LANGUAGE": "../de:::", "LANG": "en_US.UTF-8"}, "en"),
    ],
)
def test_the_environment_decides_as_gettext_says(environment: Mapping[str, str], language: str, folder: Path) -> None:
    assert asked_by(environment, folder) == language


def test_only_languages_with_a_catalogue_are_offered(folder: Path) -> None:
    assert languages(folder) == ["en", "de", "pt_BR"]
    assert [own_name(language, folder) for language in languages(folder)] == ["English", "Deutsch", "English"]


def test_german_is_shipped_under_its_own_name() -> None:
    folder = ROOT / "assets" / "languages"
    assert {language: own_name(language, folder) for language in languages(folder)} == {"en": "English", "de": "Deutsch"}


@pytest.mark.usefixtures("german")
def test_gaps_counts_and_contexts_come_through() -> None:
    assert spoken() == "de"
    assert tr("wall {wall}", wall="A") == "Wand A"
    assert [trn("{n} panel of {room}", "{n} panels of {room}", n, room="X") for n in (0, 1, 2)] == [
        "0 Paneele von X",
        "ein Paneel von X",
        "2 Paneele von X",
    ]
    assert trc("in a wall", "window") == "Fenster"
    assert trc("of the program", "window") == "window"


@pytest.mark.usefixtures("german")
def test_a_text_without_a_translation_stays_english() -> None:
    assert tr("wall {wall} is {length} long", wall="A", length="3 m") == "wall A is 3 m long"
    assert trn("{n} brick", "{n} bricks", 2) == "2 bricks"


@pytest.mark.usefixtures("german")
def test_an_empty_text_stays_empty() -> None:
    assert tr("") == ""


def test_a_language_without_a_catalogue_is_english(folder: Path) -> None:
    speak("fr", folder)
    assert spoken() == "en"
    assert tr("wall {wall}", wall="A") == "wall A"


@pytest.mark.usefixtures("german")
def test_english_for_a_while_ends_where_it_is_left_even_by_an_error() -> None:
    def fail() -> None:
        with in_english():
            assert (spoken(), tr("wall {wall}", wall="A")) == ("en", "wall A")
            raise ValueError("fails")

    with pytest.raises(ValueError, match="fails"):
        fail()
    assert (spoken(), tr("wall {wall}", wall="A")) == ("de", "Wand A")


@pytest.mark.parametrize("room", ["assets/demo.room.json", "tests/rooms/reading-den.room.json"])
def test_a_set_out_says_the_same_figures_in_every_language_and_keeps_no_words_of_another(room: str) -> None:
    code = (
        "import json, sys; from pathlib import Path; from core.export.setout_json import setout_document;"
        "from core.files import load_room; from core.language import speak; from core.setout import solve;"
        "folder, found = Path('assets/languages'), [];\n"
        "for language in sys.argv[2:]:\n"
        "    speak(language, folder)\n"
        "    found.append(setout_document(solve(load_room(Path(sys.argv[1])))))\n"
        "print(json.dumps(found))"
    )

    def said(*spoken_one_after_another: str) -> list[dict[str, Any]]:
        command = [sys.executable, "-c", code, room, *spoken_one_after_another]
        found: list[dict[str, Any]] = json.loads(subprocess.run(command, cwd=ROOT, capture_output=True, check=True).stdout)
        return found

    english, german, english_again = said("en", "de", "en")
    (german_alone,) = said("de")
    assert german == german_alone
    assert english_again == english
    assert _texts(german) != _texts(english)
    assert _without_texts(german) == _without_texts(english)


def _texts(document: dict[str, Any]) -> list[str]:
    return [check["text"] for check in document["checks"]]


def _without_texts(value: Any) -> Any:
    if isinstance(value, list):
        return [_without_texts(item) for item in value]
    if isinstance(value, dict):
        return {key: _without_texts(item) for key, item in value.items() if key not in ("text", "remedy_text", "variant")}
    return value


@pytest.mark.parametrize("untranslated", ["C", "POSIX"])
def test_a_list_of_languages_ends_where_it_asks_for_texts_as_they_are(folder: Path, untranslated: str) -> None:
    """In the list of LANGUAGE, too, C and POSIX name no catalogue: GNU gettext looks no further. From memory."""
    assert asked_by({"LANG": "de_DE.UTF-8", "LANGUAGE": f"{untranslated}:de"}, folder) == ENGLISH
