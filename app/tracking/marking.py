"""Marking panels: every fact the crew notes is one edit of the document, with the day and who it was."""

import re
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from PySide6.QtCore import QObject, QSettings, Signal

from app.document import Document
from core.bond.bonds import bond_for
from core.bond.palette import StockError
from core.crew.standing import Place, standing
from core.edits.crew import drop_timing, note_timing
from core.edits.progress import Way, drop_wrong, mark_orphan, mark_panels, move_panel, record_wrong, step_panels, use_wrong
from core.edits.revise import build
from core.errors import RoomError
from core.language import tr, trn
from core.progress import PanelState, WrongPanel
from core.purchase import PartCount
from core.room import Room
from core.setout.result import SetOut
from core.takeoff import Count, DesignParts
from core.workforce import Work

WHO = "build/who"
_MARK = re.compile(r"\s*([A-Za-z]+)\W*(\d{1,6})\W+(\d{1,6})\s*")

OwnParts = Callable[[Iterable[str]], Mapping[str, Count]]
ScanMeans = Literal["forward", "built", "checked", "hung", "show"]
"""What a scanned panel does: step forward, come into a state, or only be shown."""


@dataclass(frozen=True, slots=True)
class Said:
    """What came of a mark, in words; ``is_refusal`` where nothing was noted."""

    text: str
    is_refusal: bool = False


def find_mark(setout: SetOut, typed: str) -> str | None:
    """The mark that a scanner or a person typed: small letters, other separators and missing noughts are understood."""
    known = {panel.mark for panel in setout.panels}
    if typed.strip() in known:
        return typed.strip()
    found = _MARK.fullmatch(typed)
    if found is None:
        return None
    wanted = found[1].upper(), int(found[2]), int(found[3])
    return next((mark for mark in known if _read(mark) == wanted), None)


def _read(mark: str) -> tuple[str, int, int] | None:
    found = _MARK.fullmatch(mark)
    return (found[1].upper(), int(found[2]), int(found[3])) if found else None


def parts_for(setout: SetOut, designs: Iterable[str]) -> DesignParts:
    """The parts of designs that can be bonded from what is stocked; others are left out."""
    planned = {design.name for design in setout.designs}
    found = {}
    for design in dict.fromkeys(designs):
        if design in planned:
            try:
                found[design] = bond_for(setout, design).parts
            except StockError:
                continue
    return found


class Marking(QObject):
    """The one way in which the window notes what the crew has done."""

    said = Signal(object)
    """A Said after every mark and every refusal."""

    def __init__(
        self,
        document: Document,
        parent: QObject,
        today: Callable[[], date] = date.today,
        own_parts: OwnParts = lambda _marks: {},
    ) -> None:
        """``own_parts`` says what panels are laid of that are not laid as their design."""
        super().__init__(parent)
        self._own_parts = own_parts
        self._document, self._today = document, today
        self._who = str(QSettings().value(WHO, ""))

    @property
    def who(self) -> str:
        """Whose name goes with every mark; kept from one to the next, and from one day to the next."""
        return self._who

    @who.setter
    def who(self, name: str) -> None:
        self._who = name.strip()
        QSettings().setValue(WHO, self._who)

    @property
    def today(self) -> str:
        return self._today().isoformat()

    def step(self, marks: Sequence[str], way: Way) -> bool:
        """Bring panels one state further or back."""

        def edit(setout: SetOut) -> Room:
            own = self._own_parts(marks)
            return step_panels(setout, marks, way, self._parts(setout, marks), own=own, on=self.today, by=self.who)

        count = _count(marks)
        text = tr("Step forward: {panels}", panels=count) if way == "forward" else tr("Step back: {panels}", panels=count)
        return self._note(edit, text, marks)

    def put(self, marks: Sequence[str], state: PanelState) -> bool:
        """Bring panels into a state."""

        def edit(setout: SetOut) -> Room:
            if not marks:
                raise RoomError(tr("choose at least one panel"))
            own = self._own_parts(marks)
            return mark_panels(setout, marks, state, self._parts(setout, marks), own=own, on=self.today, by=self.who)

        return self._note(edit, tr("Mark {state}: {panels}", state=tr(state), panels=_count(marks)), marks)

    def scan(self, typed: str, means: ScanMeans) -> str | None:
        """Do what a scan means to the panel of the typed mark; returns the mark where there is such a panel."""
        mark = find_mark(self._document.work_out(), typed)
        if mark is None:
            self.said.emit(Said(tr("{typed}: no panel has this mark", typed=typed.strip()[:40]), is_refusal=True))
        elif means == "forward":
            self.step((mark,), "forward")
        elif means == "show":
            state = standing(self._document.setout).by_mark[mark]
            self.said.emit(Said(tr("{mark} is {state}", mark=mark, state=tr(state))))
        else:
            self.put((mark,), means)
        return mark

    def move_orphan(self, place: Place, mark: str) -> bool:
        """Give a panel without a place another one of its design."""
        text = tr("Move a panel to {mark}", mark=mark)
        return self._note(lambda setout: move_panel(setout, place, mark, on=self.today), text, (mark,))

    def put_orphan(self, place: Place, state: PanelState) -> bool:
        """Take a panel without a place down (``taken out``) or apart (``to build``)."""
        words = tr("A {design} panel is {state}", design=place[3], state=tr(state))
        if state == "to build":
            words = tr("A {design} panel is taken apart", design=place[3])
        return self._note(lambda setout: mark_orphan(setout, place, state, on=self.today, by=self.who), words)

    def note_wrong(self, meant_for: str, widths: Sequence[int], courses: int, *, is_outside: bool, note: str) -> bool:
        """Note a panel that came out otherwise than its sheet; it holds the parts its kit was laid out with."""

        def edit(setout: SetOut) -> Room:
            parts = self._wrong_parts(setout, meant_for)
            wrong = build(
                WrongPanel,
                meant_for=meant_for,
                widths_pitches=tuple(widths),
                courses=courses,
                is_outside_corner=is_outside,
                parts=parts,
                on=self.today,
                note=note,
            )
            return record_wrong(setout.room, wrong)

        return self._note(edit, tr("A {design} panel came out wrong", design=meant_for))

    def use_wrong(self, number: int, mark: str) -> bool:
        """Use a wrong panel where it fits."""

        def edit(setout: SetOut) -> Room:
            return use_wrong(setout, number, mark, self._parts(setout, (mark,)), on=self.today)

        return self._note(edit, tr("A wrong panel serves as {mark}", mark=mark), (mark,))

    def drop_wrong(self, number: int) -> bool:
        """Take a wrong panel apart: its parts go back into the boxes."""
        return self._note(lambda setout: drop_wrong(setout.room, number), tr("A wrong panel is taken apart"))

    def time(self, design: str, minutes: float, *, work: Work, panels: int, before: int) -> bool:
        """Note a stopwatch reading; the rates follow."""

        def edit(setout: SetOut) -> Room:
            return note_timing(setout, design, minutes, work=work, panels=panels, panels_before=before, on=self.today)

        text = tr("Reading noted: {minutes:g} min for {panels} {design}", minutes=minutes, panels=panels, design=design)
        return self._note(edit, text)

    def drop_timing(self, number: int) -> bool:
        """Leave a reading out again."""
        return self._note(lambda setout: drop_timing(setout.room, number), tr("Reading left out"))

    def _note(self, edit: Callable[[SetOut], Room], text: str, marks: Sequence[str] = ()) -> bool:
        """Make one edit from the set-out worked out in full. Refused while something is being dragged."""
        if self._document.gesture_base is not None:
            return False
        setout = self._document.work_out()

        def known(_room: Room) -> Room:
            room = edit(setout)
            self._document.know(room)
            return room

        if not self._document.commit_edit(known, text):
            self.said.emit(Said(self._document.refusal, is_refusal=True))
            return False
        self.said.emit(Said(self._words(setout, marks) or text))
        return True

    def _words(self, before: SetOut, marks: Sequence[str]) -> str:
        """What became of the marks: ``A-1-01: built, now checked``."""
        if not marks:
            return ""
        was, now = standing(before).by_mark, standing(self._document.setout).by_mark
        changed = [mark for mark in marks if mark in now and now[mark] != was[mark]]
        if not changed:
            return tr("{panels}: {state} already, nothing changed", panels=_count(marks), state=tr(was[marks[0]]))
        if len(changed) == 1:
            mark = changed[0]
            return tr("{mark}: {before}, now {after}", mark=mark, before=tr(was[mark]), after=tr(now[mark]))
        counts = Counter(now[mark] for mark in changed)
        states = ", ".join(tr("{n} now {state}", n=n, state=tr(state)) for state, n in counts.items())
        left = len(marks) - len(changed)
        if left:
            states = tr("{states}; {left} stay as they were", states=states, left=left)
        return trn("{n} panel: {states}", "{n} panels: {states}", len(changed), states=states)

    def _parts(self, setout: SetOut, marks: Iterable[str]) -> DesignParts:
        """Parts of the designs among those panels whose recipes are not noted yet."""
        noted = {recipe.design for recipe in setout.room.progress.recipes}
        wanted = set(marks)
        return parts_for(setout, (p.design for p in setout.panels if p.mark in wanted and p.design not in noted))

    def _wrong_parts(self, setout: SetOut, design: str) -> tuple[PartCount, ...]:
        recipe = next((recipe.parts for recipe in setout.room.progress.recipes if recipe.design == design), None)
        if recipe is not None:
            return recipe
        counts = parts_for(setout, (design,)).get(design, {})
        return tuple(build(PartCount, part=name, count=number) for name, number in sorted(counts.items()) if number)


def _count(marks: Sequence[str]) -> str:
    return marks[0] if len(marks) == 1 else trn("{n} panel", "{n} panels", len(marks))
