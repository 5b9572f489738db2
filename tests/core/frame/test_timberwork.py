"""What a room file may say about timber and hardware, and how it is refused."""

import json

import pytest
from pydantic import ValidationError

from core.room import Room
from core.timberwork import DEFAULT_SCREWS, Timberwork


def test_the_defaults_survive_a_room_file() -> None:
    corners = ((0.0, 0.0), (0.0, 3000.0), (3000.0, 3000.0), (3000.0, 0.0))
    room = Room(name="r", corners_mm=corners, clad_height_mm=2000.0)
    assert Room.model_validate_json(room.model_dump_json()).timberwork == Timberwork()


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        ({"frame_size": "3x7"}, "not among sizes"),
        ({"screw": "nail"}, "not among screws"),
        ({"stock_mm": []}, "at least one length"),
        ({"stock_mm": [2400.0, 2400.0]}, "each once"),
        ({"kerf_mm": -1.0}, "greater than or equal to 0"),
        ({"specific_gravity": 9.0}, "less than or equal to 1.2"),
        ({"bore": {"hole_mm": 6.2}}, "wider than hole_mm"),
        ({"screws": [DEFAULT_SCREWS[0].model_dump()] * 2}, "used twice"),
        ({"screws": [DEFAULT_SCREWS[0].model_dump() | {"lengths_mm": [20.0, 10.0]}]}, "must rise"),
        ({"screws": [DEFAULT_SCREWS[0].model_dump() | {"shank_mm": 9.0}]}, "smaller than the head"),
        ({"faces": [{"wall": 0, "readings": [{"x_mm": 1.0, "z_mm": 1.0, "depth_mm": 0.0}] * 2}]}, "read twice"),
        ({"glue": True}, "Extra inputs"),
    ],
)
def test_a_wrong_entry_is_refused_in_words(wrong: dict[str, object], says: str) -> None:
    with pytest.raises(ValidationError, match=says):
        Timberwork.model_validate_json(json.dumps(wrong))
