"""The room standing up: its walls on their plan, seen from a corner above, the near ones cut away."""

from app.spatial.dialog import RoomDialog

__all__ = ["RoomDialog"]
