"""A figure's formula and its sum are in the same unit."""

import re

import pytest

from core.frame.figure import Figure
from core.room import Units

LEAST = Figure("least length", 37.3, "mm", "15.10 grip + 4.2 packing + 6 × 3.00", "a rule")


@pytest.mark.parametrize("units", ["mm", "ft-in"])
def test_the_sum_is_what_its_formula_counts_up_to(units: Units) -> None:
    said = LEAST.words(units).replace("\N{NO-BREAK SPACE}", " ")
    found = re.search(r"= ([0-9.]+) mm", said)
    assert found is not None
    assert float(found[1]) == pytest.approx(15.10 + 4.2 + 6 * 3.00)


def test_a_tape_in_inches_reads_it_beside() -> None:
    assert '37.30\N{NO-BREAK SPACE}mm, 1 7/16" (a rule)' in LEAST.words("ft-in")
    assert '"' not in LEAST.words("mm")
