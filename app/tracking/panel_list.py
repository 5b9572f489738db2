"""The middle of the leaf: panels by state, sought by mark, chosen with the usual keys, and marked by button or key."""

from collections.abc import Mapping

from PySide6.QtCore import QItemSelection, QItemSelectionModel, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QAbstractItemView,
    QButtonGroup,
    QFrame,
    QHeaderView,
    QLabel,
    QLineEdit,
    QTableView,
    QToolButton,
    QVBoxLayout,
)

from app import theme
from app.flow import FlowRow
from app.theme.look import InStep
from app.tracking.panel_rows import COLUMNS, SIGN_SIZE, PanelRow, PanelRows, panel_rows, sifted
from app.tracking.picks import Picks
from core.language import marked, tr
from core.progress import STATES, PanelState
from core.setout.result import SetOut

ROW_PX = 27
TIGHT = "QToolButton { padding: 4px 7px } QToolButton:focus { padding: 3px 6px }"
MARKING = ("step_back", "step_forward")
ALL = len(STATES)
FILTERS = ((ALL, marked("All")), *enumerate(STATES))
MOST_NAMED = 3


class PanelList(QFrame):
    """Shows the set-out's panels; what is chosen here is chosen everywhere, and the other way round."""

    def __init__(self, picks: Picks, actions: Mapping[str, QAction]) -> None:
        super().__init__()
        self.setObjectName("card")
        self._picks = picks
        self._all: tuple[PanelRow, ...] = ()
        self._is_following = False
        self.sought = QLineEdit()
        self.sought.setPlaceholderText(tr("find"))
        InStep(self.sought, lambda: self.sought.setFixedWidth(theme.px(130)))
        self.sought.setAccessibleName(tr("Find a panel by mark or design"))
        self.sought.setClearButtonEnabled(True)
        self.sought.textChanged.connect(self._sift)
        self.filters = QButtonGroup(self)
        self.table, self.rows = _table(), PanelRows(self)
        self.table.setModel(self.rows)
        _size_columns(self.table)
        self.table.selectionModel().selectionChanged.connect(self._on_chosen)
        self.chosen = QLabel()
        # A long word about what is chosen must not make the list wider.
        self.chosen.setWordWrap(True)
        self._place(actions)
        picks.changed.connect(self._show_picks)
        self._show_picks()

    def _place(self, actions: Mapping[str, QAction]) -> None:
        head = FlowRow(self.sought, *(self._filter(number, tr(words)) for number, words in FILTERS))
        self.filters.button(ALL).setChecked(True)
        self.filters.idClicked.connect(self._sift)
        states = (action_button(actions[f"mark_{state.replace(' ', '_')}"], tr(state)) for state in STATES)
        ways = tr("‹ Back"), tr("Forward ›")
        steps = (action_button(actions[name], words) for name, words in zip(MARKING, ways, strict=True))
        marking = FlowRow(*states, *steps, action_button(actions["swap"], tr("Swap…")))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 8, 10, 8)
        layout.setSpacing(4)
        layout.addWidget(head)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.chosen)
        layout.addWidget(marking)

    def _filter(self, number: int, words: str) -> QToolButton:
        button = QToolButton()
        button.setCheckable(True)
        button.setText(words)
        button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        button.setStyleSheet(TIGHT)
        self.filters.addButton(button, number)
        return button

    @property
    def state(self) -> PanelState | None:
        """The state whose panels alone are listed; None for all."""
        number = self.filters.checkedId()
        return None if number == ALL else STATES[number]

    def show_setout(self, setout: SetOut) -> None:
        """List the set-out's panels."""
        self._all = panel_rows(setout)
        for number, words in FILTERS:
            count = len(self._all) if number == ALL else sum(row.state == words for row in self._all)
            button = self.filters.button(number)
            shown = tr(words)
            button.setText(f"{shown} {count}")
            button.setAccessibleName(tr("List {state}: {n} panels", state=shown, n=count))
        self._sift()
        self._show_picks()

    def _sift(self, _what: object = None) -> None:
        chosen = [index.row() for index in self.table.selectionModel().selectedRows()]
        first = min(chosen, default=self.table.currentIndex().row())
        self._is_following = True
        if self.rows.show_rows(sifted(self._all, self.state, self.sought.text())):
            # The rows chosen may have left the list: going on with the arrow keys begins where they were.
            self._select(self._picks.marks, min(first - 1, len(self.rows.rows) - 1))
        self._is_following = False

    def _on_chosen(self, _on: QItemSelection, _off: QItemSelection) -> None:
        if self._is_following:
            return
        places = sorted(index.row() for index in self.table.selectionModel().selectedRows())
        current = self.table.currentIndex().row()
        marks = [self.rows.rows[place].mark for place in places]
        self._picks.choose(marks, self.rows.rows[current].mark if current in places else None)

    def _show_picks(self) -> None:
        marks = self._picks.marks
        self.chosen.setText(self._chosen_words(marks))
        places = {index.row() for index in self.table.selectionModel().selectedRows()}
        if {self.rows.rows[place].mark for place in places} != set(marks) & {row.mark for row in self.rows.rows}:
            self._is_following = True
            self._select(marks, None)
            self._is_following = False

    def _select(self, marks: tuple[str, ...], otherwise: int | None) -> None:
        """Select rows; with none of them listed, the row ``otherwise`` becomes the current one without being chosen."""
        model, flags = self.table.selectionModel(), QItemSelectionModel.SelectionFlag
        places = [place for place, row in enumerate(self.rows.rows) if row.mark in set(marks)]
        chosen = QItemSelection()
        for place in places:
            chosen.select(self.rows.index(place, 0), self.rows.index(place, len(COLUMNS) - 1))
        model.select(chosen, flags.ClearAndSelect)
        if places:
            model.setCurrentIndex(self.rows.index(places[0], 0), flags.NoUpdate)
            self.table.scrollTo(self.rows.index(places[0], 0))
        elif otherwise is not None and otherwise >= 0:
            model.setCurrentIndex(self.rows.index(otherwise, 0), flags.NoUpdate)

    def _chosen_words(self, marks: tuple[str, ...]) -> str:
        if not marks:
            return tr("No panel chosen: choose in the list, on the elevation (Ctrl for more) or by a scan")
        states = {row.mark: row.state for row in self._all}
        if len(marks) == 1:
            state = states.get(marks[0])
            return tr("Chosen: {mark}, {state}", mark=marks[0], state=tr(state) if state else tr("not planned"))
        named = ", ".join(marks[:MOST_NAMED])
        return tr("{n} chosen: {marks}", n=len(marks), marks=named) + (" …" if len(marks) > MOST_NAMED else "")


def _table() -> QTableView:
    table = QTableView()
    table.setAccessibleName(tr("Panels in hanging order"))
    table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    table.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
    table.setTabKeyNavigation(False)
    table.setShowGrid(False)
    table.setWordWrap(False)
    table.setIconSize(SIGN_SIZE)
    table.verticalHeader().hide()
    InStep(table, lambda: table.setMinimumHeight(theme.px(96)))
    InStep(table, lambda: table.verticalHeader().setDefaultSectionSize(theme.px(ROW_PX)))
    table.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
    return table


def _size_columns(table: QTableView) -> None:
    header = table.horizontalHeader()
    header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft)
    header.setHighlightSections(False)
    InStep(table, lambda: _widen(header))
    header.setSectionResizeMode(len(COLUMNS) - 1, QHeaderView.ResizeMode.Stretch)


def _widen(header: QHeaderView) -> None:
    for column, wide in enumerate((86, 126, 150, 96)):
        header.resizeSection(column, theme.px(wide))


def action_button(action: QAction, words: str) -> QToolButton:
    """A button for an action with its key on it; reached with Tab."""
    button = QToolButton()
    name = action.text().replace("&", "").rstrip("…")
    keys = action.shortcut().toString()
    button.setText(f"{words}  {keys}" if keys else words)
    button.setAccessibleName(name)
    button.setToolTip(f"{name} ({keys})" if keys else name)
    button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    button.setStyleSheet(TIGHT)
    button.clicked.connect(action.trigger)
    return button
