"""The one door to a new room: every change is validated as a whole, so a room that contradicts itself cannot exist."""

from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from core.errors import RoomError

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
_BOUND_WORDS = {"gt": "must be over", "ge": "must be at least", "lt": "must be under", "le": "must be at most"}


def _fault(fault: ErrorDetails) -> str:
    """One fault in words; a length out of bounds with its unit, so that it can be read in the room's."""
    field = ".".join(str(part) for part in fault["loc"])
    bound = _BOUNDS.get(fault["type"])
    if bound and field.endswith("_mm"):
        text = f"found {fault['input']:g} mm, {_BOUND_WORDS[bound]} {fault['ctx'][bound]:g} mm"
    else:
        text = fault["msg"].removeprefix("Value error, ")
    return f"{field}: {text}" if field else text


def tidy_mm(value_mm: float) -> float:
    """A length rounded to a tenth of a micrometre, so that sums and typed text meet."""
    return round(value_mm, 4) + 0.0


def tidy_down_mm(value_mm: float) -> float:
    """A length rounded as ``tidy_mm`` does, but never past ``value_mm``: for what must end where a slanting wall ends."""
    tidy = tidy_mm(value_mm)
    return tidy if tidy <= value_mm + 1e-9 else tidy_mm(tidy - 1e-4)
