"""What a German types is read by the words the window shows, and kept in those of the room file."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo
from pytestqt.qtbot import QtBot

from app.buy.leaf import BuyLeaf
from app.crew.terms_card import read_rate, weekdays
from app.document import Document
from app.finding.matching import matches
from app.tables.reading import TypedError
from core.edits.buying import set_offers
from core.language import DOMAIN, ENGLISH, speak
from core.purchase import Offer
from tests.app.table_hand import shown, type_into

WORDS = {"brick 2x4": "Stein 2x4", "moss": "Moos", "wall {wall}": "Wand {wall}", "no price given": "ohne Preis"}
WEEKDAYS = {"mon": "Mo", "tue": "Di", "wed": "Mi", "thu": "Do", "fri": "Fr", "sat": "Sa", "sun": "So"}


@pytest.fixture
def german(tmp_path: Path) -> Iterator[None]:
    """A few words of German; whatever a test solves beforehand is in English still."""
    catalogue = Catalog("de")
    for english, word in WORDS.items():
        catalogue.add(english, word)
    for english, word in WEEKDAYS.items():
        catalogue.add(english, word, context="a weekday")
    catalogue.add("none", "keine", context="learning")
    messages = tmp_path / "de" / "LC_MESSAGES"
    messages.mkdir(parents=True)
    with (messages / f"{DOMAIN}.mo").open("wb") as file:
        write_mo(file, catalogue)
    speak("de", tmp_path)
    yield
    speak(ENGLISH, tmp_path)


@pytest.mark.usefixtures("german")
def test_weekdays_are_read_by_how_their_german_names_begin() -> None:
    assert weekdays("Freitag, Mo") == ("mon", "fri")
    with pytest.raises(TypedError):
        weekdays("Mo wed")


@pytest.mark.usefixtures("german")
def test_no_learning_is_typed_as_it_is_shown() -> None:
    assert read_rate("keine") == 1.0
    assert read_rate("85 %") == 0.85


@pytest.mark.usefixtures("document", "german")
def test_a_part_and_a_colour_are_offered_by_their_german_names(document: Document, qtbot: QtBot) -> None:
    document.commit_edit(lambda room: set_offers(room, "Ziegelhof", ()), "Supplier")
    leaf = BuyLeaf(document)
    qtbot.addWidget(leaf)
    with qtbot.waitExposed(leaf):
        leaf.show()
    leaf.turn(1)
    table = leaf.suppliers.offers
    leaf.suppliers.suppliers.choose("Ziegelhof")
    type_into(qtbot, table, 0, "Part", "Stein 2x4")
    type_into(qtbot, table, 0, "Colour", "Moos")
    assert document.room.stock.suppliers[-1].offers == (Offer(part="brick 2x4", colour="moss"),)
    assert [shown(table, 0, title) for title in ("Part", "Colour", "A pack costs")] == ["Stein 2x4", "Moos", "ohne Preis"]
    leaf._aside.close()


@pytest.mark.usefixtures("document", "german")
@pytest.mark.parametrize("typed", ["Wand B", "wall b"])
def test_a_wall_is_found_by_its_name_in_either_language(document: Document, typed: str) -> None:
    assert [match.where for match in matches(document.setout, typed)] == ["wall B"]
