"""What a person sets about timber: the size, the lengths boards are bought in, the saw cut, which offcuts are kept."""

from collections.abc import Callable

from PySide6.QtWidgets import QFrame, QLabel, QVBoxLayout

from app import theme
from app.document import Document, Edit
from app.framing.list_field import ListField
from app.framing.lists import read_lengths, write_lengths
from app.inspector.fields import ChoiceField, TextField
from app.tables.reading import committed
from app.theme.look import InStep
from core.edits import set_frame_height
from core.edits.timberwork import set_kerf, set_least_offcut, set_stock, set_timber_size
from core.frame.cutlist import stock_of
from core.language import marked, tr
from core.room import Room
from core.timberwork import TimberSize
from core.units import format_length, parse_length_mm

CARD_PX = 286
STOCK_HINT = marked("Lengths boards are bought in: 2400; 3000; 3600. Empty for the usual ones. Ctrl+Enter takes them.")


class TimberCard(QFrame):
    """Fields that follow the room."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.setObjectName("card")
        InStep(self, lambda: self.setFixedWidth(theme.px(CARD_PX)))
        self._document = document
        heading = QLabel(tr("Timber"))
        heading.setObjectName("heading")
        sizes = document.room.timberwork.sizes
        self.size_field = ChoiceField(
            tr("Size"), lambda: document.room.timberwork.frame_size, self._set_size, _choices(document, sizes)
        )
        self._make_lengths()
        self.stock = ListField(tr("Stock lengths"), self._read_stock, self._set_stock, lines=2, hint=tr(STOCK_HINT))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 8, 12, 8)
        layout.setSpacing(4)
        layout.addWidget(heading)
        self.fields: tuple[ChoiceField | TextField | ListField, ...] = (
            self.size_field,
            self.head,
            self.stock,
            self.kerf,
            self.least,
        )
        for field in self.fields:
            layout.addWidget(field)
        layout.addStretch(1)
        document.changed.connect(self._follow)
        self.refresh(force=True)

    def _make_lengths(self) -> None:
        made = self._length_field
        self.head = made(tr("Frames up to"), lambda room: room.frame_head_mm, set_frame_height, tr("Set frames up to"))
        self.head.setToolTip(tr("Upper edge of the top plates above the floor: at least as high as the lining"))
        self.kerf = made(tr("Saw cut"), lambda room: room.timberwork.kerf_mm, set_kerf, tr("Set saw cut"))
        self.least = made(tr("Keep from"), lambda room: room.timberwork.least_offcut_mm, set_least_offcut, tr("Set keep from"))
        self.least.setToolTip(tr("Offcuts of this length or more are counted as worth keeping"))

    def _follow(self, _setout: object) -> None:
        self.refresh()

    def refresh(self, *, force: bool = False) -> None:
        """Show what the room says; what is being typed stays unless forced."""
        self.size_field.offer(_choices(self._document, self._document.room.timberwork.sizes))
        for field in self.fields:
            field.refresh(force=force)

    def _length_field(
        self, caption: str, read: Callable[[Room], float], edit: Callable[[Room, float], Room], text: str
    ) -> TextField:
        """``text`` names the edit for undo."""

        def said() -> str:
            return format_length(read(self._document.room), self._document.room.display_units, 2)

        def commit(typed: str) -> str:
            return self._committed(lambda room: edit(room, parse_length_mm(typed)), text)

        return TextField(caption, said, commit)

    def _read_stock(self) -> str:
        room = self._document.room
        return write_lengths(stock_of(room), room.display_units)

    def _set_stock(self, typed: str) -> str:
        known, units = stock_of(self._document.room), self._document.room.display_units
        return self._committed(lambda room: set_stock(room, read_lengths(typed, known, units)), tr("Set stock lengths"))

    def _set_size(self, name: str) -> str:
        return self._committed(lambda room: set_timber_size(room, name), tr("Set timber size"))

    def _committed(self, edit: Edit, text: str) -> str:
        return committed(self._document, edit, text)


def _choices(document: Document, sizes: tuple[TimberSize, ...]) -> list[tuple[str, str]]:
    units = document.room.display_units
    return [
        (
            size.name,
            f"{size.name}: {format_length(size.thickness_mm, units, with_unit=False)} × {format_length(size.depth_mm, units)}",
        )
        for size in sizes
    ]
