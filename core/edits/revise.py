"""The one door to a new room: every change is validated as a whole, so a room that contradicts itself cannot exist."""

from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

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
        raise RoomError("\n".join(_fault(fault["loc"], fault["msg"]) for fault in error.errors())) from None


def _fault(place: tuple[int | str, ...], message: str) -> str:
    text = message.removeprefix("Value error, ")
    return f"{'.'.join(str(part) for part in place)}: {text}" if place else text


def tidy_mm(value_mm: float) -> float:
    """A length rounded to a tenth of a micrometre, so that sums and typed text meet."""
    return round(value_mm, 4) + 0.0


def tidy_down_mm(value_mm: float) -> float:
    """A length rounded as ``tidy_mm`` does, but never past ``value_mm``: for what must end where a slanting wall ends."""
    tidy = tidy_mm(value_mm)
    return tidy if tidy <= value_mm + 1e-9 else tidy_mm(tidy - 1e-4)
