"""Set-out: a room in, its division into panels out. Deterministic; never looks at the clock."""

from core.setout.solver import sketch, solve, solving

__all__ = ["sketch", "solve", "solving"]
