"""One thing at a time worked out in a process of its own, so that the window never waits and can always give it up."""

import os
import pickle
import sys
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QObject, QProcess, QProcessEnvironment, Signal

from app.aside.child import LENGTH_BYTES, framed, unframed
from core.errors import CoursewrightError
from core.language import marked, spoken, tr

ROOT = str(Path(__file__).resolve().parents[2])
"""Where the packages lie, so that the child finds the same ones."""
ENDING_MS = 2000
BROKE_OFF = marked("This could not be worked out: the process that does it broke off.")


class Aside(QObject):
    """Asks a child process; the answer comes as a signal. Asking something else, or ``stop``, gives up what runs."""

    told = Signal(object)
    """What was worked out."""
    failed = Signal(str)
    """Why nothing was."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._process: QProcess | None = None
        self._came = bytearray()
        self._is_busy = False
        self._question: tuple[Callable[..., object], tuple[object, ...]] | None = None
        application = QCoreApplication.instance()
        if application is not None:
            application.aboutToQuit.connect(self.close)

    @property
    def is_busy(self) -> bool:
        return self._is_busy

    def ask(self, function: Callable[..., object], *arguments: object) -> None:
        """Have ``function(*arguments)`` worked out. Both must pickle, and the function's module must do without Qt."""
        self.stop()
        self._question = function, arguments
        self._is_busy = True
        if self._process is None:
            self._process = self._started()
        self._process.write(framed((function, arguments)))

    def stop(self) -> None:
        """Give up what is being worked out; nothing is told. A child that has nothing to do stays for the next question."""
        if self._is_busy:
            self.close()

    def close(self) -> None:
        """Give up everything and end the child."""
        process, self._process = self._process, None
        self._is_busy = False
        self._came.clear()
        if process is None:
            return
        for signal, slot in self._wires(process):
            signal.disconnect(slot)
        process.kill()
        process.waitForFinished(ENDING_MS)
        process.deleteLater()

    def _started(self) -> QProcess:
        process = QProcess(self)
        environment = QProcessEnvironment.systemEnvironment()
        environment.insert("PYTHONPATH", os.pathsep.join(dict.fromkeys([ROOT, *(path for path in sys.path if path)])))
        process.setProcessEnvironment(environment)
        process.setProcessChannelMode(QProcess.ProcessChannelMode.ForwardedErrorChannel)
        for signal, slot in self._wires(process):
            signal.connect(slot)
        # -P: whatever lies in the folder the program was started from must not be taken for our own modules.
        process.start(sys.executable, ["-P", "-m", "app.aside.child", spoken()])
        return process

    def _wires(self, process: QProcess):  # type: ignore[no-untyped-def]  # signals bound to an object have no public type
        yield process.readyReadStandardOutput, self._read
        yield process.errorOccurred, self._on_error
        # A child that ends by itself, as at a fault of ours, is no error of the process.
        yield process.finished, self._on_end

    def _read(self) -> None:
        if self._process is None:
            return
        self._came += self._process.readAllStandardOutput().data()
        reply = unframed(self._came)
        if reply is None:
            return
        del self._came[: LENGTH_BYTES + len(reply)]
        self._is_busy = False
        is_told, answer = pickle.loads(reply)
        (self.told if is_told else self.failed).emit(answer)

    def _on_end(self) -> None:
        self._on_error(QProcess.ProcessError.Crashed)

    def _on_error(self, error: QProcess.ProcessError) -> None:
        was_busy, question = self._is_busy, self._question
        self.close()
        if not was_busy or question is None:
            return
        if error == QProcess.ProcessError.FailedToStart:
            self._do_here(*question)
        else:
            self.failed.emit(tr(BROKE_OFF))

    def _do_here(self, function: Callable[..., object], arguments: tuple[object, ...]) -> None:
        """Where no second process may run, the window has to wait after all."""
        try:
            answer = function(*arguments)
        except CoursewrightError as error:
            self.failed.emit(str(error))
            return
        self.told.emit(answer)
