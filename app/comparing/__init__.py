"""Two versions of a room side by side; comparing changes neither."""

from app.comparing.commands import compare_versions
from app.comparing.dialog import CompareDialog

__all__ = ["CompareDialog", "compare_versions"]
