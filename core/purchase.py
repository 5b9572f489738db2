"""What is known about getting parts: stock on hand, spares and suppliers' offers."""

from core.settings import Settings


class Purchase(Settings):
    """Everything buying needs to know; defaults mean that nothing is known yet."""
