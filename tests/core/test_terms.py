"""What the model calls things and people read is in the catalogues of every language."""

from collections.abc import Iterator
from typing import Any, get_args

import pytest
from babel.messages.catalog import Catalog
from pydantic import BaseModel

from core import colouring, kit, parts, progress, room, snap, timberwork, workforce
from core.bond import result as bond_result
from core.buying.order import Proof
from core.edits.shapes import SHAPES
from core.frame.loads import Coupling
from core.frame.members import CORNER_POST, CRIPPLE, LEVEL
from core.frame.misses import Remedy
from core.frame.packers import ReadingMethod
from core.reasons.cuts import Edge
from core.setout.result import Level
from core.setout.timber import UPRIGHTS
from core.takeoff import GROUPS, SCREW
from tests import words

SHOWN = {
    "states": progress.STATES,
    "groups": GROUPS,
    "parts": [*(part.name for part in parts.DEFAULT_PARTS), *get_args(parts.PartKind), SCREW],
    "colours": [colour.name for colour in colouring.DEFAULT_COLOURS],
    "members": [*UPRIGHTS, *LEVEL, CRIPPLE, CORNER_POST],
    "screws": [screw.name for screw in timberwork.DEFAULT_SCREWS],
    "heads and threads": [*get_args(timberwork.Head), *get_args(timberwork.Thread)],
    "openings": get_args(room.OpeningKind),
    "joints": get_args(room.Joints),
    "edges": get_args(Edge),
    "lines": get_args(snap.LineKind),
    "levels": get_args(Level),
    "faults": get_args(bond_result.FaultKind),
    "remedies": get_args(Remedy),
    "readings": get_args(ReadingMethod),
    "couplings": get_args(Coupling),
    "duties": get_args(workforce.Duty),
    "makes": get_args(workforce.Make),
    "work": get_args(workforce.Work),
    "proofs": get_args(Proof),
    "shapes": [shape.name for shape in SHAPES],
    "sizes of shapes": sorted({size.name for shape in SHAPES for size in shape.sizes}),
}


@pytest.fixture(scope="module")
def code() -> Catalog:
    return words.texts_in_code()


@pytest.mark.parametrize("sort", SHOWN)
def test_every_value_that_people_read_is_marked_for_the_catalogues(sort: str, code: Catalog) -> None:
    assert [value for value in SHOWN[sort] if code.get(value) is None] == []


COMPARED = (kit.Kit, kit.Rates, parts.Part, timberwork.Timberwork, colouring.Colouring)
"""Models whose fields a comparison of two versions names."""
LENGTHS = (room.Room, room.Opening, room.FrameToBuild, room.RegularFrame, room.MeasuredFrame)
"""Models whose lengths refusals name."""


def fields(model: type[BaseModel]) -> Iterator[str]:
    """The names of all fields of a model and of the models in it."""
    for name, field in model.model_fields.items():
        yield name
        for inner in models_in(field.annotation):
            yield from fields(inner)


def models_in(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for argument in get_args(annotation):
        yield from models_in(argument)


def test_every_field_that_people_read_is_marked_for_the_catalogues(code: Catalog) -> None:
    named = {name for model in COMPARED for name in fields(model)}
    named |= {name for model in LENGTHS for name in model.model_fields if name.endswith("_mm")}
    words_of = {name: name.removesuffix("_mm").replace("_", " ") for name in named}
    assert [name for name, said in words_of.items() if code.get(said, "field") is None] == []
