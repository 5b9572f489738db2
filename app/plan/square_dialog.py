"""The dialog that checks corners for square by distances taped across them."""

from collections.abc import Mapping

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtWidgets import (
    QDialog,
    QFormLayout,
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from app import theme
from app.plan.paper import Dimension, Paper
from app.plan.recess_dialog import Take
from app.plan.sized import lengths_mm, put_beside
from app.plan.sketch_view import OutlineView
from app.theme.look import InStep, Style
from core.edits.plan import set_diagonal
from core.errors import CoursewrightError
from core.language import tr
from core.room import Room
from core.survey import CornerCheck, across_pairs, checked_corners, contradiction_mm
from core.survey.diagonals import Pair, corner_letters
from core.units import format_length, reason

COUNTS_AS_SQUARE_DEG = 0.5
FEW_LINES = 2
TAPE_MM = 3.0
"""Two diagonals that differ by no more from what their walls allow agree: common practice, no published source."""


class SquarePaper(OutlineView):
    """The room with the lines to tape between its corners."""

    def __init__(self, room: Room) -> None:
        super().__init__(room.display_units)
        self._room, self._texts = room, dict[Pair, str]()
        self.show_outline(room.corners_mm)

    def show_lines(self, texts: Mapping[Pair, str]) -> None:
        """Show lines between corners, each with its text; those without one stay faint."""
        self._texts = dict(texts)
        self.update()

    def paint_on(self, paper: Paper) -> None:
        super().paint_on(paper)
        corners = self._room.corners_mm
        for (one, other), text in self._texts.items():
            if text:
                paper.draw_line(corners[one], corners[other], dashed=True)
            else:
                paper.draw_guide(corners[one], corners[other])
        for (one, other), text in self._texts.items():
            if not text:
                continue
            (ax, ay), (bx, by) = corners[one], corners[other]
            # A third of the way, so that the texts of two diagonals do not lie over each other.
            third = (ax + (bx - ax) * 2 / 3, ay + (by - ay) * 2 / 3)
            paper.draw_dimension(Dimension(corners[one], third, text), ticks=False)


class SquareDialog(QDialog):
    """Takes distances as taped and says how far out of square the corners are; can lean a four-walled room to fit."""

    def __init__(self, room: Room, take: Take, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Check square"))
        self.resize(1060, 680)
        self._room, self._take = room, take
        self.paper = SquarePaper(room)
        self.lines: dict[Pair, QLineEdit] = {}
        self.report = QLabel()
        self.report.setWordWrap(True)
        self.report.setTextFormat(Qt.TextFormat.RichText)
        self.report.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.lean = QPushButton(tr("Draw the room as taped"))
        self.lean.setVisible(room.wall_count == 4)
        self.lean.clicked.connect(self.accept)
        self._place()
        self._refresh()
        # The first one that takes the focus is otherwise what scrolls the lines.
        next(iter(self.lines.values()), self).setFocus()

    def taped_mm(self) -> dict[Pair, float]:
        """The distances typed. Raises LengthError that names the corners."""
        typed = {self._caption(pair): (pair, line) for pair, line in self.lines.items() if line.text().strip()}
        found = lengths_mm({caption: line for caption, (_, line) in typed.items()})
        return {typed[caption][0]: mm for caption, mm in found.items()}

    def accept(self) -> None:
        """Lean the room to the first diagonal taped, and close; stay, and say why, where that cannot be."""
        try:
            taped = self.taped_mm()
            checked_corners(self._room, taped)
        except CoursewrightError as error:
            self.report.setText(reason(error, self._room.display_units))
            return
        pair = next(iter(taped), None)
        if pair is None:
            return
        fault = self._take(lambda room: set_diagonal(room, pair[0], taped[pair]), tr("Lean the room to its diagonal"))
        if fault:
            self.report.setText(fault)
        else:
            super().accept()

    def _caption(self, pair: Pair) -> str:
        one, other = (corner_letters(self._room, corner) for corner in pair)
        return tr("{corner} to {other}", corner=one, other=other)

    def _place(self) -> None:
        inner = QWidget()
        form = QFormLayout(inner)
        form.setVerticalSpacing(10)
        for pair in across_pairs(self._room):
            line = self.lines[pair] = QLineEdit()
            line.setMinimumHeight(theme.px(30))
            line.setPlaceholderText(tr("as taped"))
            line.setAccessibleName(tr("Taped from corner {corners}", corners=self._caption(pair)))
            line.textEdited.connect(self._refresh)
            line.installEventFilter(self)
            form.addRow(self._caption(pair), line)
        scroll = QScrollArea()
        scroll.setWidget(inner)
        scroll.setAccessibleName(tr("Distances across the room"))
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        close = QPushButton(tr("Close"))
        close.setAutoDefault(False)
        close.clicked.connect(self.reject)
        side = QWidget()
        InStep(side, lambda: side.setFixedWidth(theme.px(360)))
        column = QVBoxLayout(side)
        head = QLabel(
            tr("Tape from corner to corner at one height. Equal walls with equal diagonals make a square-cornered room.")
        )
        head.setWordWrap(True)
        column.addWidget(head)
        column.addWidget(scroll)
        column.addWidget(self.report, 1)
        row = QHBoxLayout()
        row.addWidget(self.lean, 1)
        row.addWidget(close)
        column.addLayout(row)
        put_beside(self, side, self.paper)
        Style(self, lambda: f"QLabel, QLineEdit, QPushButton {{ font-size: {theme.px(15)}px; }}")

    def _refresh(self) -> None:
        self.lean.setEnabled(False)
        try:
            taped = self.taped_mm()
            checks = checked_corners(self._room, taped)
        except CoursewrightError as error:
            self.report.setText(reason(error, self._room.display_units))
            return
        self.paper.show_lines({pair: self._line_text(pair, taped) for pair in self.lines})
        self.report.setText("".join(f"<p>{words}</p>" for words in [*map(self._words, checks), *self._agreement(taped)]))
        self.lean.setEnabled(bool(taped) and self._room.wall_count == 4)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The line that is being typed is shown with its length."""
        if event.type() == QEvent.Type.FocusIn:
            self._refresh()
        return super().eventFilter(watched, event)

    def _line_text(self, pair: Pair, taped: Mapping[Pair, float]) -> str:
        """What to write on a line; among many only on those that matter just now."""
        if len(self.lines) > FEW_LINES and pair not in taped and not self.lines[pair].hasFocus():
            return ""
        (ax, ay), (bx, by) = (self._room.corners_mm[corner] for corner in pair)
        drawn = ((ax - bx) ** 2 + (ay - by) ** 2) ** 0.5
        length = format_length(drawn, self._room.display_units)
        if pair not in taped:
            return tr("drawn {length}", length=length)
        found = format_length(taped[pair], self._room.display_units)
        return tr("drawn {length}, taped {taped}", length=length, taped=found)

    def _words(self, check: CornerCheck) -> str:
        """One corner: its angle, how far out over the longer wall, and which way."""
        walls = corner_letters(self._room, check.corner)
        off, over = (format_length(mm, self._room.display_units) for mm in (abs(check.off_mm), check.over_mm))
        if abs(check.off_mm) < 0.5:
            return tr("<b>Corner {walls} is square</b> ({angle:.2f}°).", walls=walls, angle=check.angle_deg)
        if check.off_deg > 0:
            angle = tr("{angle:.2f}°, {off:.2f}° too wide", angle=check.angle_deg, off=check.off_deg)
        else:
            angle = tr("{angle:.2f}°, {off:.2f}° too narrow", angle=check.angle_deg, off=-check.off_deg)
        gaps = {"walls": walls, "off": off, "over": over, "angle": angle}
        if abs(check.off_deg) <= COUNTS_AS_SQUARE_DEG:
            return tr("<b>Corner {walls} is {off} out of square</b> over {over} ({angle}); it counts as square.", **gaps)
        return tr("<b>Corner {walls} is {off} out of square</b> over {over} ({angle}); panels will stop short of it.", **gaps)

    def _agreement(self, taped: Mapping[Pair, float]) -> list[str]:
        """Whether two taped diagonals can both be true with these walls."""
        off = contradiction_mm(self._room, taped)
        if off is None:
            return []
        units = self._room.display_units
        differ = format_length(abs(taped[0, 2] - taped[1, 3]), units)
        far = format_length(abs(off), units)
        if abs(off) <= TAPE_MM:
            return [tr("The diagonals differ by {difference}, and agree with the walls to {far}.", difference=differ, far=far)]
        return [
            tr(
                "<b>The two diagonals disagree by {far} with these walls.</b> One of the six lengths is wrong: tape them again.",
                far=far,
            )
        ]
