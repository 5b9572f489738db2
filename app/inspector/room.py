"""The card of the whole room: its name, how high it is lined, and the units it is read in."""

from app.document import Document
from app.inspector.card import Card
from app.inspector.fields import ChoiceField, TextField
from core import edits
from core.setout.metric import z_mm
from core.setout.result import SetOut

UNITS = (("mm", "millimetres"), ("ft-in", "feet, inches"))
JOINTS = (("in line", "in line"), ("staggered", "staggered"))


class RoomCard(Card):
    """What holds for every wall."""

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.name = TextField(
            "Name", lambda: document.room.name, lambda typed: self.commit(lambda r: edits.set_name(r, typed), "Rename room")
        )
        self.clad = self.length_field(
            "Lined up to", lambda: document.room.clad_height_mm, edits.set_clad_height, "Set clad height"
        )
        self.units = ChoiceField("Lengths in", lambda: document.room.display_units, self._set_units, UNITS)
        self.joints = ChoiceField("Joints", lambda: document.room.joints, self._set_joints, JOINTS)
        self.add(self.name, self.clad, self.units, self.joints)
        self.close_card()

    def _set_units(self, units: str) -> str:
        return self.commit(lambda r: edits.set_units(r, "ft-in" if units == "ft-in" else "mm"), "Change units")

    def _set_joints(self, joints: str) -> str:
        return self.commit(lambda r: edits.set_joints(r, "staggered" if joints == "staggered" else "in line"), "Change joints")

    def describe(self) -> None:
        self.heading.setText("Room")
        self.readout.setText(
            rows_text(self.document.setout) + f"\nHead left open: {self.length(head_gap_mm(self.document.setout))}"
        )


def head_gap_mm(setout: SetOut) -> float:
    """What stays open between the top row and the clad height."""
    top = max((row.z_plates + row.height_plates for row in setout.rows), default=0)
    return round(setout.room.clad_height_mm - z_mm(setout.room.kit, top), 4)


def rows_text(setout: SetOut) -> str:
    """The row stack in words, from the floor up: ``6 full rows, 1 half``."""
    kit = setout.room.kit
    words: list[tuple[str, int]] = []
    for row in setout.rows:
        name = {kit.full_courses: "full", kit.half_courses: "half"}.get(row.courses, f"of {row.courses} courses")
        if words and words[-1][0] == name:
            words[-1] = (name, words[-1][1] + 1)
        else:
            words.append((name, 1))
    return "Rows from the floor: " + (", then ".join(f"{count} {name}" for name, count in words) or "none")
