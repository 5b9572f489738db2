"""Price lists as people send them: what can be read is kept, what cannot is named by row and column."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.buying import decoded, read_offers
from core.errors import CoursewrightError
from core.parts import DEFAULT_PARTS
from core.purchase import Offer, PriceBreak


def test_a_list_with_breaks_becomes_offers() -> None:
    text = "part,pack,price,from_packs\nbrick 2x4,600,48.50,1\nbrick 2x4,600,45,10\nplug,1000,9.9,\n"
    found = read_offers(text, DEFAULT_PARTS)
    assert found.faults == ()
    assert found.offers == (
        Offer(part="brick 2x4", pack=600, price=48.5, breaks=(PriceBreak(from_packs=10, price=45.0),)),
        Offer(part="plug", pack=1000, price=9.9),
    )


@pytest.mark.parametrize(
    ("line", "column", "says"),
    [
        ("brick 2x5,600,1.0,,", "part", "did you mean 'brick 2x"),
        (",600,1.0,,", "part", "no part of this job"),
        ("plug,0,1.0,,", "pack", "whole number"),
        ("plug,many,1.0,,", "pack", "whole number"),
        ("plug,,1.0,,", "pack", "whole number"),
        ("plug,600,cheap,,", "price", "should be a price"),
        ("plug,600,-1,,", "price", "should be a price"),
        ("plug,600,1e9999,,", "price", "should be a price"),
        ("plug,600,1.0,5,", "from_packs", "no price for a single pack"),
        ("plug,600,1.0,,-3", "most_packs", "whole number"),
        ("plug", "pack", "whole number"),
    ],
)
def test_a_bad_line_is_named_and_the_rest_kept(line: str, column: str, says: str) -> None:
    text = f"part,pack,price,from_packs,most_packs\nbrick 2x2,600,5,,\n{line}\nbrick 2x3,600,6,,\n"
    found = read_offers(text, DEFAULT_PARTS)
    assert [offer.part for offer in found.offers] == ["brick 2x2", "brick 2x3"]
    assert [(fault.row, fault.column) for fault in found.faults] == [(3, column)]
    assert says in found.faults[0].text


def test_semicolons_decimal_commas_and_a_byte_order_mark_are_read() -> None:
    found = read_offers("\ufeffPart;Pack;Price\r\nplug;600;12,50\r\n\r\n", DEFAULT_PARTS)
    assert (found.offers, found.faults) == ((Offer(part="plug", pack=600, price=12.5),), ())


def test_two_prices_from_the_same_number_on_are_refused() -> None:
    found = read_offers("part,pack,price\nplug,600,1\nplug,600,2\n", DEFAULT_PARTS)
    assert found.offers == ()
    assert str(found.faults[0]) == "row 3, column from_packs: 'plug' in packs of 600 has two prices from there on"


@pytest.mark.parametrize("text", ["", "price,pack\n1,2\n", "nothing useful"])
def test_a_list_without_its_titles_is_refused_whole(text: str) -> None:
    with pytest.raises(CoursewrightError, match="titles"):
        read_offers(text, DEFAULT_PARTS)


@given(text=st.text(max_size=300))
def test_no_text_breaks_the_import(text: str) -> None:
    found = read_offers("part,pack,price\n" + text, DEFAULT_PARTS)
    assert all(fault.row >= 2 for fault in found.faults)


def test_bytes_in_either_code_are_read() -> None:
    for code in ("utf-8", "utf-8-sig", "cp1252"):
        found = read_offers(decoded("part,colour,pack,price\nplug,grün,5,1\n".encode(code)), DEFAULT_PARTS)
        assert [offer.colour for offer in found.offers] == ["grün"]


def test_screws_can_be_offered_although_no_panel_is_bonded_from_them() -> None:
    assert read_offers("part,pack,price\npanel screw,200,9\n", DEFAULT_PARTS).faults == ()
