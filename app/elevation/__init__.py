"""The developed elevation: the stage of the window."""

from app.elevation.view import ElevationView

__all__ = ["ElevationView"]
