"""One leg of one course, large: its parts from above and from the front, and the course below pale underneath."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPolygonF

from app import theme
from app.bench.job import BenchJob
from app.elevation import lettering
from core.bond.result import Laid, Layer
from core.language import tr
from core.sheets.panel_bricks import HOLE_MM, Look
from core.sheets.panel_legs import LegSpan, owns_square
from core.sheets.panel_patterns import hole_lines

KNOB_MM = 4.9


@dataclass(frozen=True, slots=True)
class Strip:
    """Where a leg's course is drawn: ``pitch`` pixels to the knob, the left end at ``left``, the parts' upper edge at ``top``."""

    job: BenchJob
    number: int
    span: LegSpan
    pitch: float
    left: float
    top: float
    from_back: bool

    @property
    def layer(self) -> Layer:
        return self.job.layers[self.number]

    @property
    def below(self) -> Layer | None:
        return self.job.layers[self.number - 1] if self.number else None

    @property
    def width(self) -> float:
        return self.span.width * self.pitch

    @property
    def depth_px(self) -> float:
        return self.job.bond.depth * self.pitch

    @property
    def front(self) -> int:
        """The side that faces the viewer."""
        return self.job.bond.depth - 1 if self.from_back else 0

    def high_px(self, layer: Layer) -> float:
        """How high a layer is seen from the front."""
        return layer.height_plates * self.job.kit.plate_mm / self.job.kit.pitch_mm * self.pitch

    def x(self, line: int) -> float:
        knobs = self.span.end - line if self.from_back else line - self.span.begin
        return self.left + knobs * self.pitch

    def across(self, begin: int, end: int) -> tuple[float, float]:
        """The left and right edge of a run of pitches."""
        one, other = sorted((self.x(begin), self.x(end)))
        return one, other

    def from_above(self, laid: Laid) -> QRectF:
        """A part seen from above, the viewer's side at the bottom."""
        x0, x1 = self.across(laid.at, laid.at + laid.length)
        if laid.side is None:
            return QRectF(x0, self.top, x1 - x0, self.depth_px)
        away = abs(laid.side - self.front)
        return QRectF(x0, self.top + self.depth_px - (away + 1) * self.pitch, x1 - x0, self.pitch)

    def mine(self, layer: Layer) -> list[Laid]:
        return [laid for laid in layer.laid if laid.leg == self.span.leg]


def paint_strip(painter: QPainter, strip: Strip, text_px: int) -> None:
    """The course: the one below first, then the front, then the parts from above with their lengths."""
    front_top = strip.top + strip.depth_px
    high = strip.high_px(strip.layer)
    _paint_other_leg(painter, strip)
    _paint_below(painter, strip, front_top + high, text_px)
    _paint_front(painter, strip, front_top, high)
    for laid in strip.mine(strip.layer):
        look = strip.job.looks[laid.part]
        _paint_part(painter, strip.from_above(laid), look, strip.pitch)
    labels = strip.job.labels(strip.number)
    for laid in strip.mine(strip.layer):
        _paint_label(painter, strip.from_above(laid), strip.job.looks[laid.part], labels[laid], text_px)


def _paint_below(painter: QPainter, strip: Strip, top: float, text_px: int) -> None:
    """The course below from the front, pale, so that its joints are seen under this one's; the table under the first."""
    layer = strip.below
    if layer is None:
        painter.fillRect(
            QRectF(strip.left - 12, top + 1, strip.width + 24, 10),
            QBrush(QColor(theme.shown.pale_ink), Qt.BrushStyle.BDiagPattern),
        )
        painter.setPen(QPen(QColor(theme.shown.pale_ink), 2))
        painter.drawLine(QLineF(strip.left - 12, top + 1, strip.left + strip.width + 12, top + 1))
        return
    high = strip.high_px(layer)
    painter.setPen(QPen(QColor(theme.shown.pale_ink), 2))
    painter.setBrush(QColor(theme.shown.pale_ground))
    boxes = [QRectF(x0, top, x1 - x0, high) for x0, x1 in _front_runs(strip, layer)]
    painter.drawRects(boxes)
    size = min(text_px // 2, int(high * 0.7))
    if size < 9:
        return
    painter.setPen(QColor(theme.shown.pale_text))
    painter.setFont(lettering.font(size))
    for laid, (x0, x1) in zip(_in_front(strip, layer), _front_runs(strip, layer), strict=True):
        lettering.write(painter, QPointF((x0 + x1) / 2, top + high / 2), strip.job.looks[laid.part].label, size)


def _paint_front(painter: QPainter, strip: Strip, top: float, high: float) -> None:
    painter.setPen(QPen(QColor(theme.shown.ink), 2))
    painter.setBrush(QColor(theme.shown.sheet))
    painter.drawRects([QRectF(x0, top, x1 - x0, high) for x0, x1 in _front_runs(strip, strip.layer)])
    radius = HOLE_MM / 2 / strip.job.kit.pitch_mm * strip.pitch
    for leg, line in hole_lines(strip.layer):
        if leg == strip.span.leg:
            painter.setBrush(QColor(theme.shown.ink))
            painter.drawEllipse(QPointF(strip.x(line), top + high / 2), radius, radius)


def _in_front(strip: Strip, layer: Layer) -> list[Laid]:
    return [laid for laid in strip.mine(layer) if laid.side in (None, strip.front)]


def _front_runs(strip: Strip, layer: Layer) -> list[tuple[float, float]]:
    return [strip.across(laid.at, laid.at + laid.length) for laid in _in_front(strip, layer)]


def _paint_other_leg(painter: QPainter, strip: Strip) -> None:
    """The corner's square crossed out where the other leg fills it, in this course and in the one below."""
    top, deep = strip.top, strip.depth_px
    high = strip.high_px(strip.layer)
    lanes = [(strip.layer, top, deep), (strip.layer, top + deep, high)]
    if strip.below is not None:
        lanes.append((strip.below, top + deep + high, strip.high_px(strip.below)))
    painter.setPen(QPen(QColor(theme.shown.pale_ink), 2))
    painter.setBrush(QColor(theme.shown.pale_ground))
    for layer, y, tall in lanes:
        if strip.span.square is not None and _is_others(strip, layer):
            x0, x1 = strip.across(*strip.span.square)
            box = QRectF(x0, y, x1 - x0, tall)
            painter.drawRect(box)
            painter.drawLine(box.topLeft(), box.bottomRight())
            painter.drawLine(box.topRight(), box.bottomLeft())


def _is_others(strip: Strip, layer: Layer) -> bool:
    """Whether the other leg fills the corner's square in a layer."""
    return not owns_square(layer, strip.span) and any(
        owns_square(layer, span) for span in strip.job.spans if span.leg != strip.span.leg
    )


def ground(look: Look) -> QBrush:
    """A part's ground, told apart without colour as on paper: by grey, by hatching, or white."""
    if look.kind in ("pin-hole brick", "locating plate"):
        return QBrush(QColor(theme.shown.hole_ground))
    grey = 1.0 if look.grey is None else look.grey
    return QBrush(theme.grey(grey))


def paint_ground(painter: QPainter, box: QRectF, look: Look) -> None:
    """A part's ground and edge; heavy round what is no plain part."""
    is_special = look.kind in ("pin-hole brick", "locating plate")
    painter.setPen(QPen(QColor(theme.shown.ink), 4 if is_special else 2))
    painter.setBrush(ground(look))
    painter.drawRect(box.adjusted(1, 1, -1, -1) if is_special else box)
    if look.is_hatched:
        painter.fillRect(box.adjusted(1, 1, -1, -1), QBrush(QColor(theme.shown.hatch), Qt.BrushStyle.BDiagPattern))


def _paint_part(painter: QPainter, box: QRectF, look: Look, pitch: float) -> None:
    paint_ground(painter, box, look)
    if look.kind == "tile":
        return
    painter.setPen(QPen(QColor(theme.shown.pale_ink), 1))
    painter.setBrush(QColor(theme.shown.knob_ground))
    radius = KNOB_MM / 8.0 * pitch / 2
    for centre in _knobs(box, look, pitch):
        painter.drawEllipse(centre, radius, radius)


def _knobs(box: QRectF, look: Look, pitch: float) -> Iterator[QPointF]:
    """The knobs on a part: one in the middle of a locating plate."""
    if look.kind == "locating plate":
        yield box.center()
        return
    for across in range(round(box.width() / pitch)):
        for down in range(round(box.height() / pitch)):
            yield QPointF(box.left() + (across + 0.5) * pitch, box.top() + (down + 0.5) * pitch)


def _paint_label(painter: QPainter, box: QRectF, look: Look, label: str, text_px: int) -> None:
    """The length in knobs, with the letter of its colour where there are several, as large as it fits, on a clear ground."""
    size = min(text_px, int(box.height() * 0.8), int(box.width() * 1.1 / max(1, len(label))))
    if size < 9:
        return
    wide = lettering.width_px(label, size, bold=True) + size * 0.3
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ground(look))
    painter.drawRoundedRect(QRectF(box.center().x() - wide / 2, box.center().y() - size * 0.5, wide, size), 4, 4)
    painter.setPen(QColor(theme.shown.ink))
    painter.setFont(lettering.font(size, bold=True))
    lettering.write(painter, box.center(), label, size, bold=True)


def paint_counts(painter: QPainter, strip: Strip, size: int) -> None:
    """Running knob counts above the strip: a tick at every knob, the count at every joint that has room for it."""
    joints = {strip.span.begin, strip.span.end}
    joints |= {end for laid in strip.mine(strip.layer) for end in (laid.at, laid.at + laid.length)}
    lines = range(strip.span.begin, strip.span.end + 1)
    painter.setPen(QPen(QColor(theme.shown.ink), 2))
    painter.drawLines([QLineF(strip.x(n), strip.top - 2, strip.x(n), strip.top - (9 if n in joints else 5)) for n in lines])
    painter.setFont(lettering.font(size))
    ordered = sorted((strip.x(n), round(abs(strip.x(n) - strip.left) / strip.pitch)) for n in joints)
    for x, count in _thinned(ordered, size):
        lettering.write(painter, QPointF(x, strip.top - 11 - size * 0.6), str(count), size)


def _thinned(places: Sequence[tuple[float, int]], size: int) -> list[tuple[float, int]]:
    """As many counts as stand side by side; the last one among them."""
    *others, last = places
    kept: list[tuple[float, int]] = []
    for place in others:
        if last[0] - place[0] > size * 1.4 and (not kept or place[0] - kept[-1][0] > size * 1.4):
            kept.append(place)
    return [*kept, last]


def paint_callouts(painter: QPainter, strip: Strip, bottom: float, size: int) -> None:
    """Big words over every pin-hole pair; neighbours too close for words of their own share one."""
    lines = sorted(strip.x(line) for leg, line in hole_lines(strip.layer) if leg == strip.span.leg)
    width = lettering.width_px(tr("pin-hole pair here"), size, bold=True) + size
    groups: list[list[float]] = []
    for x in lines:
        if groups and x - groups[-1][-1] < width:
            groups[-1].append(x)
        else:
            groups.append([x])
    for group in groups:
        _paint_callout(painter, strip, group, bottom, size)


def _paint_callout(painter: QPainter, strip: Strip, lines: Sequence[float], bottom: float, size: int) -> None:
    words = tr("pin-hole pair here") if len(lines) == 1 else tr("pin-hole pairs here")
    wide, high = lettering.width_px(words, size, bold=True) + size, size * 1.35
    middle = (lines[0] + lines[-1]) / 2
    reach = strip.width + 24
    left = min(max(middle - wide / 2, strip.left - 12), max(strip.left - 12, strip.left - 12 + reach - wide))
    box = QRectF(left, bottom - high - 16, wide, high)
    ink = QColor(theme.shown.ink)
    painter.setPen(QPen(ink, 3))
    for x in lines:
        tip = QPointF(x, strip.top + 4)
        painter.drawLine(QPointF(min(max(x, box.left() + 4), box.right() - 4), box.bottom()), tip)
        painter.setBrush(ink)
        painter.drawPolygon(QPolygonF([tip, tip + QPointF(-8, -14), tip + QPointF(8, -14)]))
    painter.setBrush(QColor(theme.shown.hole_ground))
    painter.drawRoundedRect(box, 4, 4)
    painter.setFont(lettering.font(size, bold=True))
    lettering.write(painter, box.center(), words, size, bold=True)
