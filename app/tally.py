"""The tally board: the few figures that decide, in big type, each with its difference while the person drags."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QHelpEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QFrame, QHBoxLayout, QLabel, QToolTip, QVBoxLayout, QWidget

from app import theme
from app.document import Document
from app.kind_key import BELOW_LINES, BESIDE_LINES, KindKey
from app.opaque import Opaque
from app.panel_spans import changed_spans
from app.steady_label import SteadyLabel
from app.theme.look import InStep, Style
from core.language import marked, tr
from core.reasons import blocking_words, designs_words, hours_words, panels_words
from core.reasons.figures import PROVEN
from core.setout.result import CrewMinutes, Panel, SetOut

DIFFERENCE_PX = 20
TWO_FIGURES = 10
"""Numbers and differences of up to two figures before the point leave everything else where it is."""


class _LastCount:
    """The points without timber of the panels counted last; of the next ones only those are counted that have changed."""

    def __init__(self) -> None:
        self._panels: tuple[Panel, ...] = ()
        self._missing = 0

    def missing(self, panels: tuple[Panel, ...]) -> int:
        gone, come = changed_spans(self._panels, panels)
        self._panels = panels
        self._missing += _missing(come) - _missing(gone)
        return self._missing


_last = _LastCount()


def points_without_timber(setout: SetOut) -> int:
    """How many mounting points have nothing behind them to hold a screw."""
    return _last.missing(setout.panels)


def _missing(panels: tuple[Panel, ...]) -> int:
    return [mount.lands_on for panel in panels for face in panel.faces for mount in face.mounts].count(None)


@dataclass(frozen=True, slots=True)
class Figure:
    """One number on the board, its caption shown through ``tr``; fewer is better for all of them."""

    caption: str
    decimals: int
    read: Callable[[SetOut], float]
    explain: Callable[[SetOut, bool], str]
    """Its formula, given whether the set-out is worked out in full."""


FIGURES = (
    Figure(marked("panels"), 0, lambda s: s.tally.panels, lambda s, _full: panels_words(s)),
    Figure(marked("crew hours"), 1, lambda s: s.minutes.total / 60, lambda s, full: hours_words(s, is_full=full)),
    Figure(marked("designs not in kit"), 0, lambda s: s.tally.designs_not_in_kit, lambda s, _full: designs_words(s)),
    Figure(marked("points without timber"), 0, points_without_timber, lambda s, _full: blocking_words(s)),
)


def difference_text(difference: float, decimals: int) -> str:
    """A signed difference with a sign a glance can read: fewer points down, more points up; empty where none shows."""
    shown = f"{abs(difference):.{decimals}f}"
    if float(shown) == 0:
        return ""
    return f"▼ −{shown}" if difference < 0 else f"▲ +{shown}"


class TallyBoard(QFrame):
    """Listens to the document. Compares with the start of the running gesture, or with the set-out before the last change."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("board")
        self.setAccessibleName(tr("Tally"))
        self._document = document
        self._base: tuple[SetOut, list[float]] | None = None
        self._figures = [_FigureView(figure, self._explain) for figure in FIGURES]
        self._figures[1].keep_room_for(tr("sketched"), tr("proven least"), tr("within {percent:.1f} %", percent=10))
        self._kinds = KindKey()
        self.differs = False
        """Whether any figure shows a difference."""
        figures = QHBoxLayout()
        figures.setSpacing(14)
        for view in self._figures:
            figures.addWidget(view)
        figures.addStretch(1)
        self._columns = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._columns.setContentsMargins(18, 6, 18, 8)
        self._columns.setSpacing(6)
        self._columns.addLayout(figures)
        self._columns.addWidget(self._kinds)
        document.changed.connect(self.show_setout)
        self.show_setout(document.setout)

    def minimumSizeHint(self) -> QSize:
        """Wide enough for the figures alone: the key goes below them where there is no room beside."""
        return QSize(max(self._figures_px, self._kinds.wide_px(BELOW_LINES)) + 36, super().minimumSizeHint().height())

    @property
    def _figures_px(self) -> int:
        return sum(max(view.minimumWidth(), view.minimumSizeHint().width()) + 14 for view in self._figures)

    def resizeEvent(self, event: QResizeEvent) -> None:
        has_room = event.size().width() >= self._figures_px + self._kinds.wide_px(BESIDE_LINES) + 36
        way = QBoxLayout.Direction.LeftToRight if has_room else QBoxLayout.Direction.TopToBottom
        if way != self._columns.direction():
            self._columns.setDirection(way)
            self._kinds.set_lines(BESIDE_LINES if has_room else BELOW_LINES)
        super().resizeEvent(event)

    def show_setout(self, setout: SetOut) -> None:
        """Write the set-out's figures, and how they differ from the one compared with."""
        base = self._document.gesture_base or self._document.previous
        values = [figure.read(setout) for figure in FIGURES]
        before = self._values_of(base) if base else values
        for view, value, old in zip(self._figures, values, before, strict=True):
            view.show_value(value, value - old)
        self.differs = any(view.difference.text() for view in self._figures)
        self._kinds.show_counts(setout.tally.by_kind, (base or setout).tally.by_kind, self.comparison if self.differs else "")
        self._figures[1].add_to_caption(self._nearness(setout.minutes))
        if self._document.gesture_base is None:
            for view in self._figures:
                view.setAccessibleDescription(self._explain(view.figure))

    @property
    def explanations(self) -> list[tuple[str, str]]:
        """Every figure's caption, and how the figure comes about."""
        return [(tr(figure.caption), self._explain(figure)) for figure in FIGURES]

    def _explain(self, figure: Figure) -> str:
        return figure.explain(self._document.setout, self._document.is_full)

    def _nearness(self, minutes: CrewMinutes) -> str:
        """How near the set-out is to the least possible."""
        if not self._document.is_full:
            return tr("sketched")
        return tr("proven least") if minutes.excess < PROVEN else tr("within {percent:.1f} %", percent=100 * minutes.excess)

    @property
    def comparison(self) -> str:
        """What the differences on the board are measured from."""
        if self._document.gesture_base:
            return tr("▲▼ in this drag")
        return tr("▲▼ by last change") if self._document.previous else ""

    def text_of(self, caption: str) -> tuple[str, str]:
        """The number and the difference shown under a caption."""
        view = next(v for v in self._figures if v.figure.caption == caption)
        return view.number.text(), view.difference.text()

    def _values_of(self, base: SetOut) -> list[float]:
        if self._base is None or self._base[0] is not base:
            self._base = (base, [figure.read(base) for figure in FIGURES])
        return self._base[1]


class _FigureView(QWidget):
    """A number, its difference beside it and what it counts below; how it comes about is said to a pointer that rests on it."""

    def __init__(self, figure: Figure, explain: Callable[[Figure], str]) -> None:
        super().__init__()
        self.figure, self._explain = figure, explain
        self.caption, self._decimals = tr(figure.caption), figure.decimals
        self.number = _OnBoard([f"{TWO_FIGURES:.{figure.decimals}f}"], theme.BIG_PX)
        self.difference = _Difference(figure.decimals)
        self.below = below = QLabel()
        below.setText(self.caption)
        Style(below, lambda: f"color: {theme.shown.quiet_chalk}; font-size: {theme.px(theme.TEXT_PX)}px")
        top = QHBoxLayout()
        top.setSpacing(10)
        top.addWidget(self.number, alignment=Qt.AlignmentFlag.AlignBaseline)
        top.addWidget(self.difference, alignment=Qt.AlignmentFlag.AlignBaseline)
        top.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addLayout(top)
        layout.addWidget(below)
        self._additions: tuple[str, ...] = ()
        InStep(self, self._grow)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            QToolTip.showText(event.globalPos(), self._explain(self.figure), self)
            return True
        return super().event(event)

    def show_value(self, value: float, difference: float) -> None:
        self.number.setText(f"{value:.{self._decimals}f}")
        self.difference.show_difference(difference)
        self.setAccessibleName(f"{self.caption}: {self.number.text()} {self.difference.text()}".strip())

    def keep_room_for(self, *additions: str) -> None:
        """Be wide enough for the caption with any of these after it, so that no language is cut short and nothing moves."""
        self._additions = additions
        self._grow()

    def _grow(self) -> None:
        font = QFont(self.font())
        font.setPixelSize(theme.px(theme.TEXT_PX))
        captions = (self.caption, *(self._with(text) for text in self._additions))
        self.setMinimumWidth(max(theme.px(166), *(QFontMetrics(font).horizontalAdvance(one) for one in captions)))

    def _with(self, text: str) -> str:
        return f"{self.caption}, {text}"

    def add_to_caption(self, text: str) -> None:
        """Say more about the number, after what it counts."""
        said = self._with(text)
        if said != self.below.text():
            self.below.setText(said)


class _OnBoard(SteadyLabel):
    """Big letters on the board's ground, which they bring along: nothing below them is painted when they change."""

    def __init__(self, roomy_for: Sequence[str], size_px: int) -> None:
        super().__init__(roomy_for)
        Style(self, lambda: f"font-size: {theme.big_px(size_px)}px; font-weight: {QFont.Weight.Bold.value}")
        Opaque(self)

    @property
    def ink(self) -> str:
        return theme.shown.chalk

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(theme.shown.board))
        painter.setPen(QColor(self.ink))
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignVCenter, self.text())
        painter.end()


class _Difference(_OnBoard):
    """By how much a number differs, in the colour of fewer or of more."""

    def __init__(self, decimals: int) -> None:
        super().__init__([difference_text(by, decimals) for by in (TWO_FIGURES, -TWO_FIGURES)], DIFFERENCE_PX)
        self._decimals, self._is_fewer = decimals, False

    def show_difference(self, difference: float) -> None:
        self._is_fewer = difference < 0
        self.setText(difference_text(difference, self._decimals))

    @property
    def ink(self) -> str:
        return theme.shown.fewer if self._is_fewer else theme.shown.more
