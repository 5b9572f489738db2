"""What edits of the room do to work done: said after the edit, listed in the leaf, put right there."""

from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton, QWidget
from pytestqt.qtbot import QtBot

from app.tracking.leaf import BuildLeaf
from app.tracking.watch import change_words
from app.window import Window
from core.crew import place_of, standing
from core.crew.wrong import size_of, uses_of
from core.edits import remove_opening
from core.edits.progress import mark_panels
from core.files import load_room
from core.room import Room
from core.setout import solve
from tests.core.crew.small import small_room


@pytest.fixture
def room() -> Room:
    return small_room()


@pytest.fixture
def leaf(window: Window, qtbot: QtBot) -> BuildLeaf:
    window.document.work_out()
    window.building.marking._today = lambda: date(2027, 6, 1)
    shown = window.leaves.turn_to(window.build)
    assert isinstance(shown, BuildLeaf)
    qtbot.waitUntil(shown.isVisible)
    return shown


def shaped(window: Window) -> list[str]:
    return [panel.mark for panel in window.document.setout.panels if panel.kind == "shaped"]


def without_window(window: Window) -> None:
    """Take the window out of the wall, and let the set-out be worked out."""
    window.document.commit_edit(lambda room: remove_opening(room, "window"), "Remove")
    window.document.work_out()


def click(button: QPushButton) -> None:
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def show(leaf: BuildLeaf, page: QWidget) -> None:
    leaf.sides.setCurrentWidget(page)


def test_an_edit_that_brings_hung_panels_down_says_which(window: Window) -> None:
    window.document.work_out()
    marks = shaped(window)
    assert marks
    window.building.marking.put(marks, "hung")
    before = window.document.setout
    hung = {place_of(panel) for panel in before.panels if panel.mark in marks}
    without_window(window)
    lost = {orphan.record.place for orphan in standing(window.document.setout).orphans}
    assert lost == hung & lost
    message = window.statusBar().currentMessage()
    if lost:
        assert f"{len(lost)} hung panel" in message
        assert "must come down" in message
        assert any(mark in message for mark in marks)


def test_an_edit_while_nothing_is_built_says_nothing(window: Window) -> None:
    window.document.work_out()
    without_window(window)
    assert window.statusBar().currentMessage() == ""


def test_a_change_that_keeps_all_work_in_its_place_has_nothing_to_say() -> None:
    setout = solve(small_room())
    mark = next(panel.mark for panel in setout.panels if panel.faces[0].wall == 2)
    built = solve(mark_panels(setout, [mark], "hung", {}))
    after = solve(remove_opening(built.room, "window"))
    assert standing(after).orphans == ()
    assert change_words(built, after) == ""


def test_only_panels_that_this_change_displaces_are_named() -> None:
    setout = solve(small_room())
    marks = [panel.mark for panel in setout.panels if panel.kind == "shaped"]
    built = solve(mark_panels(setout, marks, "built", {}))
    after = solve(remove_opening(built.room, "window"))
    assert standing(after).orphans
    assert "set aside" in change_words(built, after)
    taller = solve(after.room.model_copy(update={"name": "other"}))
    assert change_words(after, taller) == ""


def test_another_room_is_no_change(window: Window, demo_room_path: Path) -> None:
    window.document.work_out()
    window.building.marking.put(shaped(window), "hung")
    said: list[str] = []
    window.building.watch.said.connect(said.append)
    window.document.replace(load_room(demo_room_path), None)
    window.document.work_out()
    assert said == []


def test_a_panel_without_a_place_is_moved_where_it_fits_or_taken_apart(window: Window, leaf: BuildLeaf) -> None:
    setout = window.document.setout
    plain = [p.mark for p in setout.panels if p.design == "full" and p.faces[0].wall == 0]
    window.building.marking.put([*shaped(window), *plain], "built")
    without_window(window)
    show(leaf, leaf.loose)
    count = leaf.loose.count
    assert count
    assert leaf.sides.tabText(1) == f"No place ({count})"
    fitting = [n for n, orphan in enumerate(standing(window.document.setout).orphans) if orphan.fits]
    nowhere = [n for n, orphan in enumerate(standing(window.document.setout).orphans) if not orphan.fits]
    if fitting:
        leaf.loose.list.setCurrentRow(fitting[0])
        mark = leaf.loose.fits.currentText()
        click(leaf.loose.move_here)
        assert standing(window.document.setout).by_mark[mark] == "built"
    else:
        leaf.loose.list.setCurrentRow(nowhere[0])
        assert not leaf.loose.move_here.isEnabled()
        click(leaf.loose.take_apart)
    assert leaf.loose.count == count - 1


def test_a_hung_panel_without_a_place_can_be_taken_down_then_apart(window: Window, leaf: BuildLeaf) -> None:
    place = next(place_of(panel) for panel in window.document.setout.panels if panel.kind == "shaped")
    mark = next(panel.mark for panel in window.document.setout.panels if place_of(panel) == place)
    window.building.marking.put([mark], "hung")
    # A plan by which that design is nowhere: its record is given another name, as if the plan had dropped it.
    progress = window.document.room.progress
    record = progress.panels[0].model_copy(update={"design": "shaped GONE"})
    room = window.document.room.model_copy(update={"progress": progress.model_copy(update={"panels": (record,)})})
    window.document.commit(room, "Drop the design")
    window.document.work_out()
    show(leaf, leaf.loose)
    assert leaf.loose.count == 1
    click(leaf.loose.take_down)
    assert standing(window.document.setout).orphans[0].record.state == "taken out"
    assert not leaf.loose.take_down.isEnabled()
    click(leaf.loose.take_apart)
    assert standing(window.document.setout).orphans == ()
    assert leaf.loose.count == 0


def test_a_panel_noted_as_built_wrong_serves_where_its_size_is_wanted(window: Window, leaf: BuildLeaf) -> None:
    setout = window.document.setout
    half = next(panel for panel in setout.panels if panel.kind == "half-height")
    show(leaf, leaf.misfits)
    leaf.misfits.meant_for.setCurrentText("full")
    size = size_of(setout, half)
    assert size is not None
    leaf.misfits.courses.setValue(size.courses)
    click(leaf.misfits.add)
    wrong = window.document.room.progress.wrong[0]
    assert (wrong.meant_for, wrong.courses, wrong.on) == ("full", size.courses, "2027-06-01")
    assert wrong.parts
    assert leaf.sides.tabText(2) == "Built wrong (1)"
    mark = uses_of(window.document.setout, wrong)[0].marks[0]
    assert leaf.misfits.uses.currentData() == mark
    click(leaf.misfits.use_here)
    assert standing(window.document.setout).by_mark[mark] == "checked"
    assert leaf.misfits.count == 0
    window.undo.trigger()
    assert leaf.misfits.count == 1
    click(leaf.misfits.take_apart)
    assert window.document.room.progress.wrong == ()


@pytest.mark.parametrize("typed", ["", "wide", "38 + 19 + 2", "-4", "0", "1e9", "38.5"])
def test_a_width_that_is_none_is_refused_beside_the_field(window: Window, leaf: BuildLeaf, typed: str) -> None:
    show(leaf, leaf.misfits)
    leaf.misfits.widths.setText(typed)
    click(leaf.misfits.add)
    assert leaf.misfits.fault.text()
    assert window.document.room.progress.wrong == ()


def test_a_reading_changes_the_rates_and_can_be_left_out_again(window: Window, leaf: BuildLeaf) -> None:
    show(leaf, leaf.stopwatch)
    watch = leaf.stopwatch
    watch.design.setCurrentText("full")
    watch.minutes.setValue(26.0)
    watch.panels.setValue(2)
    click(watch.add)
    assert window.document.room.rates.build_full_panel == pytest.approx(13.0)
    assert "full panel 13.0 min" in watch.rates.text()
    assert watch.list.count() == 1
    watch.list.setCurrentRow(0)
    click(watch.drop)
    assert window.document.room.crew.timings == ()
    assert not watch.drop.isEnabled()


def test_a_reading_of_no_minutes_is_refused(window: Window, leaf: BuildLeaf) -> None:
    show(leaf, leaf.stopwatch)
    before = window.document.room
    click(leaf.stopwatch.add)
    assert window.document.room is before
    assert leaf.desk.said.text().startswith("Not noted.")


def test_the_watch_runs_and_stops(leaf: BuildLeaf, qtbot: QtBot) -> None:
    show(leaf, leaf.stopwatch)
    click(leaf.stopwatch.run)
    assert leaf.stopwatch.run.text() == "Stop"
    qtbot.wait(5)
    click(leaf.stopwatch.run)
    assert leaf.stopwatch.run.text() == "Start"
    assert not leaf.stopwatch._watch.isValid()
