"""Openings as text, for the clipboard: what a room file holds under ``openings``, so that either can be pasted into the other."""

import json
from collections.abc import Iterable

from pydantic import ValidationError

from core.edits.copying import CopiedOpenings
from core.errors import RoomError
from core.file_faults import first_fault
from core.language import marked, tr
from core.room import Opening

LONGEST_TEXT = 2_000_000
_WANTED = marked('copy openings first, or text such as {"openings": [...]} from a room file')


def openings_text(openings: Iterable[Opening]) -> str:
    """The openings as a room file writes them."""
    listed = [opening.model_dump(mode="json") for opening in openings]
    return json.dumps({"openings": listed}, indent=2, ensure_ascii=False) + "\n"


def read_openings(text: str) -> tuple[Opening, ...]:
    """The openings in a text: those of a whole room file, its ``openings`` alone, or a bare list of them. Raises RoomError."""
    if len(text) > LONGEST_TEXT:
        raise RoomError(tr("the text to paste is too long; {wanted}", wanted=tr(_WANTED)))
    try:
        document = json.loads(text)
    except (ValueError, RecursionError):
        raise RoomError(tr("the text to paste holds no openings; {wanted}", wanted=tr(_WANTED))) from None
    listed = document.get("openings") if isinstance(document, dict) else document
    if not isinstance(listed, list) or not listed:
        raise RoomError(tr("the text to paste holds no openings; {wanted}", wanted=tr(_WANTED)))
    try:
        copied = CopiedOpenings.model_validate_json(json.dumps({"openings": listed}))
    except ValidationError as error:
        raise RoomError(
            tr("the text to paste: {fault}", fault=first_fault(error, {"openings": listed}, CopiedOpenings))
        ) from None
    names = [opening.id for opening in copied.openings]
    if twice := [name for name in names if names.count(name) > 1]:
        raise RoomError(tr("the text to paste names {opening} twice; give every opening its own id", opening=twice[0]))
    return copied.openings
