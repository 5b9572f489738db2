"""Where the guide's steps lie in the window, and what it watches there."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRect, QRectF, SignalInstance
from PySide6.QtWidgets import QWidget

from app.first_steps.guide import Parts
from app.first_steps.steps import Name

if TYPE_CHECKING:
    from app.window import Window


class WindowParts(Parts):
    """One window's parts."""

    def __init__(self, window: "Window") -> None:
        self._window, self.document = window, window.document

    def figures_differ(self) -> bool:
        return self._window.board.differs

    @property
    def check_chosen(self) -> SignalInstance:
        return self._window.checks.go_to

    @property
    def pack_seen(self) -> SignalInstance:
        return self._window.files.pack_seen

    def place_of(self, name: Name) -> tuple[QWidget, QRect]:
        window = self._window
        if name == "drag":
            return window.elevation, self._window_opening()
        if name == "build":
            tabs = window.leaves.tabBar()
            return tabs, tabs.tabRect(window.build)
        if name == "pack":
            bar = window.menuBar()
            return bar, bar.actionGeometry(bar.actions()[0])
        parts: dict[Name, QWidget] = {"board": window.board, "check": window.checks, "room": window.plan}
        return parts[name], parts[name].rect()

    def _window_opening(self) -> QRect:
        """Where the first window of the room is on the elevation; all of that where there is none."""
        elevation = self._window.elevation
        found = next((opening for opening in self.document.room.openings if opening.kind == "window"), None)
        if found is None:
            return elevation.rect()
        corners: list[QPointF] = [
            elevation.wall_to_screen(found.wall, x, z)
            for x, z in ((found.left_mm, found.head_mm), (found.left_mm + found.width_mm, found.sill_mm))
        ]
        return QRectF(*corners).toAlignedRect()
