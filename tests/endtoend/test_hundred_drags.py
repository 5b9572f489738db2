"""The promise of the window: however openings are dragged, it shows what the command line says of the saved room.

The window stands on a real display, driven by another process through the X server. A hundred drags from a fixed seed move and
resize openings on every wall and across the corners, with and without the keys that free or straighten a drag; some are given up.
"""

import json
import random
import re
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import QEvent, QPointF, QRectF, QSettings
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.document import Document
from app.main import dress
from app.tally import FIGURES
from app.window import Window
from core.export.setout_json import setout_json
from core.files import load_room
from core.room import Opening
from core.sheets.wording import KIND_NAMES
from tests.app.answers import Answers
from tests.conftest import ROOT
from tests.endtoend.mouse import Mouse

DRAGS = 100
DRAGS_BETWEEN_CHECKS = 25
GRIPS = {
    "body": (0.4, 0.45),
    "left": (0.0, 0.5),
    "right": (1.0, 0.5),
    "sill": (0.5, 0.0),
    "head": (0.5, 1.0),
    "left sill": (0.0, 0.0),
    "left head": (0.0, 1.0),
    "right sill": (1.0, 0.0),
    "right head": (1.0, 1.0),
}
"""Where to take hold of an opening, in parts of its width and height."""
HELD_KEYS = ((), (), (), ("alt",), ("ctrl",), ("shift",), ("shift", "alt"))


@pytest.fixture
def saved_room(demo_room_path: Path, tmp_path: Path) -> Path:
    path = tmp_path / "studio.room.json"
    path.write_bytes(demo_room_path.read_bytes())
    return path


@pytest.fixture
def window(saved_room: Path, tmp_path: Path, qtbot: QtBot, qapp: QApplication) -> Iterator[Window]:
    dress(qapp)
    QSettings().clear()
    window = Window(Document(load_room(saved_room), saved_room), tmp_path / "state", Answers())
    window.resize(1280, 800)
    with qtbot.waitExposed(window):
        window.show()
    yield window
    window.document.undo_stack.setClean()
    window.close()
    window.deleteLater()
    qapp.sendPostedEvents(window, QEvent.Type.DeferredDelete.value)


def by_command_line(path: Path) -> dict[str, Any]:
    """What a fresh process says of a room file."""
    command = [sys.executable, "-m", "app", "setout", str(path), "--json"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    told: dict[str, Any] = json.loads(done.stdout)
    return told


def board_shows(window: Window) -> dict[str, Any]:
    """The tally as a person reads it: the four numbers, the panels by kind, the minutes as they are explained."""
    parts = {part.accessibleName(): part for part in window.board.findChildren(QWidget)}
    explained = dict(window.board.explanations)["crew hours"]
    return {
        "numbers": {figure.caption: window.board.text_of(figure.caption)[0] for figure in FIGURES},
        "by kind": parts["Panels by kind"].accessibleDescription(),
        "minutes": {term: int(amount) for term, amount in re.findall(r"^(?:\+ )?([a-z -]+) (\d+)", explained, re.MULTILINE)},
    }


def board_should_show(told: dict[str, Any]) -> dict[str, Any]:
    """The tally as it follows from ``setout --json``."""
    tally, minutes = told["tally"], told["minutes"]
    mounts = [mount for panel in told["panels"] for face in panel["faces"] for mount in face["mounts"]]
    return {
        "numbers": {
            "panels": str(tally["panels"]),
            "crew hours": f"{minutes['total'] / 60:.1f}",
            "designs not in kit": str(tally["designs_not_in_kit"]),
            "points without timber": str(sum(mount["lands_on"] is None for mount in mounts)),
        },
        "by kind": ", ".join(f"{tally['by_kind'].get(kind, 0)} {word}" for kind, word in KIND_NAMES.items()),
        "minutes": {
            word: round(minutes[term])
            for word, term in (
                ("build", "build"),
                ("handling", "handling"),
                ("set-up", "setup"),
                ("slivers", "sliver"),
                ("weak", "weak"),
                ("points without timber", "blocking"),
            )
        },
    }


def assert_agrees_with_command_line(window: Window, mouse: Mouse, path: Path) -> None:
    mouse.type_key("ctrl+s")
    assert not window.document.is_dirty
    told = by_command_line(path)
    window.document.work_out()
    assert board_shows(window) == board_should_show(told)
    assert json.loads(setout_json(window.document.setout)) == told


def on_screen(window: Window, opening: Opening) -> QRectF:
    view = window.elevation
    left_foot = view.wall_to_screen(opening.wall, opening.left_mm, opening.sill_mm)
    right_head = view.wall_to_screen(opening.wall, opening.right_mm, opening.head_mm)
    return QRectF(left_foot, right_head).normalized()


class Hand:
    """Makes up drags and does them."""

    def __init__(self, window: Window, mouse: Mouse, seed: int) -> None:
        self._window, self._mouse, self._chance = window, mouse, random.Random(seed)
        self.met: Counter[str] = Counter()

    def drag_something(self) -> None:
        chance, view, document = self._chance, self._window.elevation, self._window.document
        opening = chance.choice(document.room.openings)
        goes_far = chance.random() < 0.35
        grip = "body" if goes_far else chance.choice([*GRIPS, "body", "body"])
        view.fit()
        if not goes_far:
            self._mouse.turn_wheel(on_screen(self._window, opening).center(), chance.randint(2, 4))
        start = self._hold(opening, grip)
        end = self._far_place(start) if goes_far else start + QPointF(chance.uniform(-120, 120), chance.uniform(-60, 60))
        keys, give_up = chance.choice(HELD_KEYS), chance.random() < 0.1
        before = document.room
        self._mouse.drag(self._path(start, end), keys=keys, give_up=give_up)
        if give_up:
            assert document.room is before
        self._note(opening, document.room.opening(opening.id), grip, keys, give_up=give_up)

    def _hold(self, opening: Opening, grip: str) -> QPointF:
        """The pixel to take an opening by, just inside it."""
        box = on_screen(self._window, opening).adjusted(2, 2, -2, -2)
        across, up = GRIPS[grip]
        return QPointF(box.left() + across * box.width(), box.bottom() - up * box.height())

    def _far_place(self, start: QPointF) -> QPointF:
        """Somewhere on any wall, more or less at the same height."""
        room, chance = self._window.document.room, self._chance
        wall = chance.randrange(room.wall_count)
        place = self._window.elevation.wall_to_screen(wall, chance.uniform(0, room.wall_length_mm(wall)), 0.0)
        return QPointF(place.x(), start.y() + chance.uniform(-25, 25))

    def _path(self, start: QPointF, end: QPointF) -> list[QPointF]:
        """From start to end by a detour, in a few steps, inside the view."""
        chance, edge = self._chance, QRectF(self._window.elevation.rect()).adjusted(1, 1, -2, -2)
        middle = (start + end) / 2 + QPointF(chance.uniform(-60, 60), chance.uniform(-30, 30))
        places = [start, (start + middle) / 2, middle, (middle + end) / 2, end]
        return [
            QPointF(min(max(place.x(), edge.left()), edge.right()), min(max(place.y(), edge.top()), edge.bottom()))
            for place in places
        ]

    def _note(self, old: Opening, new: Opening, grip: str, keys: tuple[str, ...], *, give_up: bool) -> None:
        if give_up:
            self.met["given up"] += 1
            return
        if new == old:
            self.met["refused or unmoved"] += 1
            return
        self.met["changed"] += 1
        self.met[f"on wall {old.wall}"] += 1
        self.met[f"to wall {new.wall}" if new.wall != old.wall else "same wall"] += 1
        self.met[f"{old.kind} {'moved' if (new.width_mm, new.height_mm) == (old.width_mm, old.height_mm) else 'resized'}"] += 1
        self.met["keys held" if keys else "no keys held"] += 1
        self.met[grip] += 1


@pytest.mark.xvfb
def test_the_tally_is_the_command_lines_after_a_hundred_drags_and_after_undoing_them(window: Window, saved_room: Path) -> None:
    document, mouse = window.document, Mouse(window.elevation)
    document.work_out()
    first_room, first_board = document.room, board_shows(window)
    hand = Hand(window, mouse, seed=4)
    for number in range(1, DRAGS + 1):
        hand.drag_something()
        if number % DRAGS_BETWEEN_CHECKS == 0:
            assert_agrees_with_command_line(window, mouse, saved_room)
    steps = document.undo_stack.count()
    assert_drags_were_of_every_sort(hand.met)
    assert steps == hand.met["changed"]
    mouse.type_key("ctrl+z", times=steps)
    assert document.room == first_room
    document.work_out()
    assert board_shows(window) == first_board
    assert_agrees_with_command_line(window, mouse, saved_room)


def assert_drags_were_of_every_sort(met: Counter[str]) -> None:
    """That the seed still makes the drags this test is about, should the window's layout or the demo room change."""
    wanted = {
        "given up",
        "keys held",
        "no keys held",
        "same wall",
        *GRIPS,
        *(f"{end} wall {i}" for i in range(4) for end in ("on", "to")),
    }
    assert wanted <= set(met), wanted - set(met)
    assert met["changed"] >= DRAGS // 2
