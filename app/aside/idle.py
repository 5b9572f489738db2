"""A piece of work taken a step at a time whenever the window has nothing else to do."""

from collections.abc import Generator

from PySide6.QtCore import QObject, QTimer, Signal

Steps = Generator[None, None, object]
"""Work that pauses between steps short enough for a person not to notice, and returns what came of it."""


class Idle(QObject):
    """Runs one piece of work; there is no thread."""

    finished = Signal(object)
    """What came of it."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._work: Steps | None = None
        self._timer = QTimer(self)
        self._timer.setInterval(0)
        self._timer.timeout.connect(self._step)

    @property
    def is_running(self) -> bool:
        return self._work is not None

    def start(self, work: Steps) -> None:
        """Give up the work that runs, if any, and begin another."""
        self.stop()
        self._work = work
        self._timer.start()

    def stop(self) -> None:
        """Give up the work; nothing is told."""
        self._timer.stop()
        if self._work is not None:
            self._work.close()
            self._work = None

    def _step(self) -> None:
        if self._work is None:
            return
        try:
            next(self._work)
        except StopIteration as done:
            self.stop()
            self.finished.emit(done.value)
