"""Reasons of the system as a person reads them."""

import errno
import os

import pytest

from core.system_words import USUAL, system_words

USUAL_NUMBERS = (
    errno.ENOENT,
    errno.EACCES,
    errno.EPERM,
    errno.ENOSPC,
    errno.EDQUOT,
    errno.EFBIG,
    errno.EEXIST,
    errno.ENAMETOOLONG,
    errno.EISDIR,
    errno.ENOTDIR,
    errno.EROFS,
    errno.EIO,
    errno.EBUSY,
    errno.EBADF,
    errno.ELOOP,
)


def test_reason_is_the_systems_own() -> None:
    assert system_words(OSError(errno.EACCES, os.strerror(errno.EACCES))) == os.strerror(errno.EACCES)


def test_reason_in_a_sentence_begins_small() -> None:
    assert system_words(OSError(errno.EACCES, "Permission denied"), in_sentence=True) == "permission denied"


def test_error_without_a_reason_says_its_own_words() -> None:
    assert system_words(ValueError("embedded null byte")) == "embedded null byte"


@pytest.mark.parametrize("error", [OSError(), ValueError(), RuntimeError("")])
def test_error_without_any_words_is_told_by_its_kind(error: Exception) -> None:
    assert system_words(error) == type(error).__name__


def test_only_the_first_line_and_letter_change_in_a_sentence() -> None:
    assert system_words(ValueError("Cannot read DEN.room.json\nat all"), in_sentence=True) == "cannot read DEN.room.json"


@pytest.mark.parametrize("number", USUAL_NUMBERS)
def test_usual_reasons_stand_in_the_catalogue_as_the_system_says_them(number: int) -> None:
    """Outside check: the words of the C library of the machine, in its own English."""
    assert os.strerror(number) in USUAL
