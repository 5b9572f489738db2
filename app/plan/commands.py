"""Commands on the plan that need a dialog: drawing the walls anew, alcoves and chimney breasts, checking square."""

import math
from collections.abc import Callable

from PySide6.QtWidgets import QDialog, QWidget

from app.document import Document, Edit
from app.plan.recess_dialog import RecessDialog
from app.plan.sketch_dialog import SketchDialog
from app.plan.square_dialog import SquareDialog
from app.questions import Questions
from core.edits.redraw import redraw
from core.errors import RoomError
from core.language import tr
from core.room import Point, Room
from core.survey import Leg
from core.survey.legs import LEAST_TURN_DEG


def plan_answers(document: Document, questions: Questions, window: QWidget) -> dict[str, Callable[[], object]]:
    """What answers the actions on the plan, by their names."""
    commands = PlanCommands(document, questions, window)
    return {"sketch": commands.sketch, "recess": commands.recess, "square": commands.check_square}


class PlanCommands:
    """Each command opens a dialog on the room as it is and makes at most one edit."""

    def __init__(self, document: Document, questions: Questions, window: QWidget) -> None:
        self._document, self._questions, self._window = document, questions, window

    def sketch(self) -> None:
        """Draw the walls anew round what the room has."""
        self._document.cancel()
        room = self._document.room
        dialog = SketchDialog(
            tr("Draw the walls anew"),
            tr("Use these walls"),
            room.display_units,
            self._redraw,
            self._window,
            behind=room.corners_mm,
            legs=legs_of(room),
        )
        dialog.go(1)
        self._run(dialog)

    def recess(self) -> None:
        """Add an alcove or a chimney breast to the current wall."""
        self._document.cancel()
        self._run(RecessDialog(self._document.room, self._document.wall, self._commit, self._window))

    def check_square(self) -> None:
        """Check corners by distances taped across them."""
        self._document.cancel()
        self._run(SquareDialog(self._document.room, self._commit, self._window))

    def _redraw(self, corners_mm: tuple[Point, ...]) -> None:
        """Take up other walls; asks before anything that stands on the old ones is dropped."""
        redrawn = redraw(self._document.room, corners_mm)
        if redrawn.dropped:
            lines = "\n".join(f"•  {what}" for what in redrawn.dropped)
            asked = tr("These do not fit the new walls and would go:\n\n{things}", things=lines)
            if not self._questions.confirm(asked, tr("Draw the walls, drop these")):
                raise RoomError(tr("nothing was changed; make the walls fit, or move first what stands on them"))
        fault = self._commit(lambda _room: redrawn.room, tr("Draw the walls anew"))
        if fault:
            raise RoomError(fault)

    def _commit(self, edit: Edit, text: str) -> str:
        return "" if self._document.commit_edit(edit, text) else self._document.refusal

    def _run(self, dialog: QDialog) -> None:
        dialog.exec()
        dialog.deleteLater()


def legs_of(room: Room) -> tuple[Leg, ...]:
    """A room's walls and turns as a list of measured ones; walls that run on in one line are one."""
    legs: list[Leg] = []
    for wall in range(room.wall_count):
        length, turn = round(room.wall_length_mm(wall), 4), _turn_deg(room, wall)
        if legs and abs(legs[-1].turn_deg or 0.0) < LEAST_TURN_DEG:
            legs[-1] = Leg(round(legs[-1].length_mm + length, 4), turn)
        else:
            legs.append(Leg(length, turn))
    return tuple(legs)


def _turn_deg(room: Room, wall: int) -> float:
    (ax, ay), (bx, by) = room.wall_ends_mm(wall)
    cx, cy = room.wall_ends_mm((wall + 1) % room.wall_count)[1]
    turned = math.degrees(math.atan2(by - ay, bx - ax) - math.atan2(cy - by, cx - bx))
    return round((turned + 180) % 360 - 180, 4)
