"""HiGHS without its greeting on standard output, which would end up in the middle of whatever a command prints."""

from typing import Any

import highspy


class SilentSolver(highspy.Highs):
    """A HiGHS solver that prints nothing, not even while it is being made."""

    def enableCallbacks(self) -> None:
        # The constructor calls this, and this prints the greeting unless the solver has been silenced before.
        self.silent()
        super().enableCallbacks()  # type: ignore[no-untyped-call]  # highspy leaves it untyped


def silent_solver(**options: Any) -> Any:
    """A solver that works the same on every machine: one thread, a fixed seed, and the options given."""
    solver = SilentSolver()  # type: ignore[no-untyped-call]  # highspy leaves it untyped
    for name, value in {"threads": 1, "parallel": "off", "random_seed": 1, **options}.items():
        solver.setOptionValue(name, value)
    return solver
