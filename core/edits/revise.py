"""The one door to a new room: every change is validated as a whole, so a room that contradicts itself cannot exist."""

from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from core.errors import RoomError
from core.fault_words import fault_words
from core.language import marked, tr

Model = TypeVar("Model", bound=BaseModel)


def revise(model: Model, /, **changes: Any) -> Model:
    """A validated copy of ``model`` with ``changes``; the same object where nothing changes. Raises RoomError."""
    if all(getattr(model, field) == value for field, value in changes.items()):
        return model
    return build(type(model), **{**dict(model), **changes})


def build(kind: type[Model], /, **fields: Any) -> Model:
    """A new validated model. Raises RoomError with one line per fault."""
    try:
        return kind(**fields)
    except ValidationError as error:
        raise RoomError("\n".join(map(_fault, error.errors()))) from None


_BOUNDS = {
    "greater_than": "gt",
    "greater_than_equal": "ge",
    "less_than": "lt",
    "less_than_equal": "le",
}
_BOUND_WORDS = {
    "gt": marked("found {length:g} mm, must be over {bound:g} mm"),
    "ge": marked("found {length:g} mm, must be at least {bound:g} mm"),
    "lt": marked("found {length:g} mm, must be under {bound:g} mm"),
    "le": marked("found {length:g} mm, must be at most {bound:g} mm"),
}


def _fault(fault: ErrorDetails) -> str:
    """One fault in words; a length out of bounds with its unit, so that it can be read in the room's."""
    field = ".".join(str(part) for part in fault["loc"])
    bound = _BOUNDS.get(fault["type"])
    if bound and field.endswith("_mm"):
        text = tr(_BOUND_WORDS[bound], length=fault["input"], bound=fault["ctx"][bound])
    else:
        text = fault_words(fault)
    return f"{field}: {text}" if field else text


def tidy_mm(value_mm: float) -> float:
    """A length rounded to a tenth of a micrometre, so that sums and typed text meet."""
    return round(value_mm, 4) + 0.0


def tidy_down_mm(value_mm: float) -> float:
    """A length rounded as ``tidy_mm`` does, but never past ``value_mm``: for what must end where a slanting wall ends."""
    tidy = tidy_mm(value_mm)
    return tidy if tidy <= value_mm + 1e-9 else tidy_mm(tidy - 1e-4)
