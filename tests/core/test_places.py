"""Places of checks, as read."""

import pytest

from core.places import place_heading, place_words


@pytest.mark.parametrize("where", ["room", "wall A", "opening door", "panel B-3-07"])
def test_a_place_reads_in_english_as_its_key(where: str) -> None:
    assert place_words(where) == where
    assert place_heading(where) == where[0].upper() + where[1:]
