"""From where the standing room is looked at: the viewpoint, how near, and how far the picture is moved aside."""

from collections.abc import Collection

from PySide6.QtCore import QPointF, QRectF, QSize

from app.spatial.viewpoint import LEAST_ZOOM, MOST_ZOOM, Extent, Projection, Viewpoint
from core.language import tr
from core.room import wall_letter

MARGIN_PX = 44.0
FOOT_PX = 30.0
MOST_LETTERS = 8


class Sight:
    """What turning, zooming and panning change; the room itself is not known here."""

    def __init__(self) -> None:
        self.viewpoint = Viewpoint()
        self.zoom, self._moved = 1.0, QPointF(0.0, 0.0)

    def projection(self, view: QRectF, extent: Extent) -> Projection:
        """How a room of that extent is mapped to a view of so many pixels."""
        frame = view.adjusted(MARGIN_PX, MARGIN_PX, -MARGIN_PX, -MARGIN_PX - FOOT_PX)
        frame.setSize(frame.size().expandedTo(QRectF(0, 0, 40, 40).size()))
        return Projection.fitting(self.viewpoint, extent, frame.translated(self._moved), self.zoom)

    def fit(self) -> None:
        """The whole room in the middle."""
        self.zoom, self._moved = 1.0, QPointF(0.0, 0.0)

    def zoom_by(self, factor: float, at: QPointF, foot: QPointF) -> QPointF:
        """Nearer or further; returns where ``foot`` must then be for what lies at a pixel to stay there."""
        zoom = min(MOST_ZOOM, max(LEAST_ZOOM, self.zoom * factor))
        wanted = at + (foot - at) * (zoom / self.zoom)
        self.zoom = zoom
        return wanted

    def pan(self, by: QPointF, size: QSize) -> None:
        """Move the picture; its middle stays in a view of that size."""
        moved = self._moved + by
        reach = QPointF(size.width() * max(1.0, self.zoom) / 2, size.height() * max(1.0, self.zoom) / 2)
        self._moved = QPointF(min(reach.x(), max(-reach.x(), moved.x())), min(reach.y(), max(-reach.y(), moved.y())))

    def words(self, walls: int, standing: Collection[int]) -> str:
        """What is seen from here of so many walls, some of them standing."""
        away = [wall for wall in range(walls) if wall not in standing]
        way = {"tilt": self.viewpoint.tilt_degrees, "turn": self.viewpoint.turn_degrees}
        if not away:
            return tr("Seen from {tilt:.0f}° up, turned {turn:.0f}°: standing {walls}", walls=_letters(standing), **way)
        if not standing:
            return tr("Seen from {tilt:.0f}° up, turned {turn:.0f}°: cut away {walls}", walls=_letters(away), **way)
        return tr(
            "Seen from {tilt:.0f}° up, turned {turn:.0f}°: standing {walls}, cut away {others}",
            walls=_letters(standing),
            others=_letters(away),
            **way,
        )


def _letters(walls: Collection[int]) -> str:
    listed = list(walls)
    shown = ", ".join(wall_letter(wall) for wall in listed[:MOST_LETTERS])
    rest = len(listed) - MOST_LETTERS
    return tr("{names} and {n} more", names=shown, n=rest) if rest > 0 else shown
