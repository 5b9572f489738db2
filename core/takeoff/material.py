"""What is counted: one material, and counts of them that add up."""

from collections import Counter
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from core.language import tr
from core.parts import Part, PartKind
from core.purchase import PartCount
from core.room import Units
from core.units import METRIC, in_units

SCREW = "panel screw"
_PACKER = "packer "
_TIMBER = " timber"


class Material(NamedTuple):
    """Something to count. ``colour`` is None where the job has one; ``unit`` is ``piece`` or ``mm`` of length."""

    name: str
    colour: str | None = None
    unit: str = "piece"


Count = Counter[Material]

Group = PartKind | str
GROUPS: tuple[Group, ...] = (
    "brick",
    "pin-hole brick",
    "plate",
    "tile",
    "locating plate",
    "plug",
    "floor plate",
    "hardware",
    "timber",
)
"""In the order in which lists show them."""


def packer(packing_mm: float) -> Material:
    """The shim behind one mounting point, as thick as the packing to a tenth of a millimetre."""
    return Material(f"{_PACKER}{packing_mm:.1f} mm")


def timber(size: str) -> Material:
    """Timber of a sawn size."""
    return Material(f"{size}{_TIMBER}", unit="mm")


def shown_name(material: Material, units: Units) -> str:
    """A material as a person who reads these units knows it: packers by their thickness, everything else by its own name.

    A packer keeps its millimetres beside the inches: several that differ would be one and the same sixteenth.
    """
    if material.unit == "mm" and material.name.endswith(_TIMBER):
        return tr("{size} timber", size=material.name.removesuffix(_TIMBER))
    if not material.name.startswith(_PACKER):
        return tr(material.name)
    thickness = material.name.removeprefix(_PACKER)
    if units == "mm":
        return tr("packer {thickness}", thickness=thickness)
    metric, about = thickness.replace(" mm", METRIC), in_units(thickness, units)
    return tr("packer {thickness}, about {about}", thickness=metric, about=about)


def group_of(material: Material, kinds: Mapping[str, PartKind]) -> Group:
    """Where a material stands in a list; ``kinds`` are the parts' kinds by name."""
    if material.name in kinds:
        return kinds[material.name]
    is_hardware = material.name == SCREW or material.name.startswith(_PACKER)
    return "hardware" if is_hardware or (material.unit == "piece" and "screw" in material.name) else "timber"


def in_order(count: Mapping[Material, int], parts: Iterable[Part]) -> list[Material]:
    """The counted materials as lists show them: bricks from short to long, then plates, tiles and the rest."""
    known = list(parts)
    kinds = {part.name: part.kind for part in known}
    place = {part.name: number for number, part in enumerate(known)}

    def key(material: Material) -> tuple[int, int, str, str]:
        group = GROUPS.index(group_of(material, kinds))
        return group, place.get(material.name, len(place)), material.name, material.colour or ""

    return sorted((material for material, number in count.items() if number), key=key)


def counted(lines: Iterable[PartCount]) -> Count:
    """Lines of a room file as counts."""
    found: Count = Counter()
    for line in lines:
        found[Material(line.part, line.colour)] += line.count
    return found


def times(count: Mapping[Material, int], factor: int) -> Count:
    """So many times each count."""
    return Counter({material: number * factor for material, number in count.items()})
