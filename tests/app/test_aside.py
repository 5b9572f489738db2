"""What is worked out beside the window: an answer or a fault always comes, even where the other process ends by itself."""

import subprocess
import sys

import pytest
from PySide6.QtCore import QObject
from pytestqt.qtbot import QtBot

from app.aside.aside import BROKE_OFF, Aside
from tests.conftest import ROOT

PATIENCE_MS = 30_000


def test_a_child_that_ends_by_itself_is_told_and_another_takes_the_next_question(qtbot: QtBot) -> None:
    owner = QObject()
    aside = Aside(owner)
    with qtbot.waitSignal(aside.failed, timeout=PATIENCE_MS) as fault:
        aside.ask(sys.exit, 1)
    assert fault.args == [BROKE_OFF]
    assert not aside.is_busy
    with qtbot.waitSignal(aside.told, timeout=PATIENCE_MS) as answer:
        aside.ask(len, "four")
    assert answer.args == [4]
    aside.close()


@pytest.mark.parametrize("module", ["app.buy.counting", "app.crew.planning", "app.tracking.outcome", "app.bench.sheet"])
def test_what_is_asked_beside_the_window_does_without_qt(module: str) -> None:
    asked = f"import sys, {module}; print([name for name in sys.modules if name.startswith('PySide6')])"
    said = subprocess.run([sys.executable, "-c", asked], cwd=ROOT, capture_output=True, text=True, check=True)
    assert said.stdout.strip() == "[]"
