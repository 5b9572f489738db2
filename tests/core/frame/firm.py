"""Whether timber holds a screw, worked out here and not by the program: wood all round, and enough of it to the long edges."""

from core.setout.result import Timber

UPRIGHT = ("stud", "king stud", "trimmer")
GRACE_MM = 1e-6


def holds_screw(timber: Timber, x_mm: float, z_mm: float, edge_mm: float) -> bool:
    """Inside the timber, and at least the edge distance from both of its long edges."""
    left, right = x_mm - timber.left_mm, timber.left_mm + timber.width_mm - x_mm
    below, above = z_mm - timber.bottom_mm, timber.bottom_mm + timber.height_mm - z_mm
    if min(left, right, below, above) < -GRACE_MM:
        return False
    return min((left, right) if timber.member in UPRIGHT else (below, above)) >= edge_mm - GRACE_MM
