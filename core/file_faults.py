"""What is wrong with a room document, in one line that names the field."""

import json
import re
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from core.fault_words import fault_words
from core.language import tr

_LONGEST_QUOTE = 40


def first_fault(error: ValidationError, document: Any, model: type[BaseModel]) -> str:
    """The first fault of a document that ``model`` refused, as ``openings.1.width_mm: found -3, should be greater than 0``."""
    faults = error.errors(include_url=False)
    first = _fault(faults[0], document, model)
    return tr("{fault} (and {count} more)", fault=first, count=len(faults) - 1) if len(faults) > 1 else first


def _fault(fault: ErrorDetails, document: Any, model: type[BaseModel]) -> str:
    path = _document_path(fault["loc"], document)
    if fault["type"].startswith("union_tag"):
        path.append(fault["ctx"]["discriminator"].strip("'"))
    where = ".".join(_escaped(str(step)) for step in path)
    # Our own validators name the field themselves where they look at the whole room.
    words = _words(fault, path, model)
    return f"{where}: {words}" if where else words


def _words(fault: ErrorDetails, path: list[int | str], model: type[BaseModel]) -> str:
    found = quoted(fault["input"])
    match fault["type"]:
        case "value_error":
            return fault_words(fault)
        case "json_invalid":
            return tr("not JSON ({why})", why=tr(fault["ctx"]["error"]))
        case "missing" | "union_tag_not_found":
            return tr("missing; it must be given")
        case "extra_forbidden":
            if known := _known_keys(path[:-1], model):
                return tr("unknown key; keys here are {keys}", keys=", ".join(known))
            return tr("unknown key; take it out")
        case "union_tag_invalid":
            tags = fault["ctx"]["expected_tags"]
            return tr("found {found}, should be one of {choices}", found=quoted(fault["ctx"]["tag"]), choices=tags)
        case "string_pattern_mismatch":
            return tr(
                "found {found}, should start with a letter or digit and hold only those, spaces, dots and dashes", found=found
            )
        case "model_type" | "model_attributes_type" | "dict_type":
            return tr("found {found}, should be an object", found=found)
        case "tuple_type" | "list_type":
            return tr("found {found}, should be a list", found=found)
        case _:
            wish = re.sub(r"^(Input|Tuple|List|String) ", "", fault_words(fault)).replace(" after validation", "")
            return tr("found {found}, {wish}", found=found, wish=wish)


def _document_path(loc: tuple[int | str, ...], document: Any) -> list[int | str]:
    """Where the fault is in the document: pydantic's path also names the branch of a union, which no file shows."""
    path: list[int | str] = []
    here = document
    for number, step in enumerate(loc):
        if isinstance(here, dict) and step in here:
            here = here[str(step)]
        elif isinstance(here, list) and isinstance(step, int) and step < len(here):
            here = here[step]
        elif number < len(loc) - 1 or not isinstance(here, dict):
            continue
        path.append(step)
    return path


def _known_keys(path: list[int | str], model: type[BaseModel]) -> list[str]:
    """The keys an object at ``path`` may have, from the model's schema; none where a union leaves it open."""
    schema = model.model_json_schema()
    here = schema
    for step in [*path, None]:
        while "$ref" in here:
            here = schema["$defs"][here["$ref"].rsplit("/", 1)[-1]]
        if step is not None:
            here = here.get("items", {}) if isinstance(step, int) else here.get("properties", {}).get(step, {})
    return list(here.get("properties", {}))


def quoted(value: Any) -> str:
    """A found value as the file shows it, cut short, on one line."""
    if isinstance(value, list | tuple):
        return tr("a list") if value else tr("an empty list")
    if isinstance(value, dict):
        return tr("an object")
    try:
        text = _on_one_line(value)
    except ValueError:
        return tr("an overlong number")
    return text if len(text) <= _LONGEST_QUOTE else text[: _LONGEST_QUOTE - 1] + "…"


def _escaped(step: str) -> str:
    return _on_one_line(step)[1:-1][:_LONGEST_QUOTE]


def _on_one_line(value: Any) -> str:
    """JSON with every sign escaped that would not show, or break the line: JSON itself leaves those above ASCII alone."""
    text = json.dumps(value, ensure_ascii=False, default=str)
    return "".join(sign if sign.isprintable() else json.dumps(sign)[1:-1] for sign in text)
