"""Advice in the inspector: a short list of changes that save work, looked for while nothing else is going on."""

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QObject, Qt, QTimer, Signal
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import QGridLayout, QLabel, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from app.document import Document
from core.advice import Search, Suggestion, caution_text, change_text, saving_text, undo_text
from core.language import marked, tr
from core.room import Room
from core.setout.result import SetOut

STILL_FOR_MS = 500
"""How long nothing has changed before looking begins."""
KEPT_ANSWERS = 16
LOOKING = marked("looking …")

Told = tuple[Suggestion, ...]
Question = tuple[Room, str]
"""The room and what in it is asked about."""

Ask = Callable[[], str | None]


@dataclass(frozen=True, slots=True)
class Words:
    """What a list says of itself: its title, and what stands there when nothing was found; shown through ``tr``."""

    title: str
    nothing: str


class IdleSearch(QObject):
    """Runs a search a step at a time whenever the window has nothing else to do; there is no thread."""

    told = Signal(object)
    """What has been found so far."""
    finished = Signal(object)
    """What was found in the end."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._search: Search | None = None
        self._told: Told = ()
        self._timer = QTimer(self)
        self._timer.setInterval(0)
        self._timer.timeout.connect(self._step)

    @property
    def is_running(self) -> bool:
        return self._search is not None

    def start(self, search: Search) -> None:
        """Give up the search that runs, if any, and begin another."""
        self.stop()
        self._search, self._told = search, ()
        self._timer.start()

    def stop(self) -> None:
        """Give up the search; what it found is not told."""
        self._timer.stop()
        if self._search is not None:
            self._search.close()
            self._search = None

    def _step(self) -> None:
        if self._search is None:
            return
        try:
            told = next(self._search)
        except StopIteration as done:
            self.stop()
            self.finished.emit(done.value)
            return
        if told != self._told:
            self._told = told
            self.told.emit(told)


def _let_wrap(label: QLabel) -> None:
    """Long words make the label higher, never its card wider."""
    label.setWordWrap(True)
    policy = QSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
    policy.setHeightForWidth(True)
    label.setSizePolicy(policy)


class _Row(QWidget):
    """One suggestion: what to do, what it saves, and a button that does it."""

    def __init__(self, apply: Callable[[Suggestion], None]) -> None:
        super().__init__()
        self.suggestion: Suggestion | None = None
        self._apply = apply
        self.what, self.saving = QLabel(), QLabel()
        self.what.setObjectName("heading")
        self.saving.setObjectName("quiet")
        for label in (self.what, self.saving):
            _let_wrap(label)
        self.button = QPushButton(tr("Apply"))
        self.button.setAutoDefault(True)  # so that Enter presses it, too
        self.button.setStyleSheet("padding: 2px 10px;")
        self.button.clicked.connect(self._clicked)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 2, 0, 2)
        grid.setHorizontalSpacing(6)
        grid.setVerticalSpacing(0)
        grid.addWidget(self.what, 0, 0)
        grid.addWidget(self.button, 0, 1, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(self.saving, 1, 0, 1, 2)
        grid.setColumnStretch(0, 1)

    def show_suggestion(self, suggestion: Suggestion, room: Room) -> None:
        """Show another suggestion."""
        self.suggestion = suggestion
        what, saving = change_text(suggestion.change, room.display_units), saving_text(suggestion)
        self.what.setText(what)
        self.saving.setText(saving)
        self.button.setAccessibleName(tr("Apply: {what}", what=what))
        self.button.setAccessibleDescription(saving)
        self.button.setToolTip(f"{what}: {saving}")
        self.show()

    def _clicked(self) -> None:
        if self.suggestion is not None:
            self._apply(self.suggestion)


class AdviceList(QWidget):
    """Suggestions about what is shown beside it."""

    def __init__(self, document: Document, words: Words, ask: Ask, search: Callable[[SetOut, str], Search]) -> None:
        """``ask`` says what advice is wanted about, None for nothing, and ``search`` looks for it."""
        super().__init__()
        self._document, self._words, self._ask, self._search_for = document, words, ask, search
        self._asked: Question | None = None
        self._answers: OrderedDict[Question, Told] = OrderedDict()
        self.heading, self.status = QLabel(tr(words.title)), QLabel()
        self.heading.setObjectName("heading")
        self.status.setObjectName("quiet")
        for label in (self.heading, self.status):
            _let_wrap(label)
        self.rows: list[_Row] = []
        self.tab_from: QWidget | None = None
        """From where Tab goes on to the first suggestion."""
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(4)
        self._layout.addWidget(self.heading)
        self._layout.addWidget(self.status)
        self._layout.addStretch(1)
        self.search = IdleSearch(self)
        self.search.told.connect(self._show)
        self.search.finished.connect(self._finish)
        self._still = QTimer(self)
        self._still.setSingleShot(True)
        self._still.setInterval(STILL_FOR_MS)
        self._still.timeout.connect(self._begin)
        for signal in (document.changed, document.selection_changed, document.wall_changed):
            signal.connect(self._follow)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._follow()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._asked = None
        self.search.stop()
        self._still.stop()

    @property
    def shown(self) -> Told:
        """The suggestions on show, from the top."""
        return tuple(row.suggestion for row in self.rows if row.suggestion is not None and not row.isHidden())

    def _follow(self, _what: object = None) -> None:
        """Something changed: what was being looked for no longer matters, unless it is still the same question."""
        what = self._ask()
        if what is None or not self.isVisible() or self._document.gesture_base is not None:
            self._asked = None
            self.search.stop()
            self._still.stop()
            self._show(())
            if self.status.text():
                # Even clearing what is clear would have the card laid out anew, at every step of a drag.
                self.status.clear()
            return
        question = self._document.room, what
        if question == self._asked:
            if not self.search.is_running and question not in self._answers:
                self._still.start()  # The set-out has been worked out in full now, if it was not before.
            return
        self._asked = question
        self.search.stop()
        if question in self._answers:
            self._still.stop()
            self._finish(self._answers[question])
            return
        self._show(())
        self._say(tr(LOOKING))
        self._still.start()

    def _begin(self) -> None:
        if self._asked is not None and self._document.is_full:
            self.search.start(self._search_for(self._document.setout, self._asked[1]))

    def _finish(self, told: Told) -> None:
        if self._asked is None:
            return
        self._answers[self._asked] = told
        while len(self._answers) > KEPT_ANSWERS:
            self._answers.popitem(last=False)
        self._show(told)
        self._say(caution_text(self._asked[0], [s.change for s in told]) if told else tr(self._words.nothing))

    def _show(self, told: Told) -> None:
        while len(self.rows) < len(told):
            self._add_row()
        for row, suggestion in zip(self.rows, told, strict=False):
            row.show_suggestion(suggestion, self._document.room)
        for row in self.rows[len(told) :]:
            row.suggestion = None
            row.hide()

    def _add_row(self) -> None:
        row = _Row(self._apply)
        before = self.rows[-1].button if self.rows else self.tab_from
        self.rows.append(row)
        self._layout.insertWidget(len(self.rows), row)
        if before is not None:
            QWidget.setTabOrder(before, row.button)

    def _say(self, text: str) -> None:
        self.status.setText(text)
        self.status.setVisible(bool(text))

    def _apply(self, suggestion: Suggestion) -> None:
        text = undo_text(suggestion.change, self._document.room.display_units)
        # Its row goes away: left to itself, the keyboard would go on in a field, and the next letter into its length.
        self.setFocus()
        self._document.commit_edit(suggestion.change.applied, text)
