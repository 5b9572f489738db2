"""Learning curves: how much faster the n-th panel goes than the first.

Two models share the exponent b = log2(rate) and differ in what falls by it. The unit model (Crawford): the n-th panel takes n^b
of the first. The cumulative-average model (Wright): the average of the first n panels is n^b of the first. At 80 % the first
eight panels take 5.35 or 4.10 times the first one, so whoever quotes a rate must say which model it belongs to.
"""

import math
from functools import lru_cache

from core.workforce import LearningModel, Workforce


def exponent(rate: float) -> float:
    """b in n^b; ``rate`` is the share left each time the number doubles, above 0 and at most 1."""
    return math.log2(rate)


def unit_share(model: LearningModel, rate: float, number: int) -> float:
    """Time of the n-th panel as a share of the first; ``number`` counts from 1."""
    if model == "unit":
        return float(number ** exponent(rate))
    return total_share(model, rate, number) - (total_share(model, rate, number - 1) if number > 1 else 0.0)


@lru_cache(maxsize=4096)
def total_share(model: LearningModel, rate: float, number: int) -> float:
    """Time of the first n panels together, in first panels."""
    if model == "unit":
        return math.fsum(n ** exponent(rate) for n in range(1, number + 1))
    return float(number ** (1 + exponent(rate)))


class Practice:
    """A crew's learning curve with its floor, looked up panel after panel."""

    def __init__(self, crew: Workforce) -> None:
        self._crew = crew
        self._shares: list[float] = []

    def share(self, before: int) -> float:
        """Time of a panel as a share of the first, for somebody who has built so many before."""
        crew = self._crew
        if crew.learning_rate == 1.0:
            return 1.0
        while len(self._shares) <= before:
            share = unit_share(crew.learning_model, crew.learning_rate, len(self._shares) + 1)
            if share <= crew.learning_floor:
                return crew.learning_floor
            self._shares.append(share)
        return self._shares[before]

    def mean_share(self, before: int, panels: int) -> float:
        """The average share over so many panels after the ones before."""
        return math.fsum(self.share(before + n) for n in range(panels)) / panels
