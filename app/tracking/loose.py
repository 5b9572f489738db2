"""Panels that exist and have no place in the plan any more: where they were, and where they can go."""

from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QListWidget, QPushButton, QVBoxLayout, QWidget

from app.tracking.marking import Marking
from core.crew import Orphan, standing
from core.language import marked, tr, trn
from core.room import wall_letter
from core.setout.metric import x_mm, z_mm
from core.setout.result import SetOut
from core.units import format_length

EMPTY = marked("Every panel that exists has its place.")


class LoosePanels(QWidget):
    """The list, with what can be done about the panel chosen in it."""

    def __init__(self, marking: Marking) -> None:
        super().__init__()
        self._marking = marking
        self._orphans: tuple[Orphan, ...] = ()
        self.list = QListWidget()
        self.list.setAccessibleName(tr("Panels without a place"))
        self.list.setWordWrap(True)
        self.list.setMinimumHeight(48)
        self.list.currentRowChanged.connect(self._offer)
        self.fits = QComboBox()
        self.fits.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.fits.setMinimumContentsLength(7)
        self.fits.setAccessibleName(tr("Places of its design still to build"))
        self.move_here = QPushButton(tr("Move here"))
        self.move_here.clicked.connect(self._move)
        self.take_down = QPushButton(tr("Taken down"))
        self.take_down.clicked.connect(lambda: self._put("taken out"))
        self.take_apart = QPushButton(tr("Taken apart"))
        self.take_apart.clicked.connect(lambda: self._put("to build"))
        self._place()

    def _place(self) -> None:
        row = QHBoxLayout()
        row.addWidget(self.fits, 1)
        for button in (self.move_here, self.take_down, self.take_apart):
            row.addWidget(button)
        self.note = QLabel(tr(EMPTY))
        self.note.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 6, 10, 6)
        layout.addWidget(self.note)
        layout.addWidget(self.list, 1)
        layout.addLayout(row)

    @property
    def count(self) -> int:
        return len(self._orphans)

    def show_setout(self, setout: SetOut) -> None:
        """List the set-out's panels without a place."""
        self._orphans = standing(setout).orphans
        place = min(max(self.list.currentRow(), 0), len(self._orphans) - 1)
        self.list.clear()
        self.list.addItems([orphan_words(setout, orphan) for orphan in self._orphans])
        self.list.setCurrentRow(place)
        self.list.setVisible(bool(self._orphans))
        self.note.setText(_note(self._orphans))
        self._offer(place)

    def _offer(self, place: int) -> None:
        orphan = self._orphans[place] if 0 <= place < len(self._orphans) else None
        fits = orphan.fits if orphan else ()
        self.fits.clear()
        self.fits.addItems(list(fits))
        if orphan and orphan.suggestion:
            self.fits.setCurrentText(orphan.suggestion)
        self.fits.setEnabled(bool(fits))
        self.move_here.setEnabled(bool(fits))
        hangs = orphan is not None and orphan.record.state == "hung"
        self.take_down.setEnabled(hangs)
        self.take_apart.setEnabled(orphan is not None)

    def _move(self) -> None:
        if (orphan := self._chosen()) is not None:
            self._marking.move_orphan(orphan.record.place, self.fits.currentText())

    def _put(self, state: str) -> None:
        if (orphan := self._chosen()) is not None:
            self._marking.put_orphan(orphan.record.place, "taken out" if state == "taken out" else "to build")

    def _chosen(self) -> Orphan | None:
        place = self.list.currentRow()
        return self._orphans[place] if 0 <= place < len(self._orphans) else None


def _note(orphans: tuple[Orphan, ...]) -> str:
    hanging = sum(orphan.record.state == "hung" for orphan in orphans)
    if not orphans:
        return tr(EMPTY)
    if hanging:
        return tr("{n} without a place in this plan, {hanging} of them still hang", n=len(orphans), hanging=hanging)
    return tr("{n} without a place in this plan", n=len(orphans))


def orphan_words(setout: SetOut, orphan: Orphan) -> str:
    """What the panel is, its state and where it is or was."""
    wall, bottom, left, design = orphan.record.place
    units = setout.room.display_units
    height = format_length(z_mm(setout.room.kit, bottom), units)
    where = tr("a wall that is gone")
    if wall < len(setout.walls):
        along = format_length(x_mm(setout, wall, left), units)
        where = tr("wall {wall}, {distance} from the left", wall=wall_letter(wall), distance=along)
    fits = trn("fits {n} place", "fits {n} places", len(orphan.fits)) if orphan.fits else tr("fits nowhere")
    state = tr(orphan.record.state)
    return tr(
        "{design}, {state}: {where}, {height} up; {fits}", design=design, state=state, where=where, height=height, fits=fits
    )
