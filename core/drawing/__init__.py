"""The drawing model: frozen primitives in sheet millimetres. It knows no backend; backends know nothing else."""

from core.drawing.items import Box, Circle, Item, Path, Pen, Rings, Text, item_box
from core.drawing.sheet import Paper, Sheet

__all__ = ["Box", "Circle", "Item", "Paper", "Path", "Pen", "Rings", "Sheet", "Text", "item_box"]
