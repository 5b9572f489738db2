"""The window that compares: figures, what was changed, what it means for what hangs, and both elevations."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QDialog,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QSplitter,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app import theme
from app.comparing.elevations import ComparedElevations
from app.comparing.figures import lines
from app.comparing.hanging import hanging_words
from app.comparing.versions import Pair
from app.theme.look import InStep
from core.compare import Difference, differences
from core.language import marked, tr
from core.places import place_heading
from core.room import wall_letter

ROW_PX = 24
WHOLE = marked("Whole room")
HINT = marked("PgDn, PgUp go from wall to wall on the elevations · Enter on a line goes to its wall · Esc closes")
Choose = Callable[[], Pair | None]


class CompareDialog(QDialog):
    """Shows a pair of versions; nothing here changes either."""

    def __init__(self, pair: Pair, choose_saved: Choose | None, choose_file: Choose, parent: QWidget | None = None) -> None:
        """``choose_saved`` and ``choose_file`` give another pair, or None where there is none after all."""
        super().__init__(parent)
        self.setWindowTitle(tr("Two versions compared"))
        self.setWindowFlag(Qt.WindowType.WindowMaximizeButtonHint)
        self.figures = QTableWidget(0, 4)
        self.changes = QListWidget()
        self.hanging = QLabel()
        self.elevations = ComparedElevations(pair)
        self.walls = QComboBox()
        self._wheres: list[str] = []
        self._dress_figures()
        self.changes.setAccessibleName(tr("What was changed"))
        self.changes.setWordWrap(True)
        self.changes.itemActivated.connect(self._go_to)
        self.changes.itemClicked.connect(self._go_to)
        self.hanging.setWordWrap(True)
        self.hanging.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.hanging.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._place(choose_saved, choose_file)
        self.elevations.wall_changed.connect(self._on_wall)
        self.walls.activated.connect(lambda place: self.elevations.show_wall(place - 1 if place else None))
        self.show_pair(pair)
        self.resize(1360, 940)
        self.elevations.setFocus()

    def _dress_figures(self) -> None:
        table = self.figures
        table.setAccessibleName(tr("Figures of both versions"))
        table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        table.setTabKeyNavigation(False)
        table.setShowGrid(False)
        table.verticalHeader().hide()
        InStep(table, lambda: table.verticalHeader().setDefaultSectionSize(theme.px(ROW_PX)))
        header = table.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        header.setHighlightSections(False)

    def _place(self, choose_saved: Choose | None, choose_file: Choose) -> None:
        beside = QWidget()
        column = QVBoxLayout(beside)
        column.setContentsMargins(8, 0, 0, 0)
        column.addWidget(_heading(tr("What was changed")))
        column.addWidget(self.changes, 1)
        self.hanging_heading = _heading(tr("What is built and hangs"))
        column.addWidget(self.hanging_heading)
        column.addWidget(self.hanging)
        above = QSplitter(Qt.Orientation.Horizontal)
        above.addWidget(self.figures)
        above.addWidget(beside)
        above.setSizes([640, 620])
        above.setChildrenCollapsible(False)
        split = QSplitter(Qt.Orientation.Vertical)
        split.addWidget(above)
        split.addWidget(self.elevations)
        split.setSizes([270, 560])
        split.setChildrenCollapsible(False)
        hint = QLabel(tr(HINT))
        hint.setObjectName("quiet")
        layout = QVBoxLayout(self)
        layout.addLayout(self._tools(choose_saved, choose_file))
        layout.addWidget(split, 1)
        layout.addWidget(hint)

    def _tools(self, choose_saved: Choose | None, choose_file: Choose) -> QHBoxLayout:
        line = QHBoxLayout()
        self.saved_button = QPushButton(tr("With the &saved version"))
        self.file_button = QPushButton(tr("With another &file…"))
        for button, choose in ((self.saved_button, choose_saved), (self.file_button, choose_file)):
            button.setAutoDefault(False)
            button.setEnabled(choose is not None)
            if choose is not None:
                button.clicked.connect(lambda _checked=False, choose=choose: self._choose(choose))
            line.addWidget(button)
        line.addStretch(1)
        label = QLabel(tr("Sho&w"))
        label.setBuddy(self.walls)
        self.walls.setAccessibleName(tr("Wall to show in both elevations"))
        line.addWidget(label)
        line.addWidget(self.walls)
        return line

    def _choose(self, choose: Choose) -> None:
        pair = choose()
        if pair is not None:
            self.show_pair(pair)

    def show_pair(self, pair: Pair) -> None:
        """Compare two other versions."""
        self._show_figures(pair)
        self._show_changes(differences(pair.before.setout.room, pair.after.setout.room))
        words = hanging_words(pair)
        over = tr("From “{before}” to “{after}”:", before=pair.before.title, after=pair.after.title)
        self.hanging.setText("\n".join((over, *words)))
        for part in (self.hanging, self.hanging_heading):
            part.setVisible(bool(words))
        self.elevations.show_pair(pair)
        self.walls.clear()
        letters = (wall_letter(wall) for wall in range(self.elevations.wall_count))
        self.walls.addItems([tr(WHOLE), *(tr("Wall {wall}", wall=letter) for letter in letters)])

    def _show_figures(self, pair: Pair) -> None:
        table, shown = self.figures, lines(pair.before.setout, pair.after.setout)
        table.setHorizontalHeaderLabels(["", pair.before.title, pair.after.title, tr("difference")])
        table.setRowCount(len(shown))
        for row, line in enumerate(shown):
            for column, text in enumerate(line.texts):
                item = QTableWidgetItem(text if column or line.is_strong else f"    {text}")
                right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
                item.setTextAlignment(right if column else Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft)
                font = QFont(table.font())
                font.setBold(line.is_strong)
                item.setFont(font)
                table.setItem(row, column, item)

    def _show_changes(self, found: tuple[Difference, ...]) -> None:
        self.changes.clear()
        self._wheres = [difference.subject for difference in found]
        self.changes.addItems([_change_words(difference) for difference in found])
        if not found:
            self.changes.addItem(tr("Nothing: both are the same room."))

    def _go_to(self, item: QListWidgetItem) -> None:
        """Show the wall that a line is about; the whole room for what is on none."""
        row = self.changes.row(item)
        if row < len(self._wheres):
            self.elevations.show_wall(self.elevations.wall_of(self._wheres[row]))

    def _on_wall(self, wall: int | None) -> None:
        self.walls.setCurrentIndex(0 if wall is None else wall + 1)


def _change_words(difference: Difference) -> str:
    subject = place_heading(difference.subject)
    what = f", {difference.what}" if difference.what else ""
    return f"{subject}{what}: {difference.before} → {difference.after}"


def _heading(text: str) -> QLabel:
    label = QLabel(text)
    label.setObjectName("heading")
    return label
