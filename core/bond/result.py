"""Bonded panels, frozen: every layer and every part in it. Positions are whole pitches, heights whole plates.

A flat panel has one leg, number 0. A corner panel has leg 0 on the wall left of the corner and leg 1 on the wall right of it,
both measured along the frame side: positions on leg 0 count from the panel's far left end to the corner line, on leg 1 from the
corner line to the panel's right end. At an inside corner the corner's own square is part of the leg that runs through, and the
other leg's run is the panel's thickness shorter; at an outside corner the leg that runs through reaches past the corner line by
the thickness.
"""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

LayerKind = Literal["course", "plate", "cap"]
FaultKind = Literal["straight joint", "short lap", "poor bearing", "loose", "left out"]


@dataclass(frozen=True, slots=True)
class Laid:
    """One part in its place. ``at`` is the left end on its leg, ``side`` 0 at the room, 1 at the frame, None through both."""

    part: str
    leg: int
    at: int
    length: int
    side: int | None = None


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer of a panel from its bottom: what kind, from which plate line, and its parts by leg and from the left."""

    kind: LayerKind
    z_plates: int
    height_plates: int
    laid: tuple[Laid, ...]

    @property
    def parts(self) -> Counter[str]:
        """How many of each part lie in the layer, by part name."""
        return Counter(one.part for one in self.laid)


@dataclass(frozen=True)
class Fault:
    """Something a crew should know about a bond: where it is weaker than the rule. ``layer`` counts from 0 at the bottom.

    ``at`` is the line of a joint, or the left end of the ``part`` it is about.
    """

    layer: int
    leg: int
    at: int
    text: str
    kind: FaultKind = "short lap"
    part: str | None = None


def without_hash(state: Mapping[str, object]) -> dict[str, object]:
    """What is pickled of an object that remembers its hash, which holds in one process only."""
    return {name: value for name, value in state.items() if name != "_hash"}


@dataclass(frozen=True)
class Bond:
    """A design bonded: its layers from the bottom up. ``fewest`` is a proven lower bound on the number of parts in it."""

    design: str
    legs: tuple[int, ...]
    """Length of each leg in pitches along the frame side."""
    layers: tuple[Layer, ...]
    fewest: int
    faults: tuple[Fault, ...]
    mounts: int
    """How many mounting points the panel has; each takes one plug."""
    corner: Literal["inside", "outside"] | None = None
    """The kind of corner a corner panel wraps."""
    depth: int = 2
    """The panel's thickness in pitches."""

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:
        # Hundreds of parts; what is remembered of a bond is looked up time and again.
        return hash((self.design, self.legs, self.layers, self.fewest, self.faults, self.mounts, self.corner, self.depth))

    def __getstate__(self) -> dict[str, object]:
        return without_hash(self.__dict__)

    @cached_property
    def parts(self) -> Counter[str]:
        """How many of each part the panel takes, by part name; plugs included."""
        total: Counter[str] = Counter()
        for layer in self.layers:
            total.update(layer.parts)
        total["plug"] += self.mounts
        return total
