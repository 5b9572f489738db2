"""The way of ready shapes: choose one, type its sizes."""

from collections.abc import Mapping

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPen, QPixmap, QPolygonF
from PySide6.QtWidgets import QButtonGroup, QFormLayout, QGridLayout, QLineEdit, QToolButton, QVBoxLayout

from app import theme
from app.plan.paper import Dimension
from app.plan.scale import fit_points
from app.plan.sized import TypedLines, lengths_mm
from app.plan.sketch_view import OutlineView
from app.plan.ways import Way
from core.edits.shapes import SHAPES, Shape, shape_corners
from core.errors import CoursewrightError
from core.language import marked, tr
from core.room import Point, Units
from core.units import format_length

ICON_PX = 46


class ShapeWay(Way):
    """A shape out of a few, and its sizes."""

    name = marked("Ready shape")

    def __init__(self, units: Units) -> None:
        super().__init__()
        self._units: Units = units
        self.paper = OutlineView(units)
        self.lines: dict[str, QLineEdit] = {}
        self._typed = TypedLines(self)
        self._typed.turned.connect(self._refresh)
        self.buttons: dict[str, QToolButton] = {}
        self._form = QFormLayout()
        self._form.setVerticalSpacing(8)
        self._grid, self._group = QGridLayout(), QButtonGroup(self)
        for place, shape in enumerate(SHAPES):
            button = self.buttons[shape.name] = _shape_button(shape)
            self._group.addButton(button, place)
            self._grid.addWidget(button, place // 3, place % 3)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(self._grid)
        layout.addLayout(self._form)
        layout.addStretch(1)
        self._group.idClicked.connect(lambda place: self.choose(SHAPES[place]))
        self.choose(SHAPES[0])

    def choose(self, shape: Shape) -> None:
        """Offer a shape's sizes, keeping those of the same name as they are typed."""
        before = self._fitting(shape)
        while self._form.rowCount():
            self._form.removeRow(0)
        self.shape, self.lines = shape, {}
        self.buttons[shape.name].setChecked(True)
        for size in shape.sizes:
            line = QLineEdit(before.get(size.name) or format_length(_round(size.usual_mm, self._units), self._units))
            line.setMinimumHeight(30)
            line.textEdited.connect(self._refresh)
            words = tr(size.name)
            line.setAccessibleName(words)
            self.lines[size.name] = line
            self._form.addRow(f"{words[:1].upper()}{words[1:]}", line)
        self._typed.watch(self.lines, shape.sizes[0].name)
        self._refresh()

    def _fitting(self, shape: Shape) -> dict[str, str]:
        """What is typed for sizes that another shape has too; nothing where they make no such shape."""
        try:
            typed = self.sizes_mm()
            shape_corners(shape, {**shape.usual(), **typed})
        except CoursewrightError:
            return {}
        return {name: line.text() for name, line in self.lines.items()}

    def hint(self) -> str:
        return tr("Choose a shape and type its sizes")

    def sizes_mm(self) -> dict[str, float]:
        """The sizes as typed. Raises LengthError that names the size."""
        return lengths_mm(self.lines)

    def corners(self) -> tuple[Point, ...]:
        return shape_corners(self.shape, self.sizes_mm())

    def _refresh(self) -> None:
        try:
            self.paper.show_outline(self.corners(), dimensions=self._dimensions(self.sizes_mm()))
        except CoursewrightError:
            self.paper.show_outline(self.paper.points)
        self.changed.emit()

    def _dimensions(self, sizes_mm: Mapping[str, float]) -> list[Dimension]:
        shown = [size for size in self.shape.sizes if size.name == self._typed.name]
        return [
            Dimension(*size.ends(sizes_mm), tr(size.name) + f"  {format_length(sizes_mm[size.name], self._units)}")
            for size in shown
        ]


def _shape_button(shape: Shape) -> QToolButton:
    button = QToolButton()
    button.setCheckable(True)
    button.setText(tr(shape.name))
    button.setAccessibleName(tr("{shape} shape", shape=tr(shape.name)))
    button.setIcon(_shape_icon(shape))
    button.setIconSize(QSize(ICON_PX, ICON_PX))
    button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextUnderIcon)
    button.setMinimumSize(theme.px(92), theme.px(84))
    return button


def _shape_icon(shape: Shape) -> QIcon:
    """The shape's own outline, dark, and light for the chosen one."""
    icon = QIcon()
    for colour, state in ((theme.shown.ink, QIcon.State.Off), (theme.shown.on_accent, QIcon.State.On)):
        pixmap = QPixmap(ICON_PX, ICON_PX)
        pixmap.fill(Qt.GlobalColor.transparent)
        corners = shape_corners(shape, shape.usual())
        scale = fit_points(corners, ICON_PX, ICON_PX, 4)
        painter = QPainter(pixmap)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(colour), 3))
        painter.drawPolygon(QPolygonF([scale.to_px(corner) for corner in corners]))
        painter.end()
        icon.addPixmap(pixmap, QIcon.Mode.Normal, state)
    return icon


def _round(mm: float, units: Units) -> float:
    """A usual size as round in feet as it is in millimetres."""
    return mm if units == "mm" else round(mm / 152.4) * 152.4
