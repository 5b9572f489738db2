"""How the frame is given: lists of lengths as people write them off a tape, and spacings."""

import math

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox
from pytestqt.qtbot import QtBot

from app.framing.leaf import FrameLeaf
from app.framing.lists import read_lengths, read_signed_mm, write_lengths
from core import edits
from core.edits.frames import rails_of
from core.errors import LengthError
from core.frame.drift_words import wall_drift
from core.room import RegularFrame
from tests.app.framing.plans import centres, type_list, wait_for_plan
from tests.app.table_hand import fill

CONTROL = Qt.KeyboardModifier.ControlModifier


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("19; 430; 838", (19, 430, 838)),
        ("19 430 838.5", (19, 430, 838.5)),
        ("19\n430\n838", (19, 430, 838)),
        ("19, 430, 838,", (19, 430, 838)),
        ("3/4\"; 1' 5\"; 2' 9 1/2 in", (19.05, 431.8, 850.9)),
        ("", ()),
        ("  \n ; ", ()),
    ],
)
def test_a_list_is_read_as_people_write_it_off_a_tape(typed: str, read: tuple[float, ...]) -> None:
    """An inch is 25.4 mm exactly (NIST SP 811, appendix B.6)."""
    assert read_lengths(typed) == pytest.approx(read)


@pytest.mark.parametrize("typed", ["19; much; 838", "1 200; 1 800", "-5; 20", "1,200; 1,800"])
def test_what_is_no_list_of_lengths_says_which_of_them_is_wrong(typed: str) -> None:
    with pytest.raises(LengthError, match=r"number [12] in the list"):
        read_lengths(typed)


def test_lengths_that_were_not_touched_keep_what_feet_and_inches_cannot_show() -> None:
    known = (19.3, 430.2, 838.1)
    shown = write_lengths(known, "ft-in")
    assert read_lengths(shown, known, "ft-in") == known
    assert read_lengths(shown.replace("1' 4 15/16\"", "1' 5\""), known, "ft-in") == (19.3, 431.8, 838.1)


def test_only_a_depth_may_be_negative() -> None:
    assert read_signed_mm("-3.5") == -3.5
    assert read_signed_mm("−1/8 in") == pytest.approx(-3.175)
    with pytest.raises(LengthError):
        read_signed_mm("--3")


def test_a_list_of_centres_is_typed_in_feet_and_inches_and_is_one_step_to_undo(fresh_leaf: FrameLeaf, qtbot: QtBot) -> None:
    document = fresh_leaf._document
    before = document.room
    type_list(qtbot, fresh_leaf.given.centres, '3/4"\n1\' 5"\n2\' 9"\n5\' 2"')
    assert centres(document) == pytest.approx((19.05, 431.8, 838.2, 1574.8))
    assert document.undo_stack.count() == 1
    qtbot.keyClick(fresh_leaf.given.centres.text, Qt.Key.Key_Z, CONTROL)
    assert document.room is before
    assert fresh_leaf.given.centres.text.toPlainText() == "19; 420; 830; 1230; 1581"


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("19; 830; 420", "420 mm comes after 830 mm; list the studs' centres in rising order"),
        ("19; 420; 440", "studs at 420 mm and 440 mm would overlap"),
        ("19; 420; 1700", "a stud at 1700 mm stands outside wall A; centres lie from 19 mm to 1581 mm"),
        ("19; 42O", "number 2 in the list, '42O'"),
    ],
)
def test_a_wrong_list_stays_as_typed_with_the_reason_beside_it(
    fresh_leaf: FrameLeaf, qtbot: QtBot, typed: str, said: str
) -> None:
    document, field = fresh_leaf._document, fresh_leaf.given.centres
    before = document.room
    type_list(qtbot, field, typed)
    assert document.room is before
    assert field.text.toPlainText() == typed
    assert said in field.fault.text()
    assert field.fault.isVisible()
    document.preview_edit(lambda room: edits.set_name(room, "Another den"))
    document.cancel()
    assert field.text.toPlainText() == typed
    qtbot.keyClick(field.text, Qt.Key.Key_Escape)
    assert field.text.toPlainText() == "19; 420; 830; 1230; 1581"
    assert not field.fault.isVisible()


def test_a_spacing_of_nothing_is_refused_and_a_good_one_taken_up_by_keys_alone(fresh_leaf: FrameLeaf, qtbot: QtBot) -> None:
    document, mode = fresh_leaf._document, fresh_leaf.given.mode.box
    assert isinstance(mode, QComboBox)
    mode.setFocus()
    qtbot.keyClick(mode, Qt.Key.Key_Up)
    assert document.room.frame(0).mode == "regular"
    before = document.room
    fill(qtbot, fresh_leaf.given.spacing, "0")
    assert document.room is before
    assert fresh_leaf.given.spacing.line.text() == "0"
    assert fresh_leaf.given.spacing.fault.text() == "the spacing is 0 mm; it must be from 50 mm to 5000 mm"
    fill(qtbot, fresh_leaf.given.spacing, "1'")
    frame = document.room.frame(0)
    assert isinstance(frame, RegularFrame)
    assert frame.spacing_mm == pytest.approx(304.8)
    assert not fresh_leaf.given.spacing.fault.isVisible()


def test_rails_are_typed_on_regular_studs_and_stay_when_these_are_measured_one_by_one(
    fresh_leaf: FrameLeaf, qtbot: QtBot
) -> None:
    document, given = fresh_leaf._document, fresh_leaf.given
    document.commit(edits.set_frame(document.room, 0, RegularFrame(mode="regular", spacing_mm=400.0)), "Frame")
    assert given.rails.isVisible()
    assert not given.centres.isVisible()
    type_list(qtbot, given.rails, "100; 200")
    assert rails_of(document.room.frame(0)) == (100, 200)
    assert document.undo_stack.undoText() == "Set rail centres"
    for mode in ("measured", "regular"):
        given.mode.box.setFocus()
        qtbot.keyClick(given.mode.box, Qt.Key.Key_Down if mode == "measured" else Qt.Key.Key_Up)
        assert document.room.frame(0).mode == mode
        assert rails_of(document.room.frame(0)) == (100, 200)
        assert given.rails.text.toPlainText() == "100; 200"
    type_list(qtbot, given.rails, "100; 110")
    assert given.rails.fault.text() == "rails at 100 mm and 110 mm would overlap; they are 38 mm wide"
    assert rails_of(document.room.frame(0)) == (100, 200)


def test_studs_a_foot_apart_drift_from_panels_as_arithmetic_says(leaf: FrameLeaf, qtbot: QtBot) -> None:
    """A foot is 304.8 mm exactly (NIST SP 811); panels of 38 pitches of 8 mm are 304.0 mm. Screws 8 mm from the joint, studs
    38 mm wide, 8 mm from the edge: 11 mm of reach less 8 mm are used up by the fourth panel's 3.2 mm."""
    room = leaf._document.room
    kit = room.kit
    reach = 38.0 / 2 - kit.mounts.edge_mm - kit.mounts.inset_pitches * kit.pitch_mm
    fails_at = math.floor(reach / 0.8) + 1
    made = edits.set_frame(room, 0, RegularFrame(mode="regular", spacing_mm=304.8, first_centre_mm=152.4))
    leaf._document.commit(made, "Frame")
    plan = wait_for_plan(qtbot, leaf)
    drift = plan.walls[0].drift
    assert drift is not None
    words, how = drift.words, drift.how
    assert leaf.given.drift.text() == words
    assert "0.8\u00a0mm are lost with every panel" in words
    assert f"panel {fails_at} is the first" in words
    assert leaf.given.drift.toolTip() == how
    assert "|304.8 - 304|" in how


def test_studs_two_panels_apart_do_not_drift_but_leave_every_other_joint_bare(leaf: FrameLeaf) -> None:
    made = edits.set_frame(leaf._document.room, 0, RegularFrame(mode="regular", spacing_mm=608.0))
    drift = wall_drift(made, 0)
    assert drift is not None
    assert drift.words == "Only every second joint of 304\u00a0mm panels can meet a stud."
