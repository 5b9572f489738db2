"""The room file as a JSON Schema, made from the models that read it, with their own words as descriptions."""

import ast
import inspect
import json
from collections.abc import Iterator
from itertools import pairwise
from textwrap import dedent
from typing import Any

from pydantic.json_schema import GenerateJsonSchema

from core.files import FORMAT
from core.room import Room
from core.settings import Settings

DIALECT = "https://json-schema.org/draft/2020-12/schema"
ALWAYS_THERE = ("format", "version", "name", "corners_mm", "clad_height_mm")
"""What no room file goes without: the first two have defaults in the model, but a file must say what it is."""


class _Untitled(GenerateJsonSchema):
    """Leaves out titles that only repeat the field's name."""

    def field_title_should_be_set(self, schema: Any) -> bool:  # noqa: ARG002
        return False


def room_schema() -> dict[str, Any]:
    """A JSON Schema (draft 2020-12) of the room file.

    It knows types, limits and names. It does not know what the models check from field to field: that an opening lies on its
    wall, that walls do not cross.
    """
    schema = Room.model_json_schema(schema_generator=_Untitled)
    described = {model.__name__: _words_on_fields(model) for model in _models(Settings)}
    for name, model in (("Room", schema), *schema["$defs"].items()):
        for field, words in described.get(name, {}).items():
            model["properties"][field]["description"] = words
    schema["required"] = list(ALWAYS_THERE)
    return {"$schema": DIALECT, **schema, "title": FORMAT}


def schema_text() -> str:
    """The schema as the text of a file."""
    return json.dumps(room_schema(), indent=1, ensure_ascii=False) + "\n"


def _models(base: type[Settings]) -> Iterator[type[Settings]]:
    for model in base.__subclasses__():
        yield model
        yield from _models(model)


def _words_on_fields(model: type[Settings]) -> dict[str, str]:
    """What stands below the model's fields in its source. Python keeps such strings nowhere else."""
    tree = ast.parse(dedent(inspect.getsource(model)))
    body = tree.body[0].body if isinstance(tree.body[0], ast.ClassDef) else []
    return {
        line.target.id: inspect.cleandoc(below.value.value)
        for line, below in pairwise(body)
        if isinstance(line, ast.AnnAssign)
        and isinstance(line.target, ast.Name)
        and isinstance(below, ast.Expr)
        and isinstance(below.value, ast.Constant)
        and isinstance(below.value.value, str)
    }
