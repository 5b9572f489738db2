"""Colours of bricks in the window: shown on the elevation, and laid by rules and pictures in a leaf."""

from app.colour.colours import Colours

__all__ = ["Colours"]
