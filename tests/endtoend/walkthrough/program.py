"""The program as a process of its own with nothing remembered, and the questions about where things are on its screen."""

import json
import os
import socket
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[3]
START_S, ANSWER_S, END_S = 30, 20, 30


class Program:
    """Started without a file under a home folder of its own; what it says on standard error is kept."""

    def __init__(self, display: str, home: Path, *arguments: str) -> None:
        self.home = home
        self._errors = home.parent / "stderr.txt"
        at = home.parent / "eye"
        at.unlink(missing_ok=True)
        listening = socket.socket(socket.AF_UNIX)
        listening.bind(str(at))
        listening.listen(1)
        listening.settimeout(START_S)
        with self._errors.open("ab") as errors:
            self._process = subprocess.Popen(
                [sys.executable, "-m", "tests.endtoend.walkthrough.watched", str(at), *arguments],
                cwd=ROOT,
                env=_environment(display, home),
                stdout=subprocess.DEVNULL,
                stderr=errors,
            )
        try:
            self._link, _ = listening.accept()
        finally:
            listening.close()
        self._link.settimeout(ANSWER_S)
        self._answers = self._link.makefile("r", encoding="utf-8")

    def ask(self, question: str, *wanted: object) -> Any:
        """What the eye says; it answers between two events, so only after those that came before."""
        self._link.sendall(json.dumps([question, *wanted]).encode() + b"\n")
        told = json.loads(self._answers.readline())
        if "fault" in told:
            raise RuntimeError(told["fault"])
        return told["answer"]

    @property
    def errors(self) -> str:
        return self._errors.read_text(encoding="utf-8")

    @property
    def is_running(self) -> bool:
        return self._process.poll() is None

    def end(self) -> int:
        """Wait for the program to end by itself; its exit status."""
        return self._process.wait(END_S)

    def kill(self) -> None:
        """End it however it stands, and hang up."""
        if self.is_running:
            self._process.kill()
        self._process.wait()
        self._answers.close()
        self._link.close()


def _environment(display: str, home: Path) -> dict[str, str]:
    home.mkdir(parents=True, exist_ok=True)
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("XDG_", "QT_", "PYTEST"))}
    own = {"HOME": str(home), "DISPLAY": display, "QT_QPA_PLATFORM": "xcb", "LANGUAGE": "en", "XDG_RUNTIME_DIR": str(home)}
    return kept | own


def wait_for(what: str, seen: Any, seconds: float = 30.0) -> Any:
    """Until something is seen, which is returned."""
    end = time.monotonic() + seconds
    while not (found := seen()):
        if time.monotonic() > end:
            raise AssertionError(f"never seen: {what}")
        time.sleep(0.03)
    return found
