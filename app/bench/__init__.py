"""The bench view: one panel on a screen at the workbench, course by course."""

from app.bench.bench import Bench

__all__ = ["Bench"]
