"""Which bricks are laid in which colour."""

from core.settings import Settings


class Colouring(Settings):
    """Colours by wall, band, panel and course; without any, the job has one colour."""
