"""The program as a person starts it, and beside it an eye that tells where on the screen things are.

``python -m tests.endtoend.walkthrough.watched SOCKET [ROOM]``. The eye answers questions on the socket; it never does anything.
"""

import json
import socket
import sys

from PySide6.QtCore import QSocketNotifier
from PySide6.QtWidgets import QApplication

from app.cli import main
from tests.endtoend.walkthrough.eye import ANSWERS


class Listener:
    """Reads a question a line and writes an answer a line, in dialogs' event loops as well."""

    def __init__(self, path: str) -> None:
        self._link = socket.socket(socket.AF_UNIX)
        self._link.connect(path)
        self._notifier = QSocketNotifier(self._link.fileno(), QSocketNotifier.Type.Read)
        self._notifier.activated.connect(self._hear)
        self._begun = b""

    def _hear(self) -> None:
        heard = self._link.recv(65536)
        if not heard:
            self._notifier.setEnabled(False)
            return
        *lines, self._begun = (self._begun + heard).split(b"\n")
        for line in lines:
            name, *wanted = json.loads(line)
            try:
                answer = {"answer": ANSWERS[name](*wanted)}
            except Exception as error:  # the eye's own fault must not look like the program's
                answer = {"fault": f"{name}: {error!r}"}
            self._link.sendall(json.dumps(answer).encode() + b"\n")


if __name__ == "__main__":
    path, *arguments = sys.argv[1:]
    application = QApplication(["coursewright"])
    listener = Listener(path)
    sys.exit(main(arguments))
