"""The dialog that begins a new room: its name, how high it is lined, and its walls."""

from PySide6.QtWidgets import QFormLayout, QLineEdit, QWidget

from app.plan.sketch_dialog import SketchDialog
from core.edits.revise import build, tidy_mm
from core.errors import LengthError
from core.language import tr
from core.room import Point, Room, Units
from core.units import format_length, parse_length_mm

USUAL_HEIGHT_MM = 1980.0


class NewRoomDialog(SketchDialog):
    """Asks for a name, a height and walls, in any units; accepts only what makes a room."""

    def __init__(self, units: Units, parent: QWidget | None = None) -> None:
        self.room: Room | None = None
        self.name = QLineEdit(tr("New room"))
        self.clad_height = QLineEdit(format_length(USUAL_HEIGHT_MM, units))
        top = QWidget()
        form = QFormLayout(top)
        form.setContentsMargins(0, 0, 0, 0)
        form.addRow(tr("Name"), self.name)
        form.addRow(tr("Lined up to"), self.clad_height)
        for line in (self.name, self.clad_height):
            line.setMinimumHeight(30)
        super().__init__(tr("New room"), tr("Begin with these walls"), units, self._build, parent, top=top)
        self.name.setFocus()
        self.name.selectAll()

    @property
    def lengths(self) -> dict[str, QLineEdit]:
        """The lines that ask for a length just now, by what they ask for."""
        return {**self.shape.lines, "clad height": self.clad_height}

    def _build(self, corners_mm: tuple[Point, ...]) -> None:
        try:
            clad_height_mm = tidy_mm(parse_length_mm(self.clad_height.text()))
        except LengthError as error:
            self.clad_height.setFocus()
            raise LengthError(tr("lined up to: {fault}", fault=error)) from None
        self.room = build(
            Room,
            name=self.name.text().strip(),
            display_units=self._units,
            corners_mm=corners_mm,
            clad_height_mm=clad_height_mm,
        )
