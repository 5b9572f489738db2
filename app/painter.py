"""Draws a sheet with any QPainter: into a PDF, on a printer, in the preview."""

from collections.abc import Callable, Sequence
from functools import cache

from PySide6.QtCore import QMarginsF, QPointF, QSizeF, Qt
from PySide6.QtGui import (
    QBrush,
    QColor,
    QFont,
    QPageLayout,
    QPageSize,
    QPainter,
    QPainterPath,
    QPdfWriter,
    QPen,
    QPolygonF,
)
from PySide6.QtGui import QPagedPaintDevice as PagedDevice

from app.fonts import drawing_font
from core.drawing import Circle, Paper, Path, Pen, Rings, Sheet, Text
from core.drawing.lettering import CAP_HEIGHT, text_width_mm

PDF_DOTS_PER_INCH = 1200
_MM_PER_INCH = 25.4
_FONT_PIXELS = 100

Turned = Callable[[int], bool]
"""Called before each sheet with its number from 0; returning False stops."""


def paint_sheet(painter: QPainter, sheet: Sheet) -> None:
    """Draws the sheet on a painter whose unit is one millimetre and whose origin is the paper's corner."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    # A preview records pages and leaves out a black pen that was black to begin with: it would then letter in the window's ink.
    painter.setPen(Qt.PenStyle.NoPen)
    font = drawing_font(_FONT_PIXELS)
    for item in sheet.items:
        if isinstance(item, Text):
            _paint_text(painter, item, font)
            continue
        painter.setPen(_pen(item.pen))
        painter.setBrush(_brush(item.fill))
        if isinstance(item, Circle):
            painter.drawEllipse(QPointF(*item.centre), item.radius_mm, item.radius_mm)
        elif isinstance(item, Rings):
            painter.drawPath(_area(item))
        else:
            _paint_path(painter, item)


def page_layout(paper: Paper) -> QPageLayout:
    """The paper without margins: the sheet brings its own."""
    size = QPageSize(QSizeF(paper.width_mm, paper.height_mm), QPageSize.Unit.Millimeter, paper.name)
    return QPageLayout(size, QPageLayout.Orientation.Portrait, QMarginsF(0, 0, 0, 0), QPageLayout.Unit.Millimeter)


def paint_pages(device: PagedDevice, sheets: Sequence[Sheet], turned: Turned | None = None) -> bool:
    """Paints the sheets as pages of a PDF or print job, true to size; False if stopped or the device refused."""
    if isinstance(device, QPdfWriter):
        device.setResolution(PDF_DOTS_PER_INCH)
    painter = QPainter()
    for number, sheet in enumerate(sheets):
        if turned is not None and not turned(number):
            painter.end()
            return False
        device.setPageLayout(page_layout(sheet.paper))
        if not (painter.begin(device) if number == 0 else device.newPage()):
            painter.end()
            return False
        painter.resetTransform()
        painter.scale(device.logicalDpiX() / _MM_PER_INCH, device.logicalDpiY() / _MM_PER_INCH)
        paint_sheet(painter, sheet)
    return painter.end()


def _paint_path(painter: QPainter, item: Path) -> None:
    points = QPolygonF([QPointF(x, y) for x, y in item.points])
    if item.closed:
        painter.drawPolygon(points)
    else:
        painter.drawPolyline(points)


def _area(item: Rings) -> QPainterPath:
    """All rings as one path, which a device fills in one go."""
    left, top = item.at
    path = QPainterPath()
    for ring in item.rings:
        (x, y), *others = ring
        path.moveTo(left + x, top + y)
        for x, y in others:
            path.lineTo(left + x, top + y)
        path.closeSubpath()
    return path


def _paint_text(painter: QPainter, item: Text, font: QFont) -> None:
    width = text_width_mm(item.text, item.height_mm)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[item.anchor]
    size = item.height_mm / CAP_HEIGHT / _FONT_PIXELS
    painter.save()
    painter.setFont(font)
    painter.setPen(_colour(item.grey))
    painter.translate(*item.at)
    if item.turn_degrees:
        painter.rotate(-item.turn_degrees)
    painter.translate(left, 0.0)
    painter.scale(size, size)
    painter.drawText(QPointF(0.0, 0.0), item.text)
    painter.restore()


@cache
def _pen(pen: Pen | None) -> QPen:
    if pen is None:
        return QPen(Qt.PenStyle.NoPen)
    made = QPen(_colour(pen.grey), pen.width_mm)
    made.setCapStyle(Qt.PenCapStyle.FlatCap)
    made.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    if pen.dashes_mm:
        made.setDashPattern([dash / pen.width_mm for dash in pen.dashes_mm])
    return made


@cache
def _brush(fill: float | None) -> QBrush:
    return QBrush(Qt.BrushStyle.NoBrush) if fill is None else QBrush(_colour(fill))


@cache
def _colour(grey: float) -> QColor:
    return QColor.fromRgbF(grey, grey, grey)
