"""What every panel is really laid of, where that is not its design's bond: cut at its colours, or laid from the stock on hand."""

from core.laying.from_stock import FromStock, StockBond, StockLine, bond_from_stock
from core.laying.own import OwnBond, own_bonds, own_work, parts_of_moved, work_of_cut_panels

__all__ = [
    "FromStock",
    "OwnBond",
    "StockBond",
    "StockLine",
    "bond_from_stock",
    "own_bonds",
    "own_work",
    "parts_of_moved",
    "work_of_cut_panels",
]
