"""The bench view's window: turns pages, marks a panel as built, prints its sheet; all of it by keyboard."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date

from PySide6.QtCore import QSizeF, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app import theme
from app.aside.aside import Aside
from app.bench.job import BenchJob
from app.bench.pages import BenchPage, paint_page
from app.document import Document
from app.from_stock import StockBonds
from app.theme.look import Style
from core.bond import StockError, bond_for
from core.crew.standing import standing
from core.drawing import Sheet
from core.edits.progress import mark_panels
from core.frame import as_hung
from core.language import marked, tr
from core.setout.result import SetOut

HINTS = marked(
    "Space next · Left back · Home first · End check · M other side · P its sheet · PgDn, PgUp other design · "
    "F11 full screen · Esc close"
)
MAKING_SHEET = marked("Making its sheet as it is in the pack …")
TURNING = frozenset({Qt.Key.Key_Space, Qt.Key.Key_Right, Qt.Key.Key_Down, Qt.Key.Key_Left, Qt.Key.Key_Up})


@dataclass
class BenchMemory:
    """What the bench remembers while the program runs: the page of every design, and the side shown."""

    pages: dict[str, int] = field(default_factory=dict)
    from_back: bool = False


class BenchPaper(QWidget):
    """The page itself. A click on its right half turns on, on its left half back."""

    def __init__(self, dialog: "BenchDialog") -> None:
        super().__init__(dialog)
        self._dialog = dialog
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setMinimumSize(640, 400)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        paint_page(painter, self._dialog.page(QSizeF(self.size())))
        painter.end()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            self._dialog.turn(1 if event.position().x() > self.width() / 2 else -1)


class BenchDialog(QDialog):
    """One design at the bench, from its first course to its check figures."""

    def __init__(
        self, document: Document, job: BenchJob, stock: StockBonds, memory: BenchMemory, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._document, self._stock, self._memory = document, stock, memory
        self._marked: list[str] = []
        self._notice = ""
        self._just_marked = False
        self._job, self._mark = job, job.mark
        self._setout = document.work_out()
        self._aside = Aside(self)
        self._aside.told.connect(self._preview)
        self._aside.failed.connect(self._say)
        self.finished.connect(self._aside.close)
        self.paper = BenchPaper(self)
        self.hints = QLabel(tr(HINTS))
        self.built = QPushButton()
        self.built.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.built.setAutoDefault(False)
        Style(self.built, lambda: f"font-size: {theme.big_px(26)}px; font-weight: 700; padding: 10px 24px;")
        self.built.clicked.connect(self.mark_built)
        foot = QHBoxLayout()
        foot.setContentsMargins(16, 0, 16, 8)
        foot.addWidget(self.hints, 1)
        foot.addWidget(self.built)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self.paper, 1)
        whole.addLayout(foot)
        self._keys = self._key_table()
        document.changed.connect(self._follow)
        self.resize(1600, 900)
        self.setWindowState(Qt.WindowState.WindowMaximized)
        self._show()

    def _key_table(self) -> dict[int, Callable[[], object]]:
        key = Qt.Key
        on, back = (lambda: self.turn(1)), (lambda: self.turn(-1))
        return {
            **dict.fromkeys((key.Key_Space, key.Key_Right, key.Key_Down), on),
            **dict.fromkeys((key.Key_Left, key.Key_Up, key.Key_Backspace), back),
            key.Key_Home: lambda: self.go_to(0),
            key.Key_End: lambda: self.go_to(len(self._job.layers)),
            key.Key_M: self.see_other_side,
            key.Key_B: self.mark_built,
            key.Key_P: self.preview,
            key.Key_PageDown: lambda: self.step_design(1),
            key.Key_PageUp: lambda: self.step_design(-1),
            key.Key_F11: lambda: self.setWindowState(self.windowState() ^ Qt.WindowState.WindowFullScreen),
        }

    @property
    def job(self) -> BenchJob:
        return self._job

    @property
    def number(self) -> int:
        """The layer shown, from 0; the number of layers for the check figures."""
        return min(self._memory.pages.get(self._job.name, 0), len(self._job.layers))

    @property
    def mark(self) -> str:
        """The panel that is being built: the one picked, or the first of its design that is still to build."""
        return self._mark

    def page(self, size: QSizeF) -> BenchPage:
        """The page to show."""
        return BenchPage(self._job, self.number, self._memory.from_back, self._mark, self._notice, self._done(), size)

    def turn(self, step: int) -> None:
        """Turn on or back by so many courses."""
        self.go_to(self.number + step)

    def go_to(self, number: int) -> None:
        """Go to a layer; past the last come the check figures."""
        number = max(0, min(number, len(self._job.layers)))
        if number != self.number:
            self._notice = ""
            self._just_marked = False
        self._memory.pages[self._job.name] = number
        self._show()

    def see_other_side(self) -> None:
        """Show the panel from its back, or from its front again."""
        self._memory.from_back = not self._memory.from_back
        self._show()

    def step_design(self, step: int) -> None:
        """Go on to the next design that can be bonded, or to the one before; round the list."""
        setout = self._document.work_out()
        names = [design.name for design in as_hung(setout).setout.designs]
        at = names.index(self._job.design.name) if self._job.design.name in names else -1
        for further in range(1, len(names) + 1):
            try:
                self._job = BenchJob.of(setout, names[(at + step * further) % len(names)], "", self._stock.found)
            except StockError:
                continue
            break
        self._mark = self._job.marks[0]
        self._notice, self._just_marked = "", False
        self._mark = self._due() or self._mark
        self._show()

    def mark_built(self) -> None:
        """Mark the panel as built; on the last page only, and not twice without a turn of the page."""
        if self.number < len(self._job.layers) or self._just_marked:
            return
        setout = self._document.work_out()
        mark = self._due()
        if mark is None:
            return
        design, own = next(panel.design for panel in setout.panels if panel.mark == mark), self._job.own_parts
        parts, noted = {design: bond_for(setout, design).parts}, {} if own is None else {mark: own}
        today = date.today().isoformat()
        if not self._document.commit_edit(
            lambda _room: mark_panels(setout, (mark,), "built", parts, own=noted, on=today),
            tr("Mark {panel} as built", panel=mark),
        ):
            self._say(self._document.refusal)
            return
        self._marked.append(mark)
        self._just_marked = True
        following = self._due()
        more = tr("Home begins the next one, {panel}.", panel=following) if following else tr("It was the last of its design.")
        self._notice = " ".join((tr("{panel} is marked as built; Ctrl+Z takes that back.", panel=mark), more))
        self._show()

    def take_back(self) -> None:
        """Undo the latest mark made here."""
        if self._marked and self._document.undo_stack.canUndo():
            self._document.undo_stack.undo()
            self._mark = self._marked.pop()
            self._notice = tr("{panel} is to be built again.", panel=self._mark)
            self._just_marked = False
            self._show()

    def preview(self) -> None:
        """Have the panel's own sheet made as it is in the pack, and show it as it will print."""
        from app.bench.sheet import sheets_of_panel

        setout = self._document.work_out()
        if self._mark not in {panel.mark for panel in setout.panels}:
            self._say(tr("{panel} is not in the set-out any more", panel=self._mark))
            return
        self._aside.ask(sheets_of_panel, setout, self._mark, self._stock.found, date.today())
        self._say(tr(MAKING_SHEET))

    def _preview(self, sheets: tuple[Sheet, ...]) -> None:
        from app.printing import Preview

        self._say("")
        preview = Preview(self._document.setout, self, sheets)
        preview.exec()
        preview.deleteLater()

    def _say(self, notice: str) -> None:
        self._notice = notice
        self._show()

    def _done(self) -> int:
        states = standing(self._document.setout).by_mark
        panels = as_hung(self._document.setout).setout.panels
        return sum(states[panel.mark] != "to build" for panel in panels if panel.design == self._job.design.name)

    def _due(self) -> str | None:
        """The mark to build: the one shown where it still is, else the design's first, of the same bond if there is one."""
        states = standing(self._document.setout).by_mark
        panels = as_hung(self._document.setout).setout.panels
        marks = [panel.mark for panel in panels if panel.design == self._job.design.name]
        left = [mark for mark in marks if states[mark] == "to build"]
        names = self._stock.found.names if self._stock.found else {}
        alike = [mark for mark in left if names.get(mark) == names.get(self._mark)]
        return self._mark if self._mark in left else next(iter(alike or left), None)

    def _follow(self, setout: SetOut) -> None:
        if self._document.is_full:
            self._setout = setout
            self._show()

    def _show(self) -> None:
        due = self._due()
        if due is not None and not self._just_marked:
            self._take(due)
        is_check = self.number == len(self._job.layers)
        self.built.setVisible(is_check)
        self.built.setEnabled(due is not None and not self._just_marked)
        self.built.setText(tr("&B   Mark {panel} as built", panel=due) if due else tr("Every panel of this design is built"))
        page = self.page(QSizeF(self.paper.size()))
        self.setWindowTitle(f"{self._job.name}: {page.title}")
        self.paper.setAccessibleName(page.title)
        self.paper.setAccessibleDescription(page.words())
        self.paper.update()

    def _take(self, mark: str) -> None:
        """Go on to a panel, which may be laid otherwise than the one before."""
        self._mark = mark
        is_by_panel = self._stock.found is not None or not self._setout.room.colouring.is_plain
        if mark != self._job.mark and is_by_panel:
            self._job = BenchJob.of(self._setout, self._job.design.name, mark, self._stock.found)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape closes; a held key turns pages, but does nothing else twice."""
        if event.matches(QKeySequence.StandardKey.Undo):
            self.take_back()
            return
        answer = self._keys.get(event.key())
        plain = not event.modifiers() & ~(Qt.KeyboardModifier.KeypadModifier | Qt.KeyboardModifier.ShiftModifier)
        if answer is None or not plain:
            super().keyPressEvent(event)
        elif not event.isAutoRepeat() or event.key() in TURNING:
            answer()
