"""The card of the whole room: its name, how high it is lined, and the units it is read in."""

from itertools import groupby

from app.document import Document
from app.inspector.card import Card
from app.inspector.fields import ChoiceField, TextField
from core import edits
from core.kit import Kit
from core.language import marked, tr, trc
from core.room import Joints
from core.setout.metric import z_mm
from core.setout.result import SetOut

UNITS = (("mm", marked("millimetres")), ("ft-in", marked("feet, inches")))
JOINTS = ("in line", "staggered")


class RoomCard(Card):
    """What holds for every wall."""

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.name = TextField(tr("Name"), lambda: document.room.name, self._rename)
        self.clad = self.length_field(
            tr("Lined up to"), lambda: document.room.clad_height_mm, edits.set_clad_height, tr("Set clad height")
        )
        units = [(one, tr(words)) for one, words in UNITS]
        self.units = ChoiceField(tr("Lengths in"), lambda: document.room.display_units, self._set_units, units)
        joints = [(one, tr(one)) for one in JOINTS]
        self.joints = ChoiceField(tr("Joints"), lambda: document.room.joints, self._set_joints, joints)
        self.add(self.name, self.clad, self.units, self.joints)
        self.close_card()

    def _rename(self, typed: str) -> str:
        return self.commit(lambda r: edits.set_name(r, typed), tr("Rename room"))

    def _set_units(self, units: str) -> str:
        return self.commit(lambda r: edits.set_units(r, "ft-in" if units == "ft-in" else "mm"), tr("Change units"))

    def _set_joints(self, joints: str) -> str:
        wanted: Joints = "staggered" if joints == "staggered" else "in line"
        return self.commit(lambda r: edits.set_joints(r, wanted), tr("Change joints"))

    def describe(self) -> None:
        self.heading.setText(tr("Room"))
        gap = tr("Head left open: {gap}", gap=self.length(head_gap_mm(self.document.setout)))
        self.readout.setText(f"{rows_text(self.document.setout)}\n{gap}")


def head_gap_mm(setout: SetOut) -> float:
    """What stays open between the top row and the clad height."""
    top = max((row.z_plates + row.height_plates for row in setout.rows), default=0)
    return round(setout.room.clad_height_mm - z_mm(setout.room.kit, top), 4)


def rows_text(setout: SetOut) -> str:
    """The row stack in words, from the floor up: ``6 full rows, 1 half``."""
    kit = setout.room.kit
    if not setout.rows:
        return tr("Rows from the floor: none")
    alike = [(courses, len(list(rows))) for courses, rows in groupby(row.courses for row in setout.rows)]
    stack = tr(", then ").join(_rows_words(kit, courses, count) for courses, count in alike)
    return tr("Rows from the floor: {rows}", rows=stack)


def _rows_words(kit: Kit, courses: int, count: int) -> str:
    if courses == kit.full_courses:
        return trc("rows", "{count} full", count=count)
    if courses == kit.half_courses:
        return trc("rows", "{count} half", count=count)
    return trc("rows", "{count} of {courses} courses", count=count, courses=courses)
