"""Every design bonded by itself, whatever becomes of the others."""

from collections.abc import Iterable, Mapping

from core.bond.bonds import bond_for
from core.bond.palette import StockError
from core.bond.result import Bond
from core.setout.result import SetOut

Bonding = Mapping[str, Bond | StockError]
"""The bond of every design, or why it has none."""


def bonding(setout: SetOut, designs: Iterable[str] | None = None) -> Bonding:
    """Bonds every design by itself, so that one that cannot be built does not keep the others from being counted and drawn.

    Of some ``designs`` only, where they are given.
    """
    names = (design.name for design in setout.designs) if designs is None else designs
    return {name: _bond_or_why(setout, name) for name in names}


def bonds_in(found: Bonding) -> dict[str, Bond]:
    """The bonds there are, by design."""
    return {name: bond for name, bond in found.items() if isinstance(bond, Bond)}


def _bond_or_why(setout: SetOut, design: str) -> Bond | StockError:
    try:
        return bond_for(setout, design)
    except StockError as error:
        return error
