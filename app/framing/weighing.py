"""What every design weighs, bonded one at a time while the window is idle."""

from collections.abc import Generator, Mapping

from core.bond import StockError, bond_of
from core.bond.bonds import first_panels
from core.bond.mass import masses_kg
from core.bond.result import Bond
from core.setout.result import SetOut


def weighing(setout: SetOut) -> Generator[None, None, Mapping[str, float]]:
    """Kilograms by design, one design at each step; a design the stocked parts cannot fill is left out."""
    bonds: dict[str, Bond] = {}
    for name, panel in first_panels(setout).items():
        try:
            bonds[name] = bond_of(setout, panel)
        except StockError:
            continue
        finally:
            yield
    return masses_kg(bonds, setout.room.parts)
