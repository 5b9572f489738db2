"""What measured walls miss, and the person's choice of how to share it out."""

import math
from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QButtonGroup, QLabel, QRadioButton, QVBoxLayout, QWidget

from app.tables.reading import number_text
from core.errors import CoursewrightError, RoomError
from core.language import tr
from core.room import Point, Units, wall_letter
from core.survey import RULES, Rule, closure_of, share_out, way_in_words
from core.units import format_length, reason


class MissPanel(QWidget):
    """Hidden while walls close. Nothing is shared out before the person has chosen how."""

    chosen = Signal()

    def __init__(self, units: Units) -> None:
        super().__init__()
        self._units: Units = units
        self._points: tuple[Point, ...] = ()
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.effect = QLabel()
        self.effect.setWordWrap(True)
        self.choices: dict[Rule, QRadioButton] = {rule: QRadioButton(_capital(tr(words))) for rule, words in RULES.items()}
        self._group = QButtonGroup(self)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 6, 0, 0)
        heading = QLabel(tr("Share out what is missing"))
        heading.setObjectName("heading")
        layout.addWidget(self.words)
        layout.addWidget(heading)
        for button in self.choices.values():
            self._group.addButton(button)
            layout.addWidget(button)
        layout.addWidget(self.effect)
        self._group.buttonClicked.connect(self._on_choice)
        self.hide()

    @property
    def rule(self) -> Rule | None:
        """What was chosen for these walls."""
        return next((rule for rule, button in self.choices.items() if button.isChecked()), None)

    def take(self, points: Sequence[Point]) -> None:
        """Take up walked walls, their end last. A choice holds until other walls come."""
        if tuple(points) == self._points:
            return
        self._points = tuple(points)
        self._group.setExclusive(False)
        for button in self.choices.values():
            button.setChecked(False)
        self._group.setExclusive(True)
        self.effect.setText("")
        missed = closure_of(points) if points else None
        if missed is None or missed.closes:
            self.hide()
            return
        far = format_length(missed.missed_mm, self._units, 2)
        self.words.setText(
            tr(
                "The last wall misses the first corner by <b>{far}</b>, 1 in {share} of the way round. "
                "Its end lies {way} from it.",
                far=far,
                share=number_text(round(missed.one_in)),
                way=way_in_words(missed, self._units),
            )
        )
        self.show()

    def corners(self) -> tuple[Point, ...]:
        """The corners, shared out as chosen. Raises RoomError where the walls miss and no choice was made."""
        missed = closure_of(self._points)
        if missed.closes:
            return self._points[:-1]
        shared = share_out(self._points, self.rule or "last wall")
        if self.rule is None:
            far = format_length(missed.missed_mm, self._units, 2)
            said = tr("the walls miss the first corner by {far}; choose how to share that out, or measure again", far=far)
            raise RoomError(said)
        return shared

    def _on_choice(self) -> None:
        try:
            self.effect.setText(self._effect(self.corners()))
        except CoursewrightError as error:
            self.effect.setText(reason(error, self._units))
        self.chosen.emit()

    def _effect(self, corners: Sequence[Point]) -> str:
        """Which wall changes most, and by how much."""
        ends = [*corners, corners[0]]
        changes = [
            (math.dist(ends[wall], ends[wall + 1]) - math.dist(self._points[wall], self._points[wall + 1]), wall)
            for wall in range(len(corners))
        ]
        change, wall = max(changes, key=lambda entry: abs(entry[0]))
        letter, length = wall_letter(wall), format_length(abs(change), self._units, 2)
        if change > 0:
            return tr("Largest change: wall {wall}, {length} longer.", wall=letter, length=length)
        return tr("Largest change: wall {wall}, {length} shorter.", wall=letter, length=length)


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]
