"""The handles of measured studs: blocks of timber on a strip along the floor of the current wall."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from app import theme
from app.elevation.stage import Stage
from app.elevation.studs import HANDLE_PX, StudView

_GRAIN_FROM_PX = 7.0


def paint_studs(painter: QPainter, view: StudView, stage: Stage) -> None:
    """The strip with a handle under every stud; the chosen one is filled dark, the one pointed at has a strong edge."""
    painter.save()
    painter.setClipRect(view.strip_px.adjusted(-1, -1, 1, 1))
    painter.setPen(QPen(QColor(theme.shown.timber_edge), 1))
    painter.setBrush(QColor(theme.shown.card))
    painter.drawRect(view.strip_px.adjusted(0.5, 0.5, -0.5, -0.5))
    for number in range(len(view.frame.centres_mm)):
        _paint_handle(painter, handle_px(view, stage, number), chosen=number == view.selected, hovered=number == view.hover)
    painter.restore()


def handle_px(view: StudView, stage: Stage, number: int) -> QRectF:
    """Where a stud's handle is."""
    x = stage.camera.x_px(stage.strip.starts_mm[view.wall] + view.frame.centres_mm[number])
    wide = max(float(HANDLE_PX), view.frame.stud_mm * stage.camera.scale)
    return QRectF(round(x - wide / 2) + 0.5, view.strip_px.top() + 1.5, wide, view.strip_px.height() - 3)


def _paint_handle(painter: QPainter, box: QRectF, *, chosen: bool, hovered: bool) -> None:
    edge = theme.shown.accent if chosen or hovered else theme.shown.timber_edge
    painter.setPen(QPen(QColor(edge), 2 if hovered and not chosen else 1))
    painter.setBrush(QColor(theme.shown.accent if chosen else theme.shown.timber))
    painter.drawRect(box)
    if box.width() >= _GRAIN_FROM_PX:
        painter.setPen(QPen(QColor(theme.shown.on_accent if chosen else theme.shown.timber_edge), 1, Qt.PenStyle.SolidLine))
        for off in (-1.5, 1.5):
            x = box.center().x() + off
            painter.drawLine(QPointF(x, box.top() + 3), QPointF(x, box.bottom() - 3))
