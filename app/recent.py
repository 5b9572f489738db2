"""Room files opened or saved last, kept in the settings, and the menu that opens them again."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QSettings
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from core.language import tr
from core.recovery import real_path

RECENT = "files/recent"
MOST = 8


def recent_paths() -> tuple[Path, ...]:
    """The files, the latest first. Settings that somebody has damaged count as none."""
    said = QSettings().value(RECENT)
    # A list of one comes back as its only string.
    listed = [said] if isinstance(said, str) else said if isinstance(said, list) else []
    return tuple(Path(one) for one in listed if isinstance(one, str) and one)[:MOST]


def remember(path: Path) -> None:
    """Put a file at the head of the list, at once, so that no crash can lose it."""
    whole = path.absolute()
    _keep((whole, *(other for other in recent_paths() if real_path(other) != real_path(whole))))


def forget(*gone: Path) -> None:
    """Take files off the list."""
    _keep(tuple(path for path in recent_paths() if path not in gone))


def _keep(paths: tuple[Path, ...]) -> None:
    settings = QSettings()
    settings.setValue(RECENT, [str(path) for path in paths[:MOST]])
    settings.sync()


class RecentMenu(QMenu):
    """Lists the files whenever it opens. One that is missing says so, and is offered to be taken off the list."""

    def __init__(self, open_path: Callable[[Path], object], may_remove: Callable[[Path], bool], parent: QWidget) -> None:
        super().__init__(tr("Open &recent"), parent)
        self._open, self._may_remove = open_path, may_remove
        self.setToolTipsVisible(True)
        self.aboutToShow.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """List what there is now."""
        self.clear()
        paths = recent_paths()
        for number, path in enumerate(paths, start=1):
            self.addAction(self._entry(number, path))
        if not paths:
            self.addAction(tr("nothing opened yet")).setEnabled(False)
            return
        self.addSeparator()
        missing = [path for path in paths if not path.exists()]
        if missing:
            self.addAction(tr("Take the &missing off the list")).triggered.connect(lambda: forget(*missing))
        self.addAction(tr("&Empty the list")).triggered.connect(lambda: forget(*paths))

    def _entry(self, number: int, path: Path) -> QAction:
        place = tr("{file}, in {folder}", file=path.name, folder=path.parent.name or path.parent)
        words = (place if path.exists() else tr("missing: {file}", file=place)).replace("&", "&&")
        entry = QAction(f"&{number}  {words}", self)
        entry.setToolTip(str(path))
        entry.triggered.connect(lambda: self._choose(path))
        return entry

    def _choose(self, path: Path) -> None:
        if path.exists():
            self._open(path)
        elif self._may_remove(path):
            forget(path)
