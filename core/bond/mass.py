"""What a bonded panel weighs."""

from collections.abc import Iterable, Mapping

from core.bond.result import Bond
from core.parts import Part


def mass_g(bond: Bond, parts: Iterable[Part]) -> float:
    """Grams of all parts of a bond, plugs included where the parts name a plug; estimates unless the parts were weighed."""
    grams = {part.name: part.mass_g for part in parts}
    return sum(count * grams.get(name, 0.0) for name, count in bond.parts.items())


def masses_kg(bonds: Mapping[str, Bond], parts: Iterable[Part]) -> dict[str, float]:
    """Kilograms of one panel of every bonded design, by design."""
    known = tuple(parts)
    return {name: mass_g(bond, known) / 1000 for name, bond in bonds.items()}
