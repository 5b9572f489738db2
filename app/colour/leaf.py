"""The leaf: the colours on the left, where they are laid beside them, a picture, and the rules that stand."""

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QWidget

from app.aside.idle import Idle
from app.aside.settled import Settled
from app.colour.colours import Colours
from app.colour.finishing import Finishes, finishing
from app.colour.laying_card import LayingCard
from app.colour.palette_card import PaletteCard
from app.colour.picture_card import PictureCard
from app.colour.rules_card import RulesCard
from app.document import Document
from core.setout.result import SetOut


class ColourLeaf(QScrollArea):
    """Follows the document; counts by colour are worked out while it is on show and nothing else happens."""

    def __init__(self, document: Document, colours: Colours) -> None:
        super().__init__()
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self._document, self._colours = document, colours
        self.palette_card = PaletteCard(document)
        self.laying, self.picture = LayingCard(document, colours), PictureCard(document, colours)
        self.rules = RulesCard(document, colours)
        self._idle = Idle(self)
        self._idle.finished.connect(self._count)
        self._settled = Settled(document, self)
        self._settled.reached.connect(self._begin)
        self._settled.lost.connect(self._stop)
        self._arrange()
        self._listen()

    def _arrange(self) -> None:
        bench = QWidget()
        bench.setObjectName("bench")
        layout = QHBoxLayout(bench)
        layout.setContentsMargins(8, 8, 8, 4)
        layout.setSpacing(8)
        for part, share in ((self.palette_card, 5), (self.laying, 4), (self.picture, 6), (self.rules, 7)):
            layout.addWidget(part, share)
        self._bench = bench
        self.setWidget(bench)
        self.setFocusProxy(self.palette_card.colours)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fill the height there is; a scroll area by itself would make room for every list's ease instead, and scroll."""
        self._bench.setFixedHeight(max(self.viewport().height(), self._bench.minimumSizeHint().height()))
        super().resizeEvent(event)

    def _listen(self) -> None:
        self.palette_card.picked.connect(self.laying.hold)
        self.rules.picked.connect(self.picture.take_rule)
        for signal in (self._document.changed, self._document.selection_changed, self._document.wall_changed):
            signal.connect(self._follow)
        if (colour := self.palette_card.colour) is not None:
            self.laying.hold(colour)
        self._follow()

    def _follow(self, _what: object = None) -> None:
        """During a gesture the walls themselves show what becomes of it."""
        if self._document.gesture_base is None:
            for card in (self.palette_card, self.laying, self.picture, self.rules):
                card.refresh()

    def _stop(self) -> None:
        self._idle.stop()
        self.rules.say_working()

    def _begin(self, setout: SetOut) -> None:
        self._idle.start(finishing(setout))

    def _count(self, found: Finishes) -> None:
        self.rules.show_outcome(found)
        self._colours.tint.show_finishes(found.wishes, found.by_mark)
