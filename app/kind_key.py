"""The key to the panels' fills on the tally board."""

from collections.abc import Mapping

from PySide6.QtCore import QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from app import theme
from app.elevation.fills import paint_swatch
from app.opaque import Opaque
from app.theme.look import InStep
from core.language import tr
from core.setout.result import PanelKind
from core.sheets.wording import KIND_NAMES

BESIDE_LINES, BELOW_LINES = 3, 2
"""Lines of the key beside the figures, and below them where the board is narrow."""


class KindKey(QWidget):
    """The key to the panels' fills, with how many there are of each kind."""

    COLUMN_PX, LINE_PX = 162, 25

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName(tr("Panels by kind"))
        self._words = {kind: tr(name) for kind, name in KIND_NAMES.items()}
        self._counts: dict[PanelKind, int] = {}
        self._before: dict[PanelKind, int] = {}
        self._note = ""
        self._lines = BESIDE_LINES
        Opaque(self)
        InStep(self, self._grow)

    def wide_px(self, lines: int) -> int:
        """How wide the key is in so many lines, with a place for the note."""
        return -(-(len(KIND_NAMES) + 1) // lines) * theme.px(self.COLUMN_PX)

    def set_lines(self, lines: int) -> None:
        """Stand in another number of lines."""
        self._lines = lines
        self.updateGeometry()
        self.update()

    def _grow(self) -> None:
        font = QFont(self.font())
        font.setPixelSize(theme.px(theme.TEXT_PX))
        self.setFont(font)
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        return QSize(self.wide_px(self._lines), self._lines * theme.px(self.LINE_PX))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def show_counts(self, counts: Mapping[PanelKind, int], before: Mapping[PanelKind, int], note: str) -> None:
        """Show counts per kind and a note in the last place; repaints only where they differ from what stands there."""
        was = self._counts, self._before
        self._counts, self._before = dict(counts), dict(before)
        for place, kind in enumerate(KIND_NAMES):
            if any(now.get(kind) != then.get(kind) for now, then in zip((counts, before), was, strict=True)):
                self.update(self._box(place))
        if note != self._note:
            self._note = note
            self.update(self._box(len(KIND_NAMES)))
        self.setAccessibleDescription(", ".join(f"{counts.get(kind, 0)} {word}" for kind, word in self._words.items()))

    def _box(self, place: int) -> QRect:
        column, line = divmod(place, self._lines)
        wide, high = theme.px(self.COLUMN_PX), theme.px(self.LINE_PX)
        return QRect(column * wide, line * high, wide, high)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(event.rect(), QColor(theme.shown.board))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for place, kind in enumerate(KIND_NAMES):
            if event.region().intersects(self._box(place)):
                self._paint_kind(painter, kind, QRectF(self._box(place)))
        painter.setPen(QColor(theme.shown.quiet_chalk))
        painter.drawText(QRectF(self._box(len(KIND_NAMES))), Qt.AlignmentFlag.AlignVCenter, self._note)
        painter.end()

    def _paint_kind(self, painter: QPainter, kind: PanelKind, box: QRectF) -> None:
        count, difference = self._counts.get(kind, 0), self._counts.get(kind, 0) - self._before.get(kind, 0)
        swatch = QRectF(box.left(), box.top() + 4, theme.px(22), box.height() - 8)
        paint_swatch(painter, kind, swatch.toRect())
        text = f"{count} {self._words[kind]}"
        painter.setPen(QColor(theme.shown.chalk if count else theme.shown.quiet_chalk))
        line = box.adjusted(theme.px(30), 0, 0, 0)
        painter.drawText(line, Qt.AlignmentFlag.AlignVCenter, text)
        if difference:
            painter.setPen(QColor(theme.shown.fewer if difference < 0 else theme.shown.more))
            line.setLeft(line.left() + painter.fontMetrics().horizontalAdvance(text + "  "))
            painter.drawText(line, Qt.AlignmentFlag.AlignVCenter, f"{difference:+d}".replace("-", "−"))
