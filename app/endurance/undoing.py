"""Long random work in a document: undoing all of it gives the identical room, doing it again the identical result."""

import gc
import random
import traceback
from collections import Counter
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QApplication

from app.document import Document
from app.endurance.edits import RANDOM_EDITS, RandomEdit
from app.endurance.outcome import Outcome
from app.endurance.rich_room import rich_room
from core import edits
from core.files import parse_room, room_text
from core.room import Room

SHOWN_FAULTS = 10
WARM_UP_ROUNDS = 0.4
"""Of all rounds: what is kept of the last kits and rates is filled by then, given some thousand edits."""
ROUNDS_TO_WARM_UP = 40
"""With fewer, memory is told and not judged."""
MOST_GROWTH = 1.15
MB = 1_000_000
RICH_EVERY = 8
"""The demo room with everything in it takes longest, so only one round in so many begins with it."""


class _Work:
    """One document after another, and what was found."""

    def __init__(self, seed: int) -> None:
        self.pick = random.Random(seed)
        self.faults: list[str] = []
        self.made: Counter[str] = Counter()
        self.refused = 0

    def round(self, number: int, count: int) -> None:
        """So many edits, all undone, all done again, all undone."""
        before = rich_room() if number % RICH_EVERY == 1 else _small_room()
        text = room_text(before)
        document = Document(before)
        document.refused.connect(self._count_refusal)
        for _ in range(count):
            self._edit(document)
        after = document.room
        for what, wanted in ((document.undo_stack.undo, before), (document.undo_stack.redo, after)):
            for _ in range(document.undo_stack.count()):
                what()
            if document.room != wanted:
                self.faults.append(f"round {number}: {_unlike(document.room, wanted)} came back otherwise")
        document.undo_stack.setIndex(0)
        if room_text(document.room) != text:
            self.faults.append(f"round {number}: the room's file came back otherwise")
        if parse_room(room_text(after).encode()) != after:
            self.faults.append(f"round {number}: the edited room does not read back equal")
        document.deleteLater()
        # No event loop runs here to do it.
        QCoreApplication.sendPostedEvents(document, QEvent.Type.DeferredDelete.value)

    def _edit(self, document: Document) -> None:
        name = self.pick.choices(list(RANDOM_EDITS), [weight for weight, _ in RANDOM_EDITS.values()])[0]
        _, edit = RANDOM_EDITS[name]
        before, state = document.room, self.pick.getstate()
        try:
            done = self._by_hand(document, edit, name)
        except Exception:
            self.pick.setstate(state)
            self.faults.append(f"{name}: {traceback.format_exc(limit=-2)}".replace("\n", " | "))
            return
        self.made[name] += 1
        if not done and document.room != before:
            self.faults.append(f"{name}: refused, but the room changed")

    def _by_hand(self, document: Document, edit: RandomEdit, name: str) -> bool:
        """As one step, at the end of a drag, or after a drag given up."""
        way = self.pick.random()
        if way < 0.1:
            document.preview_edit(lambda _: edit(document.setout, self.pick))
            document.cancel()
        return document.commit_edit(lambda _: edit(document.setout, self.pick), name)

    def _count_refusal(self, _text: str) -> None:
        self.refused += 1


def try_edits_and_undos(count: int, rounds: int, seed: int) -> Outcome:
    """So many edits in so many rounds; resident memory is compared from the end of the warm-up to the end."""
    application = QApplication.instance() or QApplication([])
    work, sizes = _Work(seed), list[int]()
    for number in range(rounds):
        work.round(number, count // rounds)
        application.processEvents()
        gc.collect()
        sizes.append(_resident_bytes())
    warm = sizes[int(len(sizes) * WARM_UP_ROUNDS)]
    if rounds >= ROUNDS_TO_WARM_UP and sizes[-1] > warm * MOST_GROWTH:
        work.faults.append(f"memory grew from {warm / MB:.0f} MB to {sizes[-1] / MB:.0f} MB after the warm-up")
    besides = (
        f"{work.refused} refused; each undone, done again, undone; resident {sizes[0] / MB:.0f} MB after round 1, "
        f"{warm / MB:.0f} MB warm, {sizes[-1] / MB:.0f} MB at the end, {max(sizes) / MB:.0f} MB at most"
    )
    return Outcome("random edits and undos", sum(work.made.values()), tuple(work.faults[:SHOWN_FAULTS]), besides)


def _small_room() -> Room:
    """A den with a kit of small panels, which are quick to set out."""
    room = edits.rectangle("Den", width_mm=1500, depth_mm=1100, clad_height_mm=600)
    return edits.set_kit(
        room, widths_pitches=(8, 16), legs_pitches=(8, 16), least_width_pitches=4, full_courses=14, half_courses=7
    )


def _unlike(room: Room, wanted: Room) -> str:
    return ", ".join(name for name in Room.model_fields if getattr(room, name) != getattr(wanted, name))


def _resident_bytes() -> int:
    """What the process holds in memory now (Linux, proc_pid_status(5)); 0 where the system does not tell."""
    status = Path("/proc/self/status")
    if not status.exists():
        return 0
    line = next(line for line in status.read_text().splitlines() if line.startswith("VmRSS:"))
    return int(line.split()[1]) * 1024
