"""The dialog that begins a new room from a rectangle."""

from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFormLayout, QLabel, QLineEdit, QVBoxLayout, QWidget

from core.edits import rectangle
from core.errors import CoursewrightError, LengthError
from core.room import Room, Units
from core.units import format_length, parse_length_mm

USUAL_MM = {"width": 3048.0, "depth": 3048.0, "clad height": 1980.0}


class NewRoomDialog(QDialog):
    """Asks for a name and three lengths in any units; accepts only what makes a room."""

    def __init__(self, units: Units, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("New room")
        self.setMinimumWidth(420)
        self.room: Room | None = None
        self._units: Units = units
        self.name = QLineEdit("New room")
        self.lengths = {what: QLineEdit(format_length(mm, units)) for what, mm in USUAL_MM.items()}
        self.fault = QLabel()
        self.fault.setObjectName("fault")
        self.fault.setWordWrap(True)
        form = QFormLayout()
        form.addRow("Name", self.name)
        form.addRow("Width, wall to wall", self.lengths["width"])
        form.addRow("Depth, wall to wall", self.lengths["depth"])
        form.addRow("Lined up to", self.lengths["clad height"])
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(QLabel("Measure between the bare frames. Corners and openings can follow."))
        layout.addLayout(form)
        layout.addWidget(self.fault)
        layout.addWidget(buttons)

    def accept(self) -> None:
        """Close with a room; stay, and say why, where there is none."""
        try:
            room = rectangle(
                self.name.text(),
                width_mm=self._length("width"),
                depth_mm=self._length("depth"),
                clad_height_mm=self._length("clad height"),
                units=self._units,
            )
        except CoursewrightError as error:
            self.fault.setText(str(error))
            return
        self.room = room
        super().accept()

    def _length(self, what: str) -> float:
        try:
            return parse_length_mm(self.lengths[what].text())
        except LengthError as error:
            self.lengths[what].setFocus()
            raise LengthError(f"{what}: {error}") from None
