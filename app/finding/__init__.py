"""Finding a panel, a design or an opening by name."""

from app.finding.finder import Finder

__all__ = ["Finder"]
