"""The dialog that sets part of a wall back, an alcove, or forward, a chimney breast."""

from collections.abc import Callable

from PySide6.QtGui import QIcon
from PySide6.QtWidgets import (
    QButtonGroup,
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QLabel,
    QLineEdit,
    QRadioButton,
    QVBoxLayout,
    QWidget,
)

from app import theme
from app.plan.paper import Dimension
from app.plan.sized import TypedLines, lengths_mm, put_beside
from app.plan.sketch_view import OutlineView
from app.theme.look import InStep, Style
from core.edits.recess import add_recess
from core.errors import CoursewrightError
from core.language import marked, tr
from core.room import Room, wall_letter
from core.units import format_length, parse_length_mm, reason

Take = Callable[[Callable[[Room], Room], str], str]
"""Commits an edit under a name; says why it was refused, or nothing."""

USUAL_WIDTH_MM = 1200.0
USUAL_DEPTH_MM = 400.0
MM_PER_HALF_FOOT = 152.4
SIZES = {"width": marked("width"), "depth": marked("depth"), "position": marked("position")}
"""The sizes, and what a dimension line and a refusal call them."""


class RecessDialog(QDialog):
    """Shows the room with the piece as its sizes are typed; stays open where it does not fit."""

    def __init__(self, room: Room, wall: int, take: Take, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Alcove or chimney breast"))
        self.resize(980, 620)
        self._room, self._take = room, take
        self.paper = OutlineView(room.display_units)
        self.wall = QComboBox()
        for index in range(room.wall_count):
            self.wall.addItem(f"{wall_letter(index)}   {format_length(room.wall_length_mm(index), room.display_units)}")
        self.wall.setCurrentIndex(wall)
        self.alcove = QRadioButton(tr("Alcove, out of the room"))
        self.breast = QRadioButton(tr("Chimney breast, into the room"))
        group = QButtonGroup(self)
        for button in (self.alcove, self.breast):
            group.addButton(button)
        self.breast.setChecked(True)
        self.lines = {name: QLineEdit() for name in SIZES}
        self.fault = QLabel()
        self.fault.setObjectName("fault")
        self.fault.setWordWrap(True)
        self._typed = TypedLines(self)
        self._usual()
        self._place()
        self.wall.currentIndexChanged.connect(self._turn)
        group.buttonClicked.connect(self._refresh)
        for line in self.lines.values():
            line.textEdited.connect(self._refresh)
        self._typed.watch(self.lines, "width")
        self._typed.turned.connect(self._refresh)
        self._refresh()
        self.lines["width"].setFocus()
        self.lines["width"].selectAll()

    def accept(self) -> None:
        """Close with the edit made; stay, and say why, where it cannot be."""
        try:
            sizes, wall = self.sizes_mm(), self.wall.currentIndex()
        except CoursewrightError as error:
            self.fault.setText(reason(error, self._room.display_units))
            return
        letter = wall_letter(wall)
        if self.alcove.isChecked():
            text = tr("Add alcove to wall {wall}", wall=letter)
        else:
            text = tr("Add chimney breast to wall {wall}", wall=letter)
        fault = self._take(lambda room: add_recess(room, wall, **sizes), text)
        if fault:
            self.fault.setText(fault)
        else:
            super().accept()

    def sizes_mm(self) -> dict[str, float]:
        """What is typed, as the edit wants it. Raises LengthError that names the size."""
        found = lengths_mm(self.lines)
        depth = found["depth"] if self.alcove.isChecked() else -found["depth"]
        return {"left_mm": found["position"], "width_mm": found["width"], "depth_mm": depth}

    def _usual(self) -> None:
        """Sizes to begin with: in the middle of the wall."""
        length = self._room.wall_length_mm(self.wall.currentIndex())
        units = self._room.display_units
        step = 10.0 if units == "mm" else MM_PER_HALF_FOOT
        width = min(USUAL_WIDTH_MM, length / 3)
        for name, mm in (("width", width), ("depth", USUAL_DEPTH_MM), ("position", (length - width) / 2)):
            self.lines[name].setText(format_length(round(mm / step) * step, units))

    def _turn(self) -> None:
        self._usual()
        self._refresh()

    def _place(self) -> None:
        form = QFormLayout()
        form.setVerticalSpacing(10)
        form.addRow(tr("Wall"), self.wall)
        form.addRow(self.breast)
        form.addRow(self.alcove)
        for name, caption in (("width", tr("Width")), ("depth", tr("Depth")), ("position", tr("From the left corner"))):
            self.lines[name].setMinimumHeight(theme.px(30))
            form.addRow(caption, self.lines[name])
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel)
        buttons.button(QDialogButtonBox.StandardButton.Ok).setText(tr("Add it"))
        for button in buttons.buttons():
            button.setIcon(QIcon())
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        side = QWidget()
        InStep(side, lambda: side.setFixedWidth(theme.px(350)))
        column = QVBoxLayout(side)
        column.addWidget(QLabel(tr("Left and right as seen from inside the room.")))
        column.addLayout(form)
        column.addWidget(self.fault)
        column.addStretch(1)
        column.addWidget(buttons)
        put_beside(self, side, self.paper)
        Style(self, lambda: f"QLabel, QLineEdit, QRadioButton, QComboBox {{ font-size: {theme.px(15)}px; }}")

    def _refresh(self) -> None:
        """Show the room with the piece where it fits, else without, and say why."""
        wall, units = self.wall.currentIndex(), self._room.display_units
        try:
            shown = add_recess(self._room, wall, **self.sizes_mm())
        except CoursewrightError as error:
            self.fault.setText(reason(error, self._room.display_units))
            self.paper.show_outline(self._room.corners_mm)
            return
        self.fault.setText("")
        at = shown.corners_mm[wall : wall + 4]
        start, (left, back_left, back_right) = at[0], shown.corners_mm[wall + 1 : wall + 4]
        marks = [(start, left), (left, back_left), (back_left, back_right)]
        names = ("position", "depth", "width")
        dimensions = [
            Dimension(*ends, tr(SIZES[name]) + f"  {format_length(parse_length_mm(self.lines[name].text()), units)}")
            for ends, name in zip(marks, names, strict=True)
            if name == self._typed.name
        ]
        self.paper.show_outline(shown.corners_mm, dimensions=dimensions)
