"""The list of findings about the room; choosing one takes the person to the place."""

from dataclasses import replace
from functools import lru_cache

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QRect, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter
from PySide6.QtWidgets import QFrame, QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem, QVBoxLayout, QWidget

from app import theme
from app.aside.aside import Aside
from app.aside.settled import Settled
from app.document import Document
from app.steady_label import SteadyLabel
from app.theme.look import look
from core.frame import checks_to_heed
from core.language import tr, trn
from core.places import place_heading
from core.room import Units
from core.setout.result import Check, Level, SetOut
from core.units import in_units

ORDER: tuple[Level, ...] = ("error", "warning", "note")

KEPT_HEIGHTS = 2000
KEPT_CHECKS = 2000
USUAL_MOST = (10, 10)
"""Warnings and notes up to so many come and go in a drag without moving anything else."""

AnyIndex = QModelIndex | QPersistentModelIndex
CHECK_ROLE = Qt.ItemDataRole.UserRole


class CheckList(QAbstractListModel):
    """The checks of a set-out, gravest first."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._checks: tuple[Check, ...] = ()

    def show_checks(self, checks: tuple[Check, ...]) -> bool:
        """Take up other checks; False, and nothing moves, where they are the same."""
        ordered = tuple(sorted(checks, key=lambda check: ORDER.index(check.level)))
        if ordered == self._checks:
            return False
        self.beginResetModel()
        self._checks = ordered
        self.endResetModel()
        return True

    def rowCount(self, parent: AnyIndex = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self._checks)

    def data(self, index: AnyIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        check = self._checks[index.row()]
        if role == CHECK_ROLE:
            return check
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return f"{tr(theme.LEVEL_SIGNS[check.level])} {place_heading(check.where)}: {check.text}"
        return check.text if role == Qt.ItemDataRole.ToolTipRole else None


class _CheckDelegate(QStyledItemDelegate):
    """A sign, the place, and the whole finding: some of them are cautions, which must not be cut short."""

    LINE_PX, SIGN_PX, GAP_PX = 18, 52, 8
    LEFT_PX, RIGHT_PX = 12, 6

    def __init__(self, view: QListView) -> None:
        super().__init__(view)
        self._view = view
        self._heights: dict[tuple[str, int, str], int] = {}

    def sizeHint(self, option: QStyleOptionViewItem, index: AnyIndex) -> QSize:
        across = self._view.viewport().width()
        high = self._text_height(index.data(CHECK_ROLE).text, across - self.LEFT_PX - self.RIGHT_PX, option)
        return QSize(across, theme.px(self.LINE_PX) + high + self.GAP_PX)

    def _text_height(self, text: str, wide: int, option: QStyleOptionViewItem) -> int:
        """Height of a wrapped text, kept: the list asks for every one whenever one of them changes."""
        font = _font(option, theme.px(theme.HEADING_PX), bold=False)
        key = (text, wide, font.key())
        if key not in self._heights:
            if len(self._heights) >= KEPT_HEIGHTS:
                self._heights.clear()
            box = QFontMetrics(font).boundingRect(QRect(0, 0, wide, 1000), Qt.TextFlag.TextWordWrap, text)
            self._heights[key] = box.height()
        return self._heights[key]

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: AnyIndex) -> None:
        check = index.data(CHECK_ROLE)
        painter.save()
        state, box = option.state, QRect(option.rect)
        if state & (QStyle.StateFlag.State_Selected | QStyle.StateFlag.State_MouseOver):
            painter.fillRect(box, QColor(theme.shown.accent_wash))
        ink = QColor(theme.shown.level_inks[check.level])
        painter.fillRect(QRect(box.left(), box.top() + 3, 4, box.height() - 6), ink)
        painter.setPen(ink)
        painter.setFont(_font(option, theme.px(theme.SMALL_PX), bold=True))
        line = QRect(box.left() + self.LEFT_PX, box.top() + 4, box.width() - self.LEFT_PX - self.RIGHT_PX, theme.px(self.LINE_PX))
        painter.drawText(line, Qt.AlignmentFlag.AlignVCenter, tr(theme.LEVEL_SIGNS[check.level]))
        painter.setPen(QColor(theme.shown.ink))
        painter.setFont(_font(option, theme.px(theme.TEXT_PX), bold=True))
        place = line.adjusted(theme.px(self.SIGN_PX), 0, 0, 0)
        painter.drawText(place, Qt.AlignmentFlag.AlignVCenter, place_heading(check.where))
        painter.setFont(_font(option, theme.px(theme.HEADING_PX), bold=False))
        body = QRect(line.left(), line.bottom() + 1, line.width(), box.bottom() - line.bottom())
        painter.drawText(body, Qt.TextFlag.TextWordWrap, check.text)
        painter.restore()


def _font(option: QStyleOptionViewItem, pixels: int, *, bold: bool) -> QFont:
    font = QFont(option.font)
    font.setPixelSize(pixels)
    font.setBold(bold)
    return font


class ChecksPanel(QFrame):
    """The checks with their count; emits where to go when one is chosen by click or Enter.

    What is wrong with the frame takes a moment, so it is worked out aside and joins the list once nothing changes any more.
    """

    go_to = Signal(str)

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self._document = document
        self._of_frame: tuple[Check, ...] = ()
        self._heading = SteadyLabel([counts_text(0, *USUAL_MOST)])
        self._heading.setObjectName("heading")
        self.view = QListView()
        self.view.setAccessibleName(tr("Checks"))
        self.view.setResizeMode(QListView.ResizeMode.Adjust)
        # With it a list lays itself out again when only its width changes; without, findings lay over one another.
        self.view.setWordWrap(True)
        self.view.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self.view.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.view.setMouseTracking(True)
        self.view.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.model = CheckList(self)
        self.view.setModel(self.model)
        self.view.setItemDelegate(_CheckDelegate(self.view))
        self.view.clicked.connect(self._choose)
        self.view.activated.connect(self._choose)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 8, 6, 6)
        layout.addWidget(self._heading)
        layout.addWidget(self.view)
        document.changed.connect(self.show_setout)
        look.changed.connect(self.view.scheduleDelayedItemsLayout)
        self._look_at_frame(Settled(document, self))
        self.show_setout(document.setout)

    def _look_at_frame(self, settled: Settled) -> None:
        self._aside = Aside(self)
        self._aside.told.connect(self._show_frame)
        self._aside.failed.connect(lambda why: self._show_frame((Check("warning", "frame-unknown", "room", why),)))
        settled.reached.connect(lambda setout: self._aside.ask(checks_to_heed, setout))
        settled.lost.connect(self._forget_frame)

    def _show_frame(self, checks: tuple[Check, ...]) -> None:
        # Nobody asks before the room changes again, and a child that waits takes memory.
        self._aside.close()
        self._of_frame = checks
        self.show_setout(self._document.setout)

    def _forget_frame(self) -> None:
        self._aside.close()
        if self._of_frame:
            self._show_frame(())

    def show_setout(self, setout: SetOut) -> None:
        """List the set-out's checks, and the frame's where they are known."""
        checks = (*setout.checks, *self._of_frame)
        if self.model.show_checks(tuple(_in_units(check, setout.room.display_units) for check in checks)):
            # Left to itself the list would be laid out when all else is painted already, and painted for itself.
            self.view.doItemsLayout()
        self._heading.setText(heading_text(checks))

    def _choose(self, index: QModelIndex) -> None:
        self.go_to.emit(index.data(CHECK_ROLE).where)


@lru_cache(maxsize=KEPT_CHECKS)
def _in_units(check: Check, units: Units) -> Check:
    """A check as the window letters it; kept, for a drag raises the same ones at every step."""
    return replace(check, text=in_units(check.text, units))


def heading_text(checks: tuple[Check, ...]) -> str:
    """``Checks: 1 error, 3 warnings``, or that there are none."""
    return counts_text(*(sum(check.level == level for check in checks) for level in ORDER))


def counts_text(errors: int, warnings: int, notes: int) -> str:
    """The heading with so many checks of each level."""
    words = (
        trn("{n} error", "{n} errors", errors) if errors else "",
        trn("{n} warning", "{n} warnings", warnings) if warnings else "",
        trn("{n} note", "{n} notes", notes) if notes else "",
    )
    found = ", ".join(filter(None, words))
    return tr("Checks: {counts}", counts=found) if found else tr("Checks: nothing found")
