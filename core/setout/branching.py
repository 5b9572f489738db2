"""The least that the rows of one stack can take with every set-up paid once: branch and bound over their designs.

A linear program suggests how set-ups are shared out over places; rounded to whole units, such shares give a bound that is exact
whatever the program says. Ways that nothing below what is known already can use are dropped. Where a gap is left, a
design is set up on trial, and forbidden on trial.
"""

import heapq
from collections.abc import Generator
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.setout.choice import FORBIDDEN, Choice, Chosen
from core.setout.tariff import Ints

if TYPE_CHECKING:
    from core.setout.relaxed import Relaxed, Suggestion

SETUP_IN_PROGRAM = 12.0
"""What a set-up counts in the linear program, whatever it costs: numbers of that size suit its tolerances."""

CERTAIN = 1e-6
"""How far from 0 or 1 the program may leave a design that it has decided on."""


class Trial(NamedTuple):
    """A bound, and by design whether it must and may be set up; ``number`` tells trials apart."""

    least: int
    number: int
    given: NDArray[np.bool_]
    allowed: NDArray[np.bool_]


class Branching:
    """The search among the choices of one stack for one below ``enough`` units."""

    def __init__(self, choice: Choice, enough: int) -> None:
        self.enough = enough
        self.best: Chosen | None = None
        self.pivots = 0
        """Simplex steps taken, a measure of work."""
        self._choice = choice
        self._unit = choice.setup / SETUP_IN_PROGRAM
        self._waiting: list[Trial] = []
        self._settled: list[int] = []
        """Bounds of trials that are not worth splitting: nothing is left to decide, or the linear program came to no end."""
        self._made = 0
        self._program: Relaxed | None = None

    @property
    def least(self) -> int:
        """No choice costs less than this, or else than ``enough``."""
        return min([self.enough, *(trial.least for trial in self._waiting[:1]), *self._settled])

    @property
    def is_open(self) -> bool:
        """Whether there is a trial that could still lead below ``enough``."""
        return bool(self._waiting) and self._waiting[0].least < self.enough

    def begin(self) -> Generator[None, None, None]:
        """Bound the whole, and drop the ways that nothing below ``enough`` can use."""
        if not self._choice.is_possible:
            return
        suggestion = yield from self._solved(self._choice.relaxed(self._unit))
        least = 0
        if suggestion is not None:
            self._consider(suggestion)
            shares = self._shares(suggestion)
            least = self._choice.cheapest(shares).units - int(self._over(shares).sum())
            if least >= self.enough:
                return
            self._choice = self._narrowed(shares)
        if self._choice.is_possible:
            count = len(self._choice.designs)
            self._await(least, np.zeros(count, dtype=bool), np.ones(count, dtype=bool))

    def go_on(self) -> Generator[None, None, None]:
        """Try what could still cost least."""
        trial = heapq.heappop(self._waiting)
        suggestion = yield from self._tried(trial)
        if suggestion is None:
            if self._at_shares(trial, np.zeros(len(self._choice.needs), dtype=np.int64)) < self.enough:
                self._settled.append(trial.least)
            return
        least = max(trial.least, self._bound(trial, suggestion))
        doubt = np.minimum(suggestion.set_up, 1 - suggestion.set_up)
        if least >= self.enough:
            return
        if doubt.max(initial=0) < CERTAIN:
            self._settled.append(least)
            return
        at = int(doubt.argmax())
        given, allowed = trial.given.copy(), trial.allowed.copy()
        given[at], allowed[at] = True, False
        self._await(least, given, trial.allowed)
        self._await(least, trial.given, allowed)

    def dive(self) -> Generator[None, None, None]:
        """Set up one design after another that a mixture nearly wants, to find a good choice soon."""
        if not self._waiting:
            return
        trial = self._waiting[0]
        given = trial.given.copy()
        while True:
            suggestion = yield from self._tried(Trial(trial.least, 0, given, trial.allowed))
            if suggestion is None:
                return
            wanted = np.where(suggestion.set_up < 1 - CERTAIN, suggestion.set_up, 0.0)
            if self._bound(Trial(0, 0, given, trial.allowed), suggestion) >= self.enough or wanted.max(initial=0) < CERTAIN:
                return
            given[int(wanted.argmax())] = True

    def _tried(self, trial: Trial) -> "Generator[None, None, Suggestion | None]":
        if self._program is None:
            self._program = self._choice.relaxed(self._unit)
        self._program.fix(trial.given, trial.allowed)
        suggestion = yield from self._solved(self._program)
        if suggestion is not None:
            self._consider(suggestion)
        return suggestion

    def _await(self, least: int, given: NDArray[np.bool_], allowed: NDArray[np.bool_]) -> None:
        self._made += 1
        heapq.heappush(self._waiting, Trial(least, self._made, given, allowed))

    def _solved(self, program: "Relaxed") -> "Generator[None, None, Suggestion | None]":
        suggestion = yield from program.solve()
        self.pivots += program.pivots
        program.pivots = 0
        yield
        return suggestion

    def _bound(self, trial: Trial, suggestion: "Suggestion") -> int:
        """What the designs given cost, and the rest at the suggested shares."""
        return self._at_shares(trial, self._shares(suggestion))

    def _at_shares(self, trial: Trial, shares: Ints) -> int:
        choice = self._choice
        shares[trial.given[choice.design_of]] = 0
        over = self._over(shares)
        shares[~trial.allowed[choice.design_of]] = FORBIDDEN
        return choice.cheapest(shares).units + choice.setup * int(trial.given.sum()) - int(over[trial.allowed].sum())

    def _shares(self, suggestion: "Suggestion") -> Ints:
        """The suggested shares in whole units."""
        return np.asarray(np.maximum(0, np.rint(suggestion.shares * self._unit)), dtype=np.int64)

    def _over(self, shares: Ints) -> Ints:
        """By design, what its shares come to beyond a set-up: so much too much is charged at most, where all places use it."""
        return np.asarray(np.maximum(0, self._sums(shares) - self._choice.setup))

    def _sums(self, shares: Ints) -> Ints:
        sums = np.zeros(len(self._choice.designs), dtype=np.int64)
        np.add.at(sums, self._choice.design_of, shares)
        return sums

    def _narrowed(self, shares: Ints) -> Choice:
        """Only the ways with which a choice can stay below ``enough``; they pay the rest of their set-ups themselves."""
        choice = self._choice
        rest = dict(zip(choice.designs, np.maximum(0, choice.setup - self._sums(shares)).tolist(), strict=True))
        owed = np.array([sum(units for bit, units in rest.items() if bit & way.designs) for way in choice.ways], dtype=np.int64)
        return choice.kept(choice.least_through(shares) + owed - int(self._over(shares).sum()) < self.enough)

    def _consider(self, suggestion: "Suggestion") -> None:
        """The choices with the designs that are set up at all in a mixture, and with those set up by half or more."""
        for part in (CERTAIN, 0.5 - CERTAIN):
            designs = sum(
                bit for bit, value in zip(self._choice.designs, suggestion.set_up.tolist(), strict=True) if value > part
            )
            chosen = self._choice.with_only(designs)
            if chosen is not None and chosen.units < self.enough:
                self.best, self.enough = chosen, chosen.units
