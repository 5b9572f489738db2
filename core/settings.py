"""The base of every model read from a room file."""

from pydantic import BaseModel, ConfigDict


class Settings(BaseModel):
    """Immutable and strict about keys."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, defer_build=True)
