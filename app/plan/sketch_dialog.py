"""The dialog that a room's walls come from: ready shape, drawing, or measured list, with the paper beside them."""

import math
from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QIcon, QKeySequence
from PySide6.QtWidgets import (
    QButtonGroup,
    QDialog,
    QDialogButtonBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QScrollArea,
    QSizePolicy,
    QStackedWidget,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app import theme
from app.plan.draw_way import DrawWay
from app.plan.list_way import ListWay
from app.plan.shape_way import ShapeWay
from app.plan.ways import Way
from app.theme.look import InStep, Style
from core.edits.sketch import floor_mm2
from core.errors import CoursewrightError
from core.language import tr, trc
from core.room import Point, Units
from core.survey import Leg
from core.units import MM_PER_FOOT, format_length, reason

SIDE_PX = 352
Taker = Callable[[tuple[Point, ...]], None]
"""What is done with the walls. Raises CoursewrightError, and the dialog stays, where they will not do."""


class SketchDialog(QDialog):
    """Three ways to an outline. Accepts only walls that make a room, and only once the taker has taken them."""

    def __init__(
        self, title: str, yes: str, units: Units, take: Taker, parent: QWidget | None = None, *,
        behind: Sequence[Point] = (), legs: Sequence[Leg] = (), top: QWidget | None = None,
    ) -> None:  # fmt: skip
        super().__init__(parent)
        self.setWindowTitle(title)
        self.resize(1180, 760)
        self._units, self._take = units, take
        self.shape, self.draw, self.list = ShapeWay(units), DrawWay(units, behind), ListWay(units, legs)
        self.ways: tuple[Way, ...] = (self.shape, self.draw, self.list)
        self._buttons, self._group = list[QToolButton](), QButtonGroup(self)
        self._pages, self._papers = QStackedWidget(), QStackedWidget()
        self.fault = QLabel()
        self.fault.setObjectName("sketchfault")
        self.fault.setWordWrap(True)
        self.fault.setMinimumHeight(40)
        self.buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel)
        self.buttons.button(QDialogButtonBox.StandardButton.Ok).setText(yes)
        for button in self.buttons.buttons():
            button.setIcon(QIcon())
        self.buttons.accepted.connect(self.accept)
        self.buttons.rejected.connect(self.reject)
        Style(self, _sheet)
        self._place(top)
        for way in self.ways:
            way.changed.connect(self._follow)
        self.draw.hand.used.connect(self.accept)
        self.draw.hand.left.connect(self.reject)
        self.go(0)

    @property
    def way(self) -> Way:
        """The way in use."""
        return self.ways[self._pages.currentIndex()]

    def go(self, place: int) -> None:
        """Take another way; what was done on the others stays there."""
        self._buttons[place].setChecked(True)
        self._pages.setCurrentIndex(place)
        self._papers.setCurrentIndex(place)
        self.way.begin()
        self._follow()

    def accept(self) -> None:
        """Close with the walls taken; stay, and say why, where they are none or are not taken."""
        try:
            self._take(self.way.corners())
        except CoursewrightError as error:
            self._say(reason(error, self._units), refused=True)
            return
        super().accept()

    def _place(self, top: QWidget | None) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 10)
        layout.addWidget(self._board())
        middle, side = QHBoxLayout(), QWidget()
        middle.setContentsMargins(12, 6, 12, 0)
        middle.setSpacing(12)
        column = QVBoxLayout(side)
        column.setContentsMargins(0, 0, 6, 0)
        column.setSpacing(10)
        if top is not None:
            column.addWidget(top)
        column.addLayout(self._chooser())
        column.addWidget(self._pages, 1)
        scroll = QScrollArea()
        scroll.setObjectName("side")
        scroll.setWidget(side)
        scroll.setAccessibleName(tr("How the walls are given"))
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        InStep(scroll, lambda: scroll.setFixedWidth(theme.px(SIDE_PX) + 16))
        frame = QFrame()
        frame.setObjectName("card")
        QVBoxLayout(frame).addWidget(self._papers)
        middle.addWidget(scroll)
        middle.addWidget(frame, 1)
        layout.addLayout(middle, 1)
        foot = QHBoxLayout()
        foot.setContentsMargins(12, 0, 12, 0)
        foot.addWidget(self.fault, 1)
        foot.addWidget(self.buttons)
        layout.addLayout(foot)

    def _board(self) -> QFrame:
        board = QFrame()
        board.setObjectName("board")
        row = QHBoxLayout(board)
        row.setContentsMargins(16, 6, 16, 8)
        row.setSpacing(44)
        self.figures: dict[str, QLabel] = {}
        captions = {
            "this wall": tr("this wall"),
            "walls": tr("walls"),
            "floor": trc("its area", "floor"),
            "way round": tr("way round"),
        }
        for name, caption in captions.items():
            figure, words = QLabel("–"), QLabel(caption)
            figure.setObjectName("figure")
            words.setObjectName("caption")
            column = QVBoxLayout()
            column.setSpacing(0)
            column.addWidget(figure)
            column.addWidget(words)
            row.addLayout(column)
            self.figures[name] = figure
            if name == "this wall":
                self._of_drawing = (figure, words)
        self.figures["this wall"].setMinimumWidth(190)
        self.hint = QLabel()
        self.hint.setObjectName("hint")
        self.hint.setWordWrap(True)
        self.hint.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        row.addWidget(self.hint, 1)
        return board

    def _chooser(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(0)
        for place, way in enumerate(self.ways):
            button, name = QToolButton(), tr(way.name)
            button.setAccessibleName(name)
            button.setCheckable(True)
            button.setText(name)
            # After the words, which take a shortcut away; with Ctrl, for the paper takes all other figures as lengths.
            button.setShortcut(f"Ctrl+{place + 1}")
            button.setToolTip(f"{name} ({button.shortcut().toString(QKeySequence.SequenceFormat.NativeText)})")
            button.setMinimumHeight(36)
            button.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
            self._group.addButton(button, place)
            self._buttons.append(button)
            row.addWidget(button)
            self._pages.addWidget(way)
            self._papers.addWidget(way.paper)
        self._group.idClicked.connect(self.go)
        return row

    def _follow(self) -> None:
        """Figures and message follow what is being done."""
        self._say(self.way.notice(), refused=True)
        self.hint.setText(self.way.hint())
        hand = self.draw.hand
        is_drawing = self.way is self.draw
        end, last = hand.end, hand.last
        live = format_length(math.dist(last, end), self._units) if is_drawing and last and end else "–"
        for words in self._of_drawing:
            words.setVisible(is_drawing)
        self.figures["this wall"].setText(f"{hand.typed}▏" if is_drawing and hand.typed else live)
        try:
            corners = self.way.corners()
        except CoursewrightError as error:
            self._show_figures(())
            if not is_drawing and not self.fault.text():
                self._say(reason(error, self._units))
            return
        self._show_figures(corners)

    def _show_figures(self, corners: Sequence[Point]) -> None:
        fixed = len(self.draw.hand.walked or self.draw.hand.sketch.points_mm) if self.way is self.draw else 0
        self.figures["walls"].setText(str(len(corners) or max(0, fixed - 1) or "–"))
        self.figures["floor"].setText(_area(floor_mm2(corners), self._units) if corners else "–")
        round_mm = sum(math.dist(a, b) for a, b in zip(corners, [*corners[1:], *corners[:1]], strict=True))
        self.figures["way round"].setText(_long(round_mm, self._units) if corners else "–")

    def _say(self, text: str, *, refused: bool = False) -> None:
        """A message: plain while something is not finished, strong where something was refused."""
        self.fault.setText(text)
        if self.fault.property("refused") != refused:
            self.fault.setProperty("refused", refused)
            self.fault.style().unpolish(self.fault)
            self.fault.style().polish(self.fault)


def _area(mm2: float, units: Units) -> str:
    return f"{mm2 / 1e6:.2f} m²" if units == "mm" else f"{mm2 / float(MM_PER_FOOT) ** 2:.1f} ft²"


def _long(mm: float, units: Units) -> str:
    return f"{mm / 1000:.2f} m" if units == "mm" else format_length(round(mm / 25.4) * 25.4, units)


def _sheet() -> str:
    shown, px = theme.shown, theme.px
    return f"""
        QLabel#figure {{ font-size: {px(30)}px; font-weight: 600; }}
        QLabel#caption {{ font-size: {px(theme.TEXT_PX)}px; color: {shown.quiet_chalk}; }}
        QLabel#hint {{ font-size: {px(19)}px; color: {shown.chalk}; }}
        QLabel#sketchfault {{ font-size: {px(15)}px; color: {shown.quiet_ink}; }}
        QLabel#sketchfault[refused="true"] {{ font-weight: 600; color: {shown.level_inks["error"]}; }}
        QPushButton:default {{ background: {shown.accent}; color: {shown.on_accent}; font-weight: 600; }}
        QPushButton {{ font-size: {px(15)}px; min-height: {px(24)}px; }}
        QScrollArea#side, QScrollArea#side > QWidget > QWidget {{ background: {shown.bench}; }}
        QLineEdit, QTableWidget, QRadioButton, QLabel {{ font-size: {px(15)}px; }}
        QTableWidget {{ background: {shown.field}; gridline-color: {shown.edge}; }}
        QHeaderView::section {{ background: {shown.bench}; border: 1px solid {shown.edge}; padding: 4px; }}
    """
