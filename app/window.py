"""The window: the tally board on top, the developed elevation as the stage, and the bench with the rest below it."""

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QByteArray, QSettings, QSize, Qt, QTimer
from PySide6.QtGui import QAction, QCloseEvent, QKeySequence
from PySide6.QtWidgets import (
    QApplication,
    QDialog,
    QFrame,
    QHBoxLayout,
    QMainWindow,
    QMenu,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from app.actions import Answer, build_actions, fill_menus
from app.appearance import Appearance
from app.appearance_menus import appearance_menus
from app.autosave import Autosave
from app.bench.bench import Bench
from app.cautions import PageDialog, about_html, cautions_html, figures_html, keys_html
from app.checks import ChecksPanel
from app.colour.colours import Colours
from app.copying import OpeningsClipboard
from app.document import Document
from app.elevation import ElevationView
from app.elevation_menu import ElevationMenu
from app.file_commands import FileCommands
from app.finding import Finder
from app.foot import Foot
from app.from_stock import StockBonds
from app.inspector import Inspector
from app.leaves import Leaves
from app.plan import PlanView
from app.plan.commands import plan_answers
from app.questions import Questions
from app.recent import RecentMenu
from app.room_commands import RoomCommands
from app.strip import Strip
from app.tally import TallyBoard
from app.theme.look import Style
from app.theme.sheet import stylesheet
from app.tracking.building import Building
from app.window_language import language_menu
from core.language import tr

if TYPE_CHECKING:
    from app.first_steps.guide import Guide

GEOMETRY = "window/geometry"
SPLIT = "window/split"
USUAL_SIZE = QSize(1600, 900)
REFUSAL_MS = 8000
BELOW_STRIP = 2
"""Where the first steps stand among what lies above the elevation."""


class Window(QMainWindow):
    """Places the views round one document and connects what they say to what can be done."""

    def __init__(self, document: Document, state_folder: Path, questions: Questions | None = None) -> None:
        super().__init__()
        application = QApplication.instance()
        assert isinstance(application, QApplication)
        self.appearance = Appearance(application, self)
        Style(self, stylesheet)
        self.document = document
        self.questions = questions or Questions(self)
        self.elevation = ElevationView(document)
        self.plan = PlanView(document)
        self.checks = ChecksPanel(document)
        self.board = TallyBoard(document)
        self.autosave = Autosave(document, state_folder, self)
        self.from_stock = StockBonds(document, self)
        self.files = FileCommands(document, self.autosave, self.questions, self.from_stock, self)
        self.commands = RoomCommands(document, self.elevation.show_place)
        self.building = Building(document, self.statusBar().showMessage, self.from_stock, self)
        self.inspector = Inspector(document, self.building.marking)
        self.copies = OpeningsClipboard(document, self.statusBar().showMessage, self)
        self.colours = Colours(document, self.elevation, self)
        self.bench = Bench(document, self.questions, self.from_stock, self)
        self.standing: QDialog | None = None
        self.guide: Guide | None = None
        self.finder = Finder(document, self.elevation, self.elevation.show_place)
        self.actions_by_name = build_actions(self, self.elevation, self._answers())
        self.elevation_menu = ElevationMenu(document, self.elevation, self.actions_by_name, self.copies.paste, self)
        self.undo, self.redo = self._undo_actions()
        self.plan.offer([self.actions_by_name[name] for name in ("sketch", "recess", "square")])
        self.recent = RecentMenu(self.files.open_recent, self.files.may_drop, self)
        looks = [*appearance_menus(self.appearance, self), language_menu(self.statusBar().showMessage, self)]
        after: dict[str, list[QMenu]] = {"open": [self.recent], "show_colours": looks}
        fill_menus(self.menuBar(), self.actions_by_name, {"&Edit": [self.undo, self.redo]}, after)
        self._place()
        self._listen()
        self._restore()
        self.elevation.setFocus()

    def _answers(self) -> dict[str, Answer]:
        document = self.document
        return {
            **self.files.answers(),
            "compare": self._compare,
            "quit": self.close,
            **self.commands.answers(),
            **self.copies.answers(),
            "choose_all": document.chosen.choose_all,
            "choose_next": lambda: self.elevation.choose_another(1),
            "choose_previous": lambda: self.elevation.choose_another(-1),
            "find": self.finder.open,
            **plan_answers(document, self.questions, self),
            "next_wall": lambda: self.elevation.go_to_wall(document.wall + 1),
            "previous_wall": lambda: self.elevation.go_to_wall(document.wall - 1),
            "zoom_in": self.elevation.zoom_in,
            "zoom_out": self.elevation.zoom_out,
            "zoom_fit": self.elevation.fit,
            "go_elevation": self.elevation.setFocus,
            "go_plan": self.plan.setFocus,
            "go_inspector": self.inspector.take_focus,
            "go_checks": self.checks.view.setFocus,
            "go_buy": lambda: self._go_to_leaf(self.buying),
            "go_build": lambda: self._go_to_leaf(self.build),
            "go_frame": lambda: self._go_to_leaf(self.framing),
            "go_colour": lambda: self._go_to_leaf(self.colouring),
            **self.colours.answers(),
            **self.building.answers(),
            "go_crew": lambda: self._go_to_leaf(self.crew),
            "bench": self.bench.open_selected,
            "standing": self._stand_up,
            "first_steps": self.begin_guide,
            "keys": lambda: PageDialog(tr("Keys"), keys_html(), self).exec(),
            "why": self.elevation.explain,
            "figures": lambda: PageDialog(tr("Figures"), figures_html(self.board.explanations), self).exec(),
            "cautions": lambda: PageDialog(tr("Cautions"), cautions_html(), self).exec(),
            "about": lambda: PageDialog(tr("About Coursewright"), about_html(), self).exec(),
        }

    def _undo_actions(self) -> tuple[QAction, QAction]:
        stack = self.document.undo_stack
        undo, redo = stack.createUndoAction(self), stack.createRedoAction(self)
        undo.setShortcut(QKeySequence("Ctrl+Z"))
        redo.setShortcuts([QKeySequence("Ctrl+Shift+Z"), QKeySequence("Ctrl+Y")])
        return undo, redo

    def _place(self) -> None:
        stage = QWidget()
        above = QVBoxLayout(stage)
        above.setContentsMargins(0, 0, 0, 0)
        above.setSpacing(0)
        for part in (self.board, Strip(self.document, self.actions_by_name, (self.undo, self.redo))):
            above.addWidget(part)
        above.addWidget(self.elevation, 1)
        self._above = above
        self.split = QSplitter(Qt.Orientation.Vertical)
        self.split.addWidget(stage)
        self.leaves = Leaves()
        self.leaves.add(tr("&Room"), self._bench)
        self.buying = self.leaves.add(tr("&Buy"), self._buy)
        self.crew = self.leaves.add(tr("&Crew"), self._crew)
        self.framing = self.leaves.add(tr("Fra&me"), self._frame)
        self.colouring = self.leaves.add(tr("Co&lour"), self.colours.make_leaf)
        self.build = self.leaves.add(tr("Buil&d"), lambda: self.building.make_leaf(self.actions_by_name))
        self.split.addWidget(self.leaves)
        self.split.setStretchFactor(0, 1)
        self.split.setChildrenCollapsible(False)
        self.split.setSizes([560, 310])
        self.setCentralWidget(self.split)
        self.foot = Foot(self)

    def _bench(self) -> QWidget:
        bench = QWidget()
        bench.setObjectName("bench")
        layout = QHBoxLayout(bench)
        layout.setContentsMargins(8, 8, 8, 4)
        layout.setSpacing(8)
        plan = QFrame()
        plan.setObjectName("card")
        QVBoxLayout(plan).addWidget(self.plan)
        middle = QScrollArea()
        middle.setWidget(self.inspector)
        middle.setAccessibleName(tr("Inspector"))
        middle.setWidgetResizable(True)
        middle.setObjectName("middle")
        middle.setFrameShape(QFrame.Shape.NoFrame)
        layout.addWidget(plan, 8)
        layout.addWidget(middle, 23)
        layout.addWidget(self.checks, 9)
        return bench

    def _buy(self) -> QWidget:
        from app.buy.leaf import BuyLeaf

        return BuyLeaf(self.document, self.from_stock)

    def _frame(self) -> QWidget:
        from app.framing.leaf import FrameLeaf

        return FrameLeaf(self.document, self._go_to)

    def _crew(self) -> QWidget:
        from app.crew.leaf import CrewLeaf

        return CrewLeaf(self.document)

    def _stand_up(self) -> None:
        from app.spatial import RoomDialog

        if self.standing is None:
            self.standing = RoomDialog(self.document, self.elevation.show_place, self)
            self.standing.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
            self.standing.finished.connect(self._sit_down)
        self.standing.show()
        self.standing.raise_()
        self.standing.activateWindow()

    def begin_guide(self, *, unasked: bool = False) -> None:
        """Show the first steps; the keyboard goes to them unless nobody asked for them."""
        from app.first_steps.guide import Guide
        from app.first_steps.in_window import WindowParts

        if self.guide is None:
            self.guide = Guide(WindowParts(self), self)
            self.guide.left.connect(self._end_guide)
            self._above.insertWidget(BELOW_STRIP, self.guide)
        if not unasked:
            self.guide.take_focus()
        # What it points at has its place only once the guide has its own.
        QTimer.singleShot(0, self.guide, self.guide.show_place)

    def _end_guide(self) -> None:
        if self.guide is not None:
            self.guide.hide()
            self.guide.deleteLater()
            self.guide = None
            self.elevation.setFocus()

    def _compare(self) -> None:
        from app.comparing import compare_versions

        compare_versions(self.document, self.questions, self)

    def _sit_down(self, _result: int) -> None:
        self.standing = None

    def _go_to_leaf(self, place: int) -> None:
        leaf = self.leaves.turn_to(place)
        if leaf is not None:
            leaf.setFocus()

    def _listen(self) -> None:
        self.document.refused.connect(self._show_refusal)
        self.plan.outline_changed.connect(self.elevation.fit)
        self.elevation.panel_picked.connect(self.bench.open)
        self.document.undo_stack.indexChanged.connect(self._describe)
        self.document.path_changed.connect(self._describe)
        self.document.dirty_changed.connect(self._describe)
        self.document.selection_changed.connect(self._describe)
        self.autosave.failed.connect(self._show_refusal)
        self.checks.go_to.connect(self._go_to)
        self._describe()

    def _describe(self, _what: object = None) -> None:
        """Title, file and which actions make sense now."""
        room, path = self.document.room, self.document.path
        self.setWindowTitle(f"{room.name}[*] – Coursewright")
        self.setWindowModified(self.document.is_dirty)
        self.foot.show_file(path)
        for name in ("delete", "cut", "copy"):
            self.actions_by_name[name].setEnabled(bool(self.document.chosen.openings))
        self.actions_by_name["pin"].setEnabled(bool(self.document.chosen.marks))
        self.actions_by_name["unpin_all"].setEnabled(bool(room.pins))

    def _show_refusal(self, text: str) -> None:
        self.statusBar().showMessage(text.replace("\n", "; "), REFUSAL_MS)

    def _go_to(self, where: str) -> None:
        self.commands.choose(where)
        self.elevation.show_place(where)

    def _restore(self) -> None:
        settings = QSettings()
        self.resize(USUAL_SIZE.boundedTo(self.screen().availableSize()))
        for key, restore in ((GEOMETRY, self.restoreGeometry), (SPLIT, self.split.restoreState)):
            value = settings.value(key)
            if isinstance(value, QByteArray):
                restore(value)

    def closeEvent(self, event: QCloseEvent) -> None:
        if not self.files.may_leave():
            event.ignore()
            return
        QSettings().setValue(GEOMETRY, self.saveGeometry())
        QSettings().setValue(SPLIT, self.split.saveState())
        self.elevation.close()
        self.document.undo_stack.blockSignals(True)  # it empties itself on its way out, and would tell a window half gone
