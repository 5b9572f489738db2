"""The published schema of the room file is the one the models give, and says what the models say."""

import json
from pathlib import Path

import pytest

from core.export.room_schema import ALWAYS_THERE, room_schema, schema_text
from core.room import Room
from tests.conftest import ROOT

SCHEMA = ROOT / "docs" / "room.schema.json"


def test_the_committed_schema_is_what_the_models_give() -> None:
    assert SCHEMA.read_text(encoding="utf-8") == schema_text(), (
        "the models have changed: python -m app.room_schema --write docs/room.schema.json"
    )


def test_every_key_a_room_file_may_have_is_in_the_schema_and_no_other_is_allowed() -> None:
    schema = room_schema()
    assert set(schema["properties"]) == set(Room.model_fields)
    objects = [schema, *(model for model in schema["$defs"].values() if model.get("type") == "object")]
    assert all(model["additionalProperties"] is False for model in objects)


def test_what_stands_below_a_field_in_the_source_describes_it() -> None:
    mounts = room_schema()["$defs"]["MountRule"]["properties"]
    assert mounts["inset_pitches"]["description"] == "From the panel's edge to the hole, in pitches."


@pytest.mark.parametrize("key", ALWAYS_THERE)
def test_every_shipped_room_has_what_the_schema_requires(key: str, demo_room_path: Path, rooms: Path) -> None:
    for path in (demo_room_path, *rooms.glob("*.room.json")):
        assert key in json.loads(path.read_text(encoding="utf-8"))
