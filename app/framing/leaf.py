"""The frame leaf: how the wall's frame is given on the left; beside it what misses, its face, timber, screws and notes."""

from collections.abc import Callable, Mapping

from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from app.aside.aside import Aside
from app.aside.idle import Idle
from app.aside.settled import Settled
from app.document import Document
from app.framing import note_facts, screw_facts, timber_facts, wall_facts
from app.framing.facts import Explained, FactCard
from app.framing.given_card import WORKING, GivenCard
from app.framing.readings_table import ReadingsTable
from app.framing.timber_card import TimberCard
from app.framing.weighing import weighing
from app.inspector.fields import ChoiceField
from app.tables.pages import Pages, beside
from app.tables.reading import committed
from app.tables.titled import Titled
from core.edits.timberwork import set_screw
from core.frame import FramePlan, WallFrame, plan_of
from core.language import marked, tr, trn
from core.room import wall_letter
from core.setout.result import SetOut
from core.units import in_units

PAGES = (marked("Wall"), marked("Face"), marked("Timber"), marked("Screws"), marked("Notes"))
BY_CHECK = marked("the one that suits best")


class FrameLeaf(Pages):
    """Has the plan worked out aside, only while it shows; the tables keep the last one, lettered quietly, meanwhile."""

    def __init__(self, document: Document, go_to: Callable[[str], object]) -> None:
        super().__init__()
        self._document = document
        self._setout: SetOut | None = None
        self._is_weighed = False
        self.plan: FramePlan | None = None
        """The frame of the room as it is; None until it is worked out."""
        self._shown: tuple[SetOut, FramePlan] | None = None
        self.given, self.readings, self.timber = GivenCard(document), ReadingsTable(document), TimberCard(document)
        self._make_cards()
        self._place()
        for card in self.cards:
            card.table.place_asked.connect(go_to)
        self._aside, self._idle = Aside(self), Idle(self)
        self._listen(Settled(document, self))
        self.given.say(tr(WORKING), "", "")

    def _make_cards(self) -> None:
        self.misses = FactCard(tr("Screws without timber"), wall_facts.MISS_TITLES, stretch=(5,), least_px=520)
        self.blocks = FactCard(tr("Blocking"), wall_facts.BLOCK_TITLES, stretch=(4,), least_px=340)
        self.marks = FactCard(tr("Marks off a tape"), wall_facts.MARK_TITLES, stretch=(3,), least_px=330)
        self.packers = FactCard(tr("Packers"), wall_facts.PACKER_TITLES, stretch=(1,), least_px=380)
        self.bought = FactCard(tr("To buy"), timber_facts.BOUGHT_TITLES, least_px=220)
        self.cuts = FactCard(tr("To cut"), timber_facts.CUT_TITLES, stretch=(0, 3), least_px=330)
        self.boards = FactCard(tr("From which board"), timber_facts.BOARD_TITLES, stretch=(3,), least_px=350)
        self.screws = FactCard(tr("Screws by wall"), screw_facts.WALL_TITLES, stretch=(2, 3), least_px=400)
        self.figures = FactCard(tr("Why"), screw_facts.FIGURE_TITLES, least_px=290)
        self.others = FactCard(tr("Each screw of the list"), screw_facts.OTHER_TITLES, stretch=(0, 1), least_px=420)
        self.loads = FactCard(tr("Loads and lifting"), note_facts.LOAD_TITLES, least_px=260)
        self.openings = FactCard(tr("Openings"), note_facts.OPENING_TITLES, stretch=(2,), least_px=380)
        self.checks = FactCard(tr("Checks of the frame"), note_facts.CHECK_TITLES, stretch=(2,), least_px=360)
        self.cards = (
            *(self.misses, self.blocks, self.marks, self.packers, self.bought, self.cuts, self.boards),
            *(self.screws, self.figures, self.others, self.loads, self.openings, self.checks),
        )
        self.screw = ChoiceField(tr("Drive"), lambda: self._document.room.timberwork.screw or "", self._set_screw)
        below = QVBoxLayout()
        below.addWidget(self.screw)
        self.screws.add(below)

    def _place(self) -> None:
        remove = QPushButton(tr("Remove"))
        remove.clicked.connect(lambda: self.readings.remove(self.readings.currentIndex().row()))
        self.faces = Titled(tr("Readings: how far behind one plumb plane"), self.readings, (remove,))
        wall = (self.misses, self.blocks, self.marks)
        timber = (self.bought, self.cuts, self.boards)
        notes = (self.loads, self.openings, self.checks)
        pages: tuple[tuple[QWidget, QWidget], ...] = (
            (Explained(beside((self.misses, 7), (self.blocks, 5), (self.marks, 5)), wall), self.misses.table),
            (Explained(beside((self.faces, 4), (self.packers, 8)), (self.packers,)), self.readings),
            (
                Explained(beside((self.timber, 0), (self.bought, 4), (self.cuts, 7), (self.boards, 7)), timber),
                self.timber.size_field.box,
            ),
            (
                Explained(
                    beside((self.screws, 8), (self.figures, 6), (self.others, 9)), (self.screws, self.figures, self.others)
                ),
                self.screws.table,
            ),
            (
                Explained(beside((self.loads, 4), (self.openings, 7), (self.checks, 7)), notes, note_facts.DEFERS),
                self.loads.table,
            ),
        )
        self.set_out(self.given, [(tr(words), page, focus) for words, (page, focus) in zip(PAGES, pages, strict=True)])
        for switch in self.switches:
            switch.setStyleSheet("padding-left: 2px; padding-right: 2px")
        self.setFocusProxy(self.given.mode.box)

    def turn(self, page: int) -> None:
        """Show a page; the keyboard comes in at how the frame is given, from where Tab goes on to the page."""
        super().turn(page)
        self.setFocusProxy(self.given.mode.box)

    def _listen(self, settled: Settled) -> None:
        settled.reached.connect(self._begin)
        settled.lost.connect(self._give_up)
        self._aside.told.connect(self._show)
        self._aside.failed.connect(lambda why: self.given.say(why, "", ""))
        self._idle.finished.connect(self._ask_weighed)
        self._document.wall_changed.connect(self._show_wall)
        self._document.changed.connect(self._follow)
        self._follow()

    def _follow(self, _setout: object = None) -> None:
        names = [screw.name for screw in self._document.room.timberwork.screws]
        self.screw.offer([("", tr(BY_CHECK)), *((name, tr(name)) for name in names)])
        self.screw.refresh()

    def _begin(self, setout: SetOut) -> None:
        self._setout, self._is_weighed = setout, False
        self._aside.ask(plan_of, setout)

    def _give_up(self) -> None:
        """The room changed, a drag began or the leaf was left: what was begun no longer matters."""
        self._idle.stop()
        self._aside.stop()
        if not self.isVisible():
            self._aside.close()
        self.plan = None
        self.given.say(tr(WORKING), "", "")
        for card in self.cards:
            card.grow_old()

    def _show(self, plan: FramePlan) -> None:
        """Show a plan. The first weighs panels by their area, one more by their parts once they are bonded."""
        setout = self._setout
        if setout is None:
            return
        self.plan, self._shown = plan, (setout, plan)
        self._show_room(setout, plan)
        self._show_wall()
        if not self._is_weighed:
            self._idle.start(weighing(setout))

    def _ask_weighed(self, masses: Mapping[str, float]) -> None:
        self._is_weighed = True
        if self._setout is not None and masses:
            self._aside.ask(plan_of, self._setout, masses)

    def _show_room(self, setout: SetOut, plan: FramePlan) -> None:
        room = setout.room
        self.bought.show_facts(timber_facts.bought_facts(room, plan))
        self.cuts.show_facts(timber_facts.cut_facts(room, plan))
        self.boards.show_facts(timber_facts.board_facts(room, plan))
        self.screws.show_facts(screw_facts.wall_facts(room, plan))
        self.loads.show_facts(note_facts.load_facts(room, plan))
        self.openings.show_facts(note_facts.opening_facts(room, plan))
        self.checks.show_facts(note_facts.check_facts(room, plan))

    def _show_wall(self, _wall: int = 0) -> None:
        wall = self._document.wall
        if self._shown is None or wall >= len(self._shown[1].walls):
            return
        setout, plan = self._shown
        frame, letter = plan.walls[wall], wall_letter(wall)
        misses, blocks = wall_facts.miss_facts(setout, frame), wall_facts.block_facts(setout, frame)
        title = trn("Wall {wall}: {n} screw without timber", "Wall {wall}: {n} screws without timber", len(misses), wall=letter)
        self.misses.show_facts(misses, title)
        title = trn("Wall {wall}: {n} piece to cut in", "Wall {wall}: {n} pieces to cut in", len(blocks), wall=letter)
        self.blocks.show_facts(blocks, title)
        self.marks.show_facts(wall_facts.mark_facts(setout, frame), tr("Wall {wall}: marks off a tape", wall=letter))
        self.marks.setVisible(frame.is_to_build)
        title = tr("Wall {wall}: packers, {method}", wall=letter, method=tr(frame.packers.method))
        self.packers.show_facts(wall_facts.packer_facts(setout, frame), title)
        self._show_screw(setout, frame)
        if self.plan is None:
            for card in self.cards:
                card.grow_old()
            return
        said = in_units(wall_facts.summary(frame), setout.room.display_units)
        drift = frame.drift
        self.given.say(said, drift.words if drift else "", drift.how if drift else "")

    def _show_screw(self, setout: SetOut, frame: WallFrame) -> None:
        verdict, letter = screw_facts.verdict_at(frame), wall_letter(frame.wall)
        if verdict is None:
            title = tr("Wall {wall}: no screws", wall=letter)
        elif verdict.fits:
            title = tr("Wall {wall}: why {screw}", wall=letter, screw=tr(verdict.screw.name))
        else:
            title = tr("Wall {wall}: {screw}, nearest to doing", wall=letter, screw=tr(verdict.screw.name))
        self.figures.show_facts(screw_facts.figure_facts(frame, setout.room.display_units), title)
        self.others.show_facts(screw_facts.other_facts(frame), tr("Wall {wall}: each screw of the list", wall=letter))

    def _set_screw(self, name: str) -> str:
        return committed(self._document, lambda room: set_screw(room, name or None), tr("Choose the screw"))
