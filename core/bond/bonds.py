"""The bonds of a set-out, design by design."""

from collections.abc import Mapping
from dataclasses import replace

from core.bond.palette import StockError, palette_of
from core.bond.result import Bond
from core.bond.shape import shape_of
from core.bond.solving import bond_shape
from core.bond.turning import turned
from core.language import tr
from core.setout.result import Panel, SetOut


def bonds_for(setout: SetOut) -> Mapping[str, Bond]:
    """The bond of every design by its name, as the first panel of the design hangs, seen from inside the room.

    Bonds are remembered by what they depend on, so after an edit only new designs are bonded. Raises StockError where the room's
    stocked parts cannot fill a design.
    """
    return {name: bond_of(setout, panel) for name, panel in first_panels(setout).items()}


def bond_for(setout: SetOut, design: str) -> Bond:
    """The bond of one design; raises KeyError where there is none of that name, StockError as ``bonds_for``."""
    return bond_of(setout, first_panels(setout)[design])


def bond_of(setout: SetOut, panel: Panel) -> Bond:
    """The bond of one panel as it hangs: that of its design, turned about its vertical axis where need be."""
    shape, is_turned = shape_of(setout, panel).canonical()
    try:
        bond = bond_shape(shape, palette_of(setout.room.parts, setout.room.kit))
    except StockError as error:
        raise StockError(tr("design {design}: {fault}", design=panel.design, fault=error)) from None
    return replace(turned(bond) if is_turned else bond, design=panel.design)


def first_panels(setout: SetOut) -> dict[str, Panel]:
    """The first panel of every design, in the designs' order."""
    first: dict[str, Panel] = {}
    for panel in setout.panels:
        first.setdefault(panel.design, panel)
    return {design.name: first[design.name] for design in setout.designs if design.name in first}
