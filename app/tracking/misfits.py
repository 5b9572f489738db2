"""Panels that came out wrong: noting one, and using it where it fits or taking it apart."""

from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QPushButton,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)

from app.tracking.marking import Marking
from core.crew.wrong import Use, size_of, uses_of
from core.language import marked, tr, trn
from core.progress import WrongPanel
from core.setout.result import SetOut

EMPTY = marked("No panel came out wrong. Note one as what it is, and it may serve elsewhere.")
MOST_USES = 60


class Misfits(QWidget):
    """On the left those noted, on the right the form for another."""

    def __init__(self, marking: Marking) -> None:
        super().__init__()
        self._marking = marking
        self._setout: SetOut | None = None
        self.list = QListWidget()
        self.list.setAccessibleName(tr("Panels built wrong"))
        self.list.setWordWrap(True)
        self.list.setMinimumHeight(48)
        self.list.currentRowChanged.connect(self._offer)
        self.uses = QComboBox()
        self.uses.setAccessibleName(tr("What it can serve as"))
        self.use_here = QPushButton(tr("Use here"))
        self.use_here.clicked.connect(self._use)
        self.take_apart = QPushButton(tr("Taken apart"))
        self.take_apart.clicked.connect(self._drop)
        self.meant_for = QComboBox()
        for box in (self.meant_for, self.uses):
            box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
            box.setMinimumContentsLength(8)
        self.meant_for.currentTextChanged.connect(self._fill)
        self.widths = QLineEdit()
        self.widths.setMaxLength(20)
        self.courses = QSpinBox()
        self.courses.setRange(1, 1_000)
        self.is_outside = QCheckBox(tr("outside corner"))
        self.note = QLineEdit()
        self.note.setMaxLength(400)
        self.add = QPushButton(tr("Note it"))
        self.add.setAccessibleName(tr("Note it as built wrong"))
        self.add.clicked.connect(self._add)
        self.fault = QLabel()
        self.fault.setObjectName("fault")
        self.fault.setWordWrap(True)
        self.fault.hide()
        self._place()

    def _place(self) -> None:
        self.words = QLabel(tr(EMPTY))
        self.words.setWordWrap(True)
        left = QVBoxLayout()
        left.addWidget(self.words)
        left.addWidget(self.list, 1)
        left.addWidget(self.uses)
        row = QHBoxLayout()
        row.addWidget(self.use_here)
        row.addWidget(self.take_apart)
        left.addLayout(row)
        form = QFormLayout()
        form.setVerticalSpacing(4)
        for caption, field in (
            (tr("Meant for"), self.meant_for),
            (tr("Pitches wide"), self.widths),
            (tr("Courses high"), self.courses),
            (tr("Note"), self.note),
        ):
            form.addRow(caption, field)
            field.setAccessibleName(caption)
        last = QHBoxLayout()
        last.addWidget(self.is_outside)
        last.addWidget(self.add, 1)
        form.addRow(last)
        form.addRow(self.fault)
        self.widths.setPlaceholderText(tr("38, or both legs: 19 + 38"))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(10, 6, 10, 6)
        layout.addLayout(left, 4)
        layout.addLayout(form, 3)

    @property
    def count(self) -> int:
        return len(self._setout.room.progress.wrong) if self._setout else 0

    def show_setout(self, setout: SetOut) -> None:
        """List the wrong panels and offer the set-out's designs."""
        self._setout = setout
        wrong = setout.room.progress.wrong
        place = min(max(self.list.currentRow(), 0), len(wrong) - 1)
        self.list.clear()
        self.list.addItems([wrong_words(panel) for panel in wrong])
        self.list.setCurrentRow(place)
        self.list.setVisible(bool(wrong))
        self.words.setText("" if wrong else tr(EMPTY))
        self.words.setVisible(not wrong)
        self._offer(place)
        names = [design.name for design in setout.designs]
        self.add.setEnabled(bool(names))
        if names != [self.meant_for.itemText(n) for n in range(self.meant_for.count())]:
            meant = self.meant_for.currentText()
            self.meant_for.clear()
            self.meant_for.addItems(names)
            self.meant_for.setCurrentText(meant)

    def _offer(self, place: int) -> None:
        self.uses.clear()
        setout = self._setout
        found = uses_of(setout, setout.room.progress.wrong[place]) if setout and 0 <= place < self.count else ()
        for use in found:
            for mark in use.marks:
                if self.uses.count() < MOST_USES:
                    self.uses.addItem(use_words(use, mark), mark)
        if not found:
            self.uses.addItem(tr("nothing still to build") if self.count else "")
        self.uses.setEnabled(bool(found))
        self.use_here.setEnabled(bool(found))
        self.take_apart.setEnabled(0 <= place < self.count)

    def _use(self) -> None:
        self._marking.use_wrong(self.list.currentRow(), self.uses.currentData())

    def _drop(self) -> None:
        self._marking.drop_wrong(self.list.currentRow())

    def _fill(self, design: str) -> None:
        """Begin with the size it was meant to have; the person changes what came out otherwise."""
        setout = self._setout
        panel = next((panel for panel in setout.panels if panel.design == design), None) if setout else None
        size = size_of(setout, panel) if setout and panel else None
        if size is not None:
            self.widths.setText(" + ".join(map(str, size.widths_pitches)))
            self.courses.setValue(size.courses)
            self.is_outside.setChecked(size.is_outside_corner)

    def _add(self) -> None:
        widths = _widths(self.widths.text())
        self.fault.setVisible(widths is None)
        self.fault.setText("" if widths else tr("Width: one whole number of pitches, or both legs as 19 + 38"))
        if widths is None:
            self.widths.setFocus()
            return
        outside, note = self.is_outside.isChecked(), self.note.text().strip()
        if self._marking.note_wrong(self.meant_for.currentText(), widths, self.courses.value(), is_outside=outside, note=note):
            self.note.clear()
            self.list.setCurrentRow(self.count - 1)


def _widths(typed: str) -> tuple[int, ...] | None:
    parts = [part.strip() for part in typed.split("+")]
    if len(parts) > 2 or not all(part.isascii() and part.isdigit() and 0 < int(part) <= 1000 for part in parts):
        return None
    return tuple(map(int, parts))


def wrong_words(wrong: WrongPanel) -> str:
    """What it is, and what it should have been."""
    size = " + ".join(map(str, wrong.widths_pitches))
    facts = {"size": size, "courses": wrong.courses, "design": wrong.meant_for}
    words = tr("{size} pitches wide, {courses} courses; meant for {design}", **facts)
    return f"{words} ({wrong.note})" if wrong.note else words


def use_words(use: Use, mark: str) -> str:
    """``A-1-04, full`` or what has to come off first."""
    words = f"{mark}, {use.design}"
    return trn("{use}, {n} course off", "{use}, {n} courses off", use.courses_off, use=words) if use.courses_off else words
