"""The crew leaf: the finish and what it waits for, how the crew works, its people, and the plan as a bar chart."""

from PySide6.QtWidgets import QFrame, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from app import theme
from app.aside.aside import Aside
from app.aside.settled import Settled
from app.crew.chart import PlanChart
from app.crew.people_table import PeopleTable
from app.crew.planning import Outlook, outlook
from app.crew.terms_card import TermsCard
from app.crew.words import finish_title, governing_words, range_words, rests_on_words, work_words
from app.document import Document
from app.tables.pages import Pages, beside
from app.tables.titled import Titled
from app.theme.look import Style
from core.crew.calendar import Calendar
from core.language import marked, tr
from core.setout.result import SetOut
from core.sheets.buying_crew import day_words

FINISH_PX = 26
PAGES = (marked("The plan"), marked("People and benches"))
WORKING = marked("working out …")


class FinishCard(QWidget):
    """When all hangs, how sure that is, and what it waits for."""

    def __init__(self) -> None:
        super().__init__()
        self.finish, self.range, self.work, self.governs, self.rests_on = (QLabel() for _ in range(5))
        self._is_quiet = False
        self._finish_style = Style(self.finish, self._finish_sheet)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 8, 8, 8)
        layout.setSpacing(5)
        for label in (self.finish, self.range, self.governs, self.work, self.rests_on):
            label.setWordWrap(True)
            layout.addWidget(label)
        self.rests_on.setObjectName("quiet")
        layout.addStretch(1)

    def say_working(self, words: str) -> None:
        """Say quietly that what stands here is not about the room as it is."""
        self.range.setText(words)
        self._be_quiet(True)

    def show_outlook(self, found: Outlook, setout: SetOut) -> None:
        """Say what a plan comes to."""
        room = setout.room
        self.finish.setText(finish_title(found, room))
        self._be_quiet(False)
        self.range.setText(range_words(found, room.crew))
        self.governs.setText(governing_words(found, room.crew))
        self.work.setText(work_words(found, room))
        self.rests_on.setText(rests_on_words(found, room.crew))

    def _be_quiet(self, quiet: bool) -> None:
        self._is_quiet = quiet
        self._finish_style.refresh()

    def _finish_sheet(self) -> str:
        ink = theme.shown.quiet_ink if self._is_quiet else theme.shown.ink
        return f"font-size: {theme.big_px(FINISH_PX)}px; font-weight: 700; color: {ink}"


class CrewLeaf(Pages):
    """Has the plan worked out aside, only while it shows."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self._document = document
        self._known = document.room.crew, document.room.rates
        self._setout: SetOut | None = None
        self.outlook: Outlook | None = None
        """The plan for the room as it is; None until it is worked out."""
        self.card, self.terms, self.people, self.chart = FinishCard(), TermsCard(document), PeopleTable(document), PlanChart()
        self.remove_button, self.told = QPushButton(tr("Remove")), QLabel()
        self.remove_button.clicked.connect(lambda: self.people.remove(self.people.currentIndex().row()))
        self._place()
        self._aside = Aside(self)
        self._listen(Settled(document, self))
        self.card.say_working(tr(WORKING))

    def _place(self) -> None:
        area = QScrollArea()
        area.setWidget(self.chart)
        area.setAccessibleName(tr("The crew's plan, to scroll"))
        area.setWidgetResizable(True)
        area.setFrameShape(QFrame.Shape.NoFrame)
        drawn = QFrame()
        drawn.setObjectName("card")
        column = QVBoxLayout(drawn)
        column.setContentsMargins(10, 8, 10, 6)
        self.told.setObjectName("heading")
        column.addWidget(self.told)
        column.addWidget(area, 1)
        people = Titled(tr("People"), self.people, (self.remove_button,))
        second = beside((people, 1), (self.terms, 0))
        self.set_out(self.card, ((tr(PAGES[0]), drawn, self.chart), (tr(PAGES[1]), second, self.people)))
        if not self._document.room.crew.people:
            self.turn(1)

    def _listen(self, settled: Settled) -> None:
        settled.reached.connect(self._begin)
        settled.lost.connect(self._give_up)
        self._aside.told.connect(self._show)
        self._aside.failed.connect(self.card.say_working)
        self.chart.chosen_changed.connect(self._tell)
        self.people.selectionModel().currentRowChanged.connect(self._offer_removal)
        self._document.changed.connect(self._follow)
        self._tell("")
        self._offer_removal()

    def _follow(self, setout: SetOut) -> None:
        # A drag changes everything but the crew, sixty times a second.
        known = setout.room.crew, setout.room.rates
        if any(one is not other for one, other in zip(known, self._known, strict=True)):
            self._known = known
            self.terms.refresh()
            self.people.refresh()
            self._offer_removal()

    def _offer_removal(self, *_indexes: object) -> None:
        row = self.people.row_at_hand()
        self.remove_button.setEnabled(row is not None and row.person is not None)

    def _begin(self, setout: SetOut) -> None:
        self._setout = setout
        self._aside.ask(outlook, setout)

    def _give_up(self) -> None:
        """The room changed, a drag began or the leaf was left: what was begun no longer matters."""
        self._aside.stop()
        if not self.isVisible():
            self._aside.close()
        self.outlook = None
        self.card.say_working(tr(WORKING))
        self.chart.grow_old()
        self.people.show_minutes(None)

    def _show(self, found: Outlook) -> None:
        setout = self._setout
        if setout is None:
            return
        self.outlook = found
        calendar = Calendar(setout.room.crew)
        self.card.show_outlook(found, setout)
        self.people.show_minutes(found.by_person)
        self.chart.show_outlook(found, lambda day: day_words(calendar.date_of(day)))

    def _tell(self, words: str) -> None:
        self.told.setText(words or tr("Who does what when"))
