"""Every design bonded by itself, whatever becomes of the others."""

from collections.abc import Mapping

from core.bond.bonds import bond_for
from core.bond.palette import StockError
from core.bond.result import Bond
from core.setout.result import SetOut

Bonding = Mapping[str, Bond | StockError]
"""The bond of every design, or why it has none."""


def bonding(setout: SetOut) -> Bonding:
    """Bonds every design by itself, so that one that cannot be built does not keep the others from being counted and drawn."""
    return {design.name: _bond_or_why(setout, design.name) for design in setout.designs}


def bonds_in(found: Bonding) -> dict[str, Bond]:
    """The bonds there are, by design."""
    return {name: bond for name, bond in found.items() if isinstance(bond, Bond)}


def _bond_or_why(setout: SetOut, design: str) -> Bond | StockError:
    try:
        return bond_for(setout, design)
    except StockError as error:
        return error
