"""Why a panel has a sheet of its own where the frame has its holes elsewhere."""

from core.bond import StockError, bond_of
from core.frame import as_hung
from core.language import tr
from core.setout.result import Panel, SetOut
from core.sheets.panel_moves import moved_words


def hole_words(setout: SetOut, panel: Panel) -> tuple[str, ...]:
    """Lines that say by which sheet a panel is built whose holes are moved, and which they are, as it hangs; none for all others.

    What the frame does about all points of the room is worked out first, which takes some hundredths of a second.
    """
    hung = as_hung(setout)
    variant = hung.by_mark.get(panel.mark)
    if variant is None:
        return ()
    built = next(one for one in hung.setout.panels if one.mark == panel.mark)
    try:
        moved = moved_words(panel.mark, bond_of(hung.setout, built), hung)
    except StockError:
        moved = []
    return (tr("Moved holes: built by the sheet “{sheet}”", sheet=variant.name), *moved)
