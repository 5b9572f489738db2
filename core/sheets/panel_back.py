"""How the back of a panel compares with its front, in words for its sheet."""

from core.bond.result import Bond
from core.language import tr
from core.sheets.panel_patterns import hole_lines


def back_words(bond: Bond) -> str:
    """What the back looks like beside the front."""
    if back_differs(bond):
        return tr("Back: not like the front; it is drawn by itself.")
    if any(hole_lines(layer) for layer in bond.layers):
        return tr(
            "Back: the same bricks in mirror image. Every brick goes through from front to back; "
            "pin-hole bricks stand one behind the other."
        )
    return tr("Back: the same bricks in mirror image. Every brick goes through from front to back")


def back_differs(bond: Bond) -> bool:
    """Whether the frame's side shows other parts, or parts elsewhere, than the room's side."""
    sides = [
        [{(laid.part, laid.leg, laid.at) for laid in layer.laid if laid.side == side} for layer in bond.layers]
        for side in (0, bond.depth - 1)
    ]
    return sides[0] != sides[1]
