"""The bench's pages on a screen: one for each course, and the check figures last. Sizes follow the window's.

Figures and counts are 44 pixels high or more on a screen of 900 lines: common practice asks for letters of a two-hundredth of
the distance, 10 mm at two metres.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from app import theme
from app.bench.job import BenchJob
from app.bench.panel_picture import PanelPicture, paint_picture
from app.bench.strip_drawing import Strip, paint_callouts, paint_counts, paint_ground, paint_strip
from app.elevation import lettering
from core.language import tr
from core.sheets.panel_legs import LegSpan

MARGIN, HEAD, FOOT = 48.0, 116.0, 10.0
LEG_NAME, CALLOUT, COUNTS, AFTER = 50.0, 66.0, 36.0, 20.0
BETWEEN_LEGS = 64.0
MOST_PITCH = 62.0
STRIPS_SHARE = {1: 0.5, 2: 0.64}
"""How much of the height the drawings take, by how many of them stand above one another."""


@dataclass(frozen=True, slots=True)
class BenchPage:
    """What a page shows: a layer by its number, or the check figures where that is past the last."""

    job: BenchJob
    number: int
    from_back: bool
    mark: str
    notice: str
    done: int
    """How many panels of the design have been built."""
    size: QSizeF

    @property
    def is_check(self) -> bool:
        return self.number >= len(self.job.layers)

    @property
    def title(self) -> str:
        return tr("Check, then hand on") if self.is_check else self.job.title(self.number)

    def px(self, size: float) -> int:
        """A size for a screen of 1600 by 900, on this one."""
        return max(9, round(size * min(self.size.width() / 1600, self.size.height() / 900)))

    def words(self) -> str:
        """The page in words, for those who are read to."""
        if self.is_check:
            figures = "; ".join(f"{name} {figure}" for name, figure, _ in self.job.checks())
            return f"{self.title}: {figures}. {self.job.strength()}"
        counted = ", ".join(tr("{part} times {count}", part=name, count=count) for name, count in self.job.counted(self.number))
        holes = self.job.hole_words(self.number, from_back=self.from_back)
        legs = [self.job.leg_words(self.number, span.leg) for span in self.job.spans]
        weak = self.job.weak_words(self.number)
        return ". ".join(part for part in (self.title, counted, *holes, *legs, *weak) if part)


def paint_page(painter: QPainter, page: BenchPage) -> None:
    """Paint a page."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.fillRect(QRectF(QPointF(0, 0), page.size), QColor(theme.shown.sheet))
    _paint_head(painter, page)
    if page.is_check:
        _paint_checks(painter, page)
        return
    strips = strips_of(page)
    for strip in strips:
        _paint_leg(painter, page, strip)
    bottom = max(strip.top + strip.depth_px + 2 * _course_px(page, strip.pitch) for strip in strips)
    _paint_lower(painter, page, bottom + page.px(AFTER))


def _paint_head(painter: QPainter, page: BenchPage) -> None:
    left, right = page.px(MARGIN), page.size.width() - page.px(MARGIN)
    _write(painter, QPointF(left, page.px(58)), page.title, page.px(76))
    is_turned = page.mark in page.job.turned
    if page.job.codes:
        build = tr("this panel only")
    else:
        build = tr("build {count}, {done} done", count=page.job.design.count, done=page.done)
    _write_right(painter, QPointF(right, page.px(36)), f"{page.job.name}: {build}", page.px(34), bold=True)
    _write_right(painter, QPointF(right, page.px(80)), _way_words(page), page.px(30), bold=page.from_back or is_turned)
    painter.setPen(QPen(QColor(theme.shown.ink), 2))
    painter.drawLine(QPointF(left, page.px(106)), QPointF(right, page.px(106)))
    if page.notice:
        _paint_notice(painter, page)


def _way_words(page: BenchPage) -> str:
    """Which panel it is, and which way round it lies and hangs."""
    said = tr("panel {panel}", panel=page.mark)
    if page.job.has_moved_holes:
        said += tr(", moved holes")
    if page.job.colour:
        said += tr(", in {colour}", colour=page.job.colour)
    if page.mark in page.job.turned:
        said += tr(", hangs turned about")
    side = tr("back towards you") if page.from_back else tr("room side towards you")
    return f"{said}; {side}"


def _paint_notice(painter: QPainter, page: BenchPage) -> None:
    size = page.px(32)
    box = QRectF(page.px(MARGIN), page.px(112), page.size.width() - 2 * page.px(MARGIN), size * 1.5)
    painter.fillRect(box, QColor(theme.shown.accent_wash))
    _write(painter, QPointF(box.left() + size / 2, box.center().y()), page.notice, _fitted(page.notice, box.width() - size, size))


def strips_of(page: BenchPage) -> list[Strip]:
    """The legs' drawings as large as they fit: side by side or one above the other, whichever is larger."""
    spans = list(reversed(page.job.spans)) if page.from_back else list(page.job.spans)
    beside, stacked = _pitch(page, spans, 1), _pitch(page, spans, len(spans))
    lanes = page.px(CALLOUT) + page.px(COUNTS) + (page.px(LEG_NAME) if len(spans) > 1 else 0)
    pitch = max(beside, stacked)
    left, top = float(page.px(MARGIN)), float(page.px(HEAD))
    strips = []
    if beside >= stacked:
        gaps = (len(spans) - 1) * page.px(BETWEEN_LEGS)
        left = (page.size.width() - sum(span.width for span in spans) * pitch - gaps) / 2
    for span in spans:
        strips.append(Strip(page.job, page.number, span, pitch, left, top + lanes, page.from_back))
        if beside >= stacked:
            left += span.width * pitch + page.px(BETWEEN_LEGS)
        else:
            top += lanes + page.job.bond.depth * pitch + 2 * _course_px(page, pitch) + page.px(AFTER)
    return strips


def _pitch(page: BenchPage, spans: Sequence[LegSpan], above: int) -> float:
    """The largest pitch with so many drawings above one another."""
    lanes = page.px(CALLOUT) + page.px(COUNTS) + page.px(AFTER) + (page.px(LEG_NAME) if len(spans) > 1 else 0)
    room = page.size.width() - 2 * page.px(MARGIN)
    knobs = max(span.width for span in spans)
    if above < len(spans):
        room -= (len(spans) - 1) * page.px(BETWEEN_LEGS)
        knobs = sum(span.width for span in spans)
    high = page.size.height() * STRIPS_SHARE[above] - page.px(HEAD) / 2
    by_height = (high / above - lanes) / (page.job.bond.depth + 2 * _course_px(page, 1.0))
    return max(4.0, min(room / knobs, by_height, page.px(MOST_PITCH)))


def _course_px(page: BenchPage, pitch: float) -> float:
    kit = page.job.kit
    return kit.plates_per_course * kit.plate_mm / kit.pitch_mm * pitch


def _paint_leg(painter: QPainter, page: BenchPage, strip: Strip) -> None:
    paint_strip(painter, strip, page.px(54))
    paint_counts(painter, strip, page.px(26))
    paint_callouts(painter, strip, strip.top - page.px(COUNTS), page.px(30))
    if words := page.job.leg_words(page.number, strip.span.leg):
        words = words[0].upper() + words[1:]
        room = strip.width + page.px(BETWEEN_LEGS) / 2
        size = _fitted(words, room, page.px(36))
        top = strip.top - page.px(COUNTS) - page.px(CALLOUT) - page.px(LEG_NAME) / 2
        _write(painter, QPointF(strip.left, top), words, size, bold=page.job.is_first(page.number, strip.span.leg))


def _paint_lower(painter: QPainter, page: BenchPage, top: float) -> None:
    """The whole panel on the left, what this course takes on the right."""
    left, bottom = page.px(MARGIN) + 24.0, page.size.height() - page.px(FOOT)
    width = page.size.width() * 0.3
    picture = PanelPicture(page.job, QRectF(left, top, width, bottom - top - 4), page.number, page.from_back)
    paint_picture(painter, picture)
    x = max(picture.right + page.px(70), page.size.width() * 0.3)
    y = top
    size = page.px(32)
    for words in page.job.hole_words(page.number, from_back=page.from_back):
        box = QRectF(x, y, page.size.width() - page.px(MARGIN) - x, size * 1.45)
        painter.fillRect(box, QColor(theme.shown.hole_ground))
        _write(painter, QPointF(x + 12, box.center().y()), words, _fitted(words, box.width() - 24, size, bold=True), bold=True)
        y = box.bottom() + page.px(8)
    weak = page.job.weak_words(page.number)
    room = bottom - y - len(weak) * page.px(34)
    _paint_parts(painter, page, QRectF(x, y, page.size.width() - page.px(MARGIN) - x, max(room, 1.0)))
    for number, words in enumerate(weak):
        words = tr("weaker here: {fault}", fault=words)
        place = QPointF(x, bottom - (len(weak) - number - 0.5) * page.px(34))
        _write(painter, place, words, _fitted(words, page.size.width() - page.px(MARGIN) - x, page.px(26)))


def _paint_parts(painter: QPainter, page: BenchPage, box: QRectF) -> None:
    """How many of which part this course takes, each with a swatch as it is drawn; in columns where there are many."""
    counted = page.job.swatches(page.number)
    size = next((px for px in map(page.px, (60, 54)) if len(counted) * px * 1.35 <= box.height()), page.px(48))
    down = max(1, int(box.height() / (size * 1.35)))
    columns = -(-len(counted) // down)
    if columns > 2:
        size = max(9, int(box.height() / (-(-len(counted) // 2) * 1.35)))
        down, columns = -(-len(counted) // 2), 2
    for number, (part, name, count) in enumerate(counted):
        x = box.left() + number // down * box.width() / columns
        y = box.top() + (number % down + 0.5) * size * 1.35
        look = page.job.looks[part]
        swatch = QRectF(x, y - size * 0.5, size * 1.5, size)
        paint_ground(painter, swatch, look)
        painter.setPen(QColor(theme.shown.ink))
        painter.setFont(lettering.font(int(size * 0.7), bold=True))
        lettering.write(painter, swatch.center(), look.label, int(size * 0.7), bold=True)
        words = f"{name} × {count}"
        room = box.width() / columns - size * 2.2
        _write(painter, QPointF(x + size * 1.9, y), words, _fitted(words, room, size, bold=True), bold=True)


def _paint_checks(painter: QPainter, page: BenchPage) -> None:
    """The finished panel beside the figures to check it by."""
    top = page.px(HEAD) + page.px(60)
    left, bottom = page.px(MARGIN) + 10.0, page.size.height() - page.px(FOOT)
    picture = PanelPicture(
        page.job, QRectF(left, top, page.size.width() * 0.34, bottom - top - 4), len(page.job.layers), page.from_back
    )
    paint_picture(painter, picture)
    x, right = max(picture.right + page.px(60), page.size.width() * 0.32), page.size.width() - page.px(MARGIN)
    rows = page.job.checks()
    step = min(page.px(66), (bottom - top) / max(1, len(rows)))
    size = min(page.px(46), int(step * 0.75))
    middle = x + (right - x) * 0.62
    for number, (name, figure, passes) in enumerate(rows):
        y = top + (number + 0.5) * step
        _write(painter, QPointF(x, y), name, _fitted(name, middle - x - size * 3, size))
        _write_right(painter, QPointF(middle, y), figure, size, bold=True)
        if passes:
            _write(painter, QPointF(middle + size, y), passes, _fitted(passes, right - middle - size, int(size * 0.75)))
    below = top + (len(rows) + 0.4) * step
    words = f"{page.job.clear_holes()}\n{page.job.strength()}"
    _paint_wrapped(painter, QRectF(x, below, right - x, max(1.0, bottom - below)), words, page.px(30))


def _paint_wrapped(painter: QPainter, box: QRectF, text: str, size: int) -> None:
    """Words from the box's top, smaller where they would not fit it."""
    flags = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop) | Qt.TextFlag.TextWordWrap.value
    painter.setPen(QColor(theme.shown.ink))
    for pixels in range(size, 8, -1):
        painter.setFont(lettering.font(pixels))
        if painter.boundingRect(box, flags, text).height() <= box.height():
            break
    painter.drawText(box, flags, text)


def _write(painter: QPainter, left_middle: QPointF, text: str, size: int, *, bold: bool = False) -> None:
    painter.setPen(QColor(theme.shown.ink))
    painter.setFont(lettering.font(size, bold=bold))
    wide = lettering.width_px(text, size, bold=bold)
    lettering.write(painter, left_middle + QPointF(wide / 2, 0), text, size, bold=bold)


def _write_right(painter: QPainter, right_middle: QPointF, text: str, size: int, *, bold: bool = False) -> None:
    _write(painter, right_middle - QPointF(lettering.width_px(text, size, bold=bold), 0), text, size, bold=bold)


def _fitted(text: str, width: float, size: int, *, bold: bool = False) -> int:
    """The size, or less where the text would be too wide."""
    wide = lettering.width_px(text, size, bold=bold)
    return size if wide <= width else max(9, int(size * width / wide))
