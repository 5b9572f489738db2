"""How well a panel holds together, in the words of its sheet."""

from core.bond import StockError, bond_for
from core.frame import as_hung
from core.language import tr
from core.setout.result import Panel, SetOut
from core.sheets.panel_strength import strength_words


def holding_words(setout: SetOut, panel: Panel) -> tuple[str, ...]:
    """Lines that say how the panel's design holds together, by counting knobs; why not, where it cannot be bonded.

    The first time a design is asked for it is bonded, which takes some hundredths of a second.
    """
    hung = as_hung(setout)
    variant = hung.by_mark.get(panel.mark)
    try:
        bond = bond_for(hung.setout, variant.name) if variant else bond_for(setout, panel.design)
    except StockError as error:
        return (str(error),)
    if setout.room.colouring.is_plain:
        lead = tr("Strength, in knobs (loads not judged):")
    else:
        lead = tr("Strength as its design is laid, in knobs (loads not judged):")
    return (lead, *strength_words(bond, setout.room.kit))
