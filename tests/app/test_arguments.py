"""What argparse says of itself, which has to be known word for word to be said in other languages."""

import argparse
import re

import pytest

from app.arguments import FAULTS, HEADINGS, command_parser, said_by_argparse
from core.errors import CoursewrightError
from core.language import tr

COMMANDS = {"sheets": ("Write sheets.", ("room", "out", "json"))}
LAST_OF_ALL = FAULTS[-1]


@pytest.mark.parametrize(
    "arguments",
    [
        ["sheets"],
        ["sheets", "a", "--out"],
        ["sheets", "a", "--out", "b", "--colour"],
        ["sheets", "a", "--out", "b", "--json=3"],
        ["--colour", "paint"],
    ],
)
def test_every_fault_argparse_finds_is_one_of_the_known_ones(arguments: list[str]) -> None:
    """Outside check: the words of the Python that runs this."""
    with pytest.raises(CoursewrightError) as refused:
        command_parser(COMMANDS).parse_args(arguments)
    said = str(refused.value).rpartition("; see ")[0]
    shapes = [re.sub(r"\\{\w+\\}", ".+", re.escape(fault)) for fault in FAULTS if fault != LAST_OF_ALL]
    assert any(re.fullmatch(shape, said) for shape in shapes), said


@pytest.mark.parametrize(
    "message", ["the following arguments are required: ROOM, --out", "argument --out: expected one argument", "something else"]
)
def test_a_fault_reads_in_english_as_argparse_says_it(message: str) -> None:
    assert said_by_argparse(message) == message


def test_a_parsers_own_words_are_the_known_ones() -> None:
    """Outside check: the words of the Python that runs this."""
    plain = argparse.ArgumentParser(prog="coursewright", usage="any")
    plain.add_argument("room")
    own = command_parser(COMMANDS).format_help()
    for words in (*(tr(heading) for heading in HEADINGS), "show this help message and exit"):
        assert words in plain.format_help()
        assert words in own
