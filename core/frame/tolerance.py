"""How deviations add up along a row: at worst, and as independent ones usually do."""

from collections.abc import Sequence
from math import hypot


def worst_case(tolerances: Sequence[float]) -> float:
    """All deviations one way: their sum. Source: F. Scholz, Tolerance Stack Analysis Methods, 1995."""
    return sum(abs(t) for t in tolerances)


def root_sum_square(tolerances: Sequence[float]) -> float:
    """Independent, centred deviations of one sigma level: the root of the sum of squares. Source as ``worst_case``."""
    return hypot(*tolerances)
