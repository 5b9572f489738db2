"""Set-out: a room in, its division into panels out. Deterministic; never looks at the clock."""

from core.setout.solver import has_same_panels, sketch, solve, solving

__all__ = ["has_same_panels", "sketch", "solve", "solving"]
