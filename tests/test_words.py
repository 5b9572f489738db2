"""Catalogues of other languages keep step with the code, and the tool that sees to it notices what it must."""

import ast
import io
from collections.abc import Iterator
from pathlib import Path

import pytest
from babel.messages.pofile import read_po, write_po

from tests import words
from tests.conftest import ROOT

TEXTS_AT = {"tr": (0,), "marked": (0,), "trn": (0, 1), "trc": (1,)}
"""Which arguments of what the code calls are texts."""
CODE = """
from core.language import marked, tr, trc, trn

LATER = marked("later")

def said(n):
    return tr("wall {wall}", wall="A"), trn("{n} panel", "{n} panels", n), trc("in a wall", "window"), tr("5 % of all")
"""
GERMAN = {
    "later": "später",
    "wall {wall}": "Wand {wall}",
    "{n} panel": ("ein Paneel", "{n} Paneele"),
    "window": "Fenster",
    "5 % of all": "5 % davon",
}


@pytest.mark.parametrize("language", words.languages())
def test_a_shipped_language_says_everything(language: str) -> None:
    assert words.faults(language) == []


@pytest.fixture
def code(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A program of five texts, and an empty catalogue of German for it."""
    for folder in ("core", "app", "languages/de"):
        (tmp_path / folder).mkdir(parents=True)
    monkeypatch.setattr(words, "ROOT", tmp_path)
    monkeypatch.setattr(words, "LANGUAGES", tmp_path / "languages")
    path = tmp_path / "core" / "said.py"
    path.write_text(CODE)
    words.update("de")
    return path


def translate(said: dict[str, str | tuple[str, ...]]) -> None:
    """Fill translations in as a person with an editor does, and compile."""
    path = words.catalogue_file("de")
    known = read_po(io.BytesIO(path.read_bytes()), locale="de")
    for message in known:
        if message.id:
            message.string = said[message.id if isinstance(message.id, str) else message.id[0]]
    text = io.BytesIO()
    write_po(text, known, width=130)
    path.write_bytes(text.getvalue())
    words.update("de")


@pytest.mark.usefixtures("code")
def test_every_text_marked_in_the_code_is_asked_for() -> None:
    assert len(words.faults("de")) == len(GERMAN)
    assert all(fault.startswith("not translated: ") for fault in words.faults("de"))


@pytest.mark.usefixtures("code")
def test_a_translated_catalogue_has_no_faults() -> None:
    translate(GERMAN)
    assert words.faults("de") == []


@pytest.mark.usefixtures("code")
@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("wall {wall}", "Wand {wand}"),
        ("wall {wall}", "Wand"),
        ("wall {wall}", "Wand {wall} {room}"),
        ("{n} panel", ("ein Paneel {m}", "{n} Paneele")),
        ("5 % of all", "5 % von {all}"),
    ],
)
def test_a_gap_that_differs_is_a_fault(text: str, said: str | tuple[str, ...]) -> None:
    translate(GERMAN | {text: said})
    (fault,) = words.faults("de")
    assert fault.startswith("the gaps differ: ")


def test_texts_that_come_and_go_are_faults_until_the_catalogue_follows(code: Path) -> None:
    translate(GERMAN)
    code.write_text(CODE.replace("later", "sooner"))
    assert words.faults("de") == ["no longer in the code: later", "not in the catalogue: sooner"]
    words.update("de")
    assert words.faults("de") == ["not translated: sooner"]


@pytest.mark.usefixtures("code")
def test_a_translation_that_was_not_compiled_is_a_fault() -> None:
    translate(GERMAN)
    path = words.catalogue_file("de")
    path.write_text(path.read_text(encoding="utf-8").replace("später", "nachher"), encoding="utf-8")
    assert words.faults("de") == ["not compiled from the catalogue: coursewright.mo"]


@pytest.mark.usefixtures("code")
def test_a_catalogue_changes_with_its_texts_only() -> None:
    translate(GERMAN)
    before = [path.read_bytes() for path in sorted(words.catalogue_file("de").parent.iterdir())]
    words.update("de")
    assert [path.read_bytes() for path in sorted(words.catalogue_file("de").parent.iterdir())] == before
    assert b"Date" not in b"".join(before)


def test_every_text_put_through_the_catalogue_is_extracted() -> None:
    """The extractor reads source and sees neither into f-strings nor past anything but literal strings; the parser does."""
    extracted = {form for message in words.texts_in_code() if message.id for form in words._forms(message.id)}
    called = [(path, call) for path in _shown_sources() for call in ast.walk(ast.parse(path.read_text(encoding="utf-8")))]
    missed = []
    for path, call in called:
        if not isinstance(call, ast.Call) or not isinstance(call.func, ast.Name) or call.func.id not in TEXTS_AT:
            continue
        for place in TEXTS_AT[call.func.id]:
            text = call.args[place]
            is_literal = isinstance(text, ast.Constant)
            if isinstance(text, ast.JoinedStr | ast.BinOp) or (is_literal and text.value and text.value not in extracted):
                missed.append(f"{path}:{call.lineno}")
    assert not missed


def _shown_sources() -> Iterator[Path]:
    for package in ("core", "app"):
        for path in (ROOT / package).rglob("*.py"):
            if not words.NOT_SHOWN & set(path.parts):
                yield path
