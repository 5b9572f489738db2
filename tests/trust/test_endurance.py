"""The short form of ``python -m app.endurance``: a few of everything that tries to break the program."""

import pytest

from app.endurance.outcome import Outcome, table_text
from app.endurance.trials import TRIALS, Effort


@pytest.mark.slow
@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("name", TRIALS)
def test_nothing_breaks_in_the_short_form(name: str) -> None:
    """Common practice, no published source."""
    outcomes = TRIALS[name](Effort.SHORT, 1)
    assert outcomes
    assert all(outcome.held for outcome in outcomes), table_text(outcomes)


def test_a_trial_that_tried_nothing_does_not_hold() -> None:
    assert not Outcome("nothing", 0).held
    assert not Outcome("something", 3, ("it broke",)).held
    assert Outcome("something", 3).held


def test_every_fault_stands_below_its_line() -> None:
    text = table_text([Outcome("one", 2, ("a", "b")), Outcome("two", 1, besides="1 s")])
    assert [line.split()[0] for line in text.splitlines()] == ["what", "one", "a", "b", "two"]
