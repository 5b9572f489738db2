"""Where the print pack goes, and whether its panels are laid from the stock on hand."""

from pathlib import Path

from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QDialogButtonBox,
    QFileDialog,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from core.language import marked, tr

FROM_STOCK = marked("Lay the panels still to build from the &stock on hand")
FROM_STOCK_HINT = marked(
    "Sheets, labels and kits then go by bonds that the boxes allow, and say which panels each is for. Takes some seconds more."
)
NOTHING_COUNTED = marked("No part is on record as on hand: note what came, or count the boxes, on the leaf Buy.")
WIDE_PX = 520


class PackDialog(QDialog):
    """A folder and one choice."""

    def __init__(self, folder: Path, *, can_lay: bool, lays: bool, parent: QWidget | None = None) -> None:
        """``can_lay`` where there is a stock to lay from; ``lays`` is what is proposed."""
        super().__init__(parent)
        self.setWindowTitle(tr("Make the print pack"))
        self.setMinimumWidth(WIDE_PX)
        self.line = QLineEdit(str(folder))
        self.line.setAccessibleName(tr("Folder for the print pack"))
        self.browse = QPushButton(tr("&Browse…"))
        self.browse.setAutoDefault(False)
        self.browse.clicked.connect(self._browse)
        self.from_stock = QCheckBox(tr(FROM_STOCK))
        self.from_stock.setEnabled(can_lay)
        self.from_stock.setChecked(can_lay and lays)
        hint = QLabel(tr(FROM_STOCK_HINT) if can_lay else tr(NOTHING_COUNTED))
        hint.setObjectName("quiet")
        hint.setWordWrap(True)
        self.buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        self.make = self.buttons.addButton(tr("&Make the pack"), QDialogButtonBox.ButtonRole.AcceptRole)
        self.buttons.accepted.connect(self.accept)
        self.buttons.rejected.connect(self.reject)
        self.line.textChanged.connect(lambda text: self.make.setEnabled(bool(text.strip())))
        row = QHBoxLayout()
        row.addWidget(self.line, 1)
        row.addWidget(self.browse)
        form = QFormLayout()
        form.addRow(tr("&Folder"), row)
        layout = QVBoxLayout(self)
        layout.addLayout(form)
        layout.addWidget(self.from_stock)
        layout.addWidget(hint)
        layout.addWidget(self.buttons)
        label = form.labelForField(row)
        if isinstance(label, QLabel):
            label.setBuddy(self.line)

    @property
    def folder(self) -> Path:
        return Path(self.line.text().strip()).expanduser()

    def _browse(self) -> None:
        name = QFileDialog.getExistingDirectory(self, tr("Folder for the print pack"), self.line.text())
        if name:
            self.line.setText(name)
