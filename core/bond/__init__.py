"""Panels bonded down to the brick. ``core.bond.within`` bonds a job within a limited stock."""

from core.bond.bonds import bond_for, bond_of, bonds_for
from core.bond.palette import StockError

__all__ = ["StockError", "bond_for", "bond_of", "bonds_for"]
