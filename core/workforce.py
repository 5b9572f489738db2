"""Who builds, when, how fast, and how much faster with practice."""

from core.settings import Settings


class Workforce(Settings):
    """The crew as a person described it."""
