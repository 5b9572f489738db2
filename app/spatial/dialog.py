"""A window of its own for the room standing up, to lie beside the elevation while one works on it."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QDialog, QFileDialog, QHBoxLayout, QLabel, QPushButton, QToolButton, QVBoxLayout, QWidget

from app.document import Document
from app.spatial.keys import STEP_DEGREES
from app.spatial.picture_file import picture_bytes, with_picture_suffix
from app.spatial.view import RoomView
from core.files import replace_file
from core.language import marked, tr
from core.system_words import system_words

AskPath = Callable[[QWidget, Path], Path | None]
HINTS = (
    marked("Drag or arrows turn"),
    marked("Ctrl+arrows go from panel to panel"),
    marked("PgUp, PgDn walls"),
    marked("+ − 0 zoom"),
    marked("Enter shows it square-on"),
    marked("Esc closes"),
)


def ask_picture_path(parent: QWidget, proposal: Path) -> Path | None:
    """Where the picture should go, asked of the person."""
    filters = tr("PNG pictures (*.png);;SVG drawings (*.svg)")
    name, chosen = QFileDialog.getSaveFileName(parent, tr("Save the picture"), str(proposal), filters)
    if not name:
        return None
    path = Path(name)
    return path if path.suffix else path.with_suffix(".svg" if "svg" in chosen else ".png")


class RoomDialog(QDialog):
    """Shows the document's room until it is closed; what is picked here is selected in the document."""

    def __init__(
        self,
        document: Document,
        show_place: Callable[[str], object],
        parent: QWidget | None = None,
        ask: AskPath = ask_picture_path,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("The room standing up"))
        self.setWindowFlag(Qt.WindowType.WindowMaximizeButtonHint)
        self._document, self._ask = document, ask
        self.view = RoomView(document)
        self.words = QLabel()
        self.words.setObjectName("quiet")
        self.words.setWordWrap(True)
        self.notice = QLabel()
        self.notice.setObjectName("fault")
        hints = QLabel(" · ".join(tr(hint) for hint in HINTS))
        hints.setObjectName("quiet")
        hints.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        layout.addLayout(self._tools())
        layout.addWidget(self.view, 1)
        for label in (self.words, self.notice, hints):
            layout.addWidget(label)
        self.notice.hide()
        self.view.turned.connect(self._write)
        self.view.wanted.connect(show_place)
        self._write()
        self.resize(1100, 800)
        self.view.setFocus()

    def _tools(self) -> QHBoxLayout:
        view = self.view
        line = QHBoxLayout()
        line.setSpacing(6)
        for words, name, answer in (
            (tr("‹ Turn"), tr("Turn to the left"), lambda: view.turn(-STEP_DEGREES)),
            (tr("Turn ›"), tr("Turn to the right"), lambda: view.turn(STEP_DEGREES)),
            (tr("Higher"), tr("Look from higher up"), lambda: view.tilt(STEP_DEGREES)),
            (tr("Lower"), tr("Look from lower down"), lambda: view.tilt(-STEP_DEGREES)),
            ("−", tr("Zoom out"), view.zoom_out),
            ("+", tr("Zoom in"), view.zoom_in),
            (tr("Whole room"), tr("Show the whole room"), view.fit),
        ):
            line.addWidget(_tool(words, name, answer))
        line.addStretch(1)
        self.save_button = QPushButton(tr("&Save picture…"))
        self.save_button.setAccessibleName(tr("Save this picture as PNG or SVG"))
        self.save_button.setAutoDefault(False)
        self.save_button.clicked.connect(self.save_picture)
        line.addWidget(self.save_button)
        return line

    def _write(self) -> None:
        self.words.setText(self.view.words)

    def save_picture(self) -> None:
        """Ask where, and write what is shown there."""
        path = self._ask(self, self._proposal())
        if path is None:
            return
        path = with_picture_suffix(path)
        size = QSize(self.view.size())
        data = picture_bytes(lambda p: self.view.paint_picture(p, size), size, path.suffix.lower(), self._document.room.name)
        try:
            replace_file(path, data)
        except OSError as error:
            self._tell(tr("{path} cannot be written: {reason}", path=path, reason=system_words(error)))
        else:
            self._tell(tr("The picture is in {path}", path=path))

    def _tell(self, text: str) -> None:
        self.notice.setText(text)
        self.notice.show()

    def _proposal(self) -> Path:
        path = self._document.path
        stem = path.name.split(".")[0] if path else "room"
        return (path.parent if path else Path.home()) / f"{stem}-standing.png"


def _tool(words: str, name: str, answer: Callable[[], object]) -> QToolButton:
    button = QToolButton()
    button.setText(words)
    button.setAccessibleName(name)
    button.setToolTip(name)
    button.setAutoRepeat(True)
    button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
    button.clicked.connect(lambda: answer())
    return button
