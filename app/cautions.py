"""The dialogs of the help menu: the cautions, what the program is, every key, and how the board's figures come about."""

from collections.abc import Sequence
from html import escape

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QTextBrowser, QVBoxLayout, QWidget

from app import theme
from app.actions import keys_table
from core.cautions import CAUTIONS
from core.language import marked, tr

ABOUT = marked(
    "Coursewright plans rooms lined with screw-on panels built from small interlocking bricks: it divides the walls, "
    "places the mounting points, counts what must be built and prints the sheets to build it from."
)


def cautions_html() -> str:
    """The cautions as a list."""
    lines = "".join(f"<li style='margin-bottom:8px'>{escape(tr(line))}</li>" for line in CAUTIONS)
    return _heading(tr("Cautions")) + f"<ul>{lines}</ul>"


def about_html() -> str:
    """What the program is, with the cautions."""
    return f"<h2>Coursewright</h2><p>{escape(tr(ABOUT))}</p>{cautions_html()}"


def keys_html() -> str:
    """Every key in a table."""
    rows = "".join(
        f"<tr><td style='color:{theme.shown.quiet_ink}'>{escape(where)}&nbsp;&nbsp;</td><td><b>{escape(key)}</b>&nbsp;&nbsp;</td>"
        f"<td>{escape(what)}</td></tr>"
        for where, key, what in keys_table()
    )
    return _heading(tr("Keys")) + f"<table cellspacing='4'>{rows}</table>"


def figures_html(explanations: Sequence[tuple[str, str]]) -> str:
    """How each figure of the board comes about."""
    parts = (
        f"<h3>{escape(caption[:1].upper() + caption[1:])}</h3><p>{'<br>'.join(map(escape, text.splitlines()))}</p>"
        for caption, text in explanations
    )
    return _heading(tr("How the figures come about")) + "".join(parts)


def _heading(words: str) -> str:
    return f"<h2>{escape(words)}</h2>"


class PageDialog(QDialog):
    """A page of text to read and close."""

    def __init__(self, title: str, html: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.resize(640, 560)
        page = QTextBrowser()
        page.setHtml(html)
        page.setAccessibleName(title)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(page)
        layout.addWidget(buttons)
