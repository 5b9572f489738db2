"""The leaf: the desk on the left, the panels in the middle, the outlook and what went astray on the right."""

from collections.abc import Mapping

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QAction, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QTabWidget, QWidget

from app import theme
from app.document import Document
from app.tracking.desk import Desk
from app.tracking.loose import LoosePanels
from app.tracking.marking import Marking
from app.tracking.misfits import Misfits
from app.tracking.outlook import Outlook
from app.tracking.panel_list import PanelList
from app.tracking.picks import Picks
from app.tracking.stopwatch import Stopwatch
from core.language import tr
from core.setout.result import SetOut

APART_FROM_PX = 1200


class BuildLeaf(QScrollArea):
    """Follows the document while it is on show. A sketch shows nothing: the crew builds by what is worked out in full."""

    def __init__(self, document: Document, marking: Marking, picks: Picks, actions: Mapping[str, QAction]) -> None:
        super().__init__()
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self._document = document
        self._shown: SetOut | None = None
        self.desk = Desk(marking, picks)
        self.panels = PanelList(picks, actions)
        self.outlook = Outlook(lambda: marking.today)
        self.loose, self.misfits = LoosePanels(marking), Misfits(marking)
        self.stopwatch = Stopwatch(marking, picks)
        self.sides = QTabWidget()
        self.sides.setDocumentMode(True)
        self.sides.setAccessibleName(tr("Outlook, panels without a place, panels built wrong, stopwatch"))
        for page, title in (
            (self.outlook, tr("Outlook")),
            (self.loose, tr("No place")),
            (self.misfits, tr("Built wrong")),
            (self.stopwatch, tr("Stopwatch")),
        ):
            self.sides.addTab(page, title)
        self.setFocusProxy(self.desk.code)
        self._bench = bench = QWidget()
        bench.setObjectName("bench")
        layout = QHBoxLayout(bench)
        layout.setContentsMargins(8, 8, 8, 4)
        layout.setSpacing(8)
        layout.addWidget(self.desk)
        layout.addWidget(self.panels, 8)
        layout.addWidget(self.sides, 5)
        self._columns = layout
        self.setWidget(bench)
        bench.installEventFilter(self)
        document.changed.connect(self._follow)
        self._follow(document.setout)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fill the height there is. A scroll area by itself would make room for every text's ease instead, and scroll."""
        self._stand(apart=event.size().width() >= theme.px(APART_FROM_PX))
        self._fill()
        super().resizeEvent(event)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Buttons that need another line make the leaf higher."""
        if event.type() == QEvent.Type.LayoutRequest:
            self._fill()
        return super().eventFilter(watched, event)

    def _fill(self) -> None:
        self._bench.setFixedHeight(max(self.viewport().height(), self._bench.minimumSizeHint().height()))

    def _stand(self, *, apart: bool) -> None:
        """The panels in a column of their own, or on the first of the tabs where there is no room for one."""
        is_apart = self.sides.indexOf(self.panels) < 0
        if apart and not is_apart:
            self.sides.removeTab(self.sides.indexOf(self.panels))
            self._columns.insertWidget(1, self.panels, 8)
            self.panels.show()
        elif is_apart and not apart:
            self.sides.insertTab(0, self.panels, tr("Panels"))
            self.sides.setCurrentIndex(0)

    def showEvent(self, _event: QShowEvent) -> None:
        self._follow(self._document.setout)

    def _follow(self, setout: SetOut) -> None:
        if not self._document.is_full or self._document.gesture_base is not None or setout is self._shown:
            return
        if self._shown is not None and not self.isVisible():
            return
        self._shown = setout
        for part in (self.desk, self.panels, self.outlook, self.loose, self.misfits, self.stopwatch):
            part.show_setout(setout)
        counted = (self.loose, tr("No place"), self.loose.count), (self.misfits, tr("Built wrong"), self.misfits.count)
        for page, title, count in counted:
            self.sides.setTabText(self.sides.indexOf(page), f"{title} ({count})" if count else title)
