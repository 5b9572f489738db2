"""The crew leaf: people and terms typed become edits, the plan is the core's, and the chart says it without colour."""

import json
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtWidgets import QApplication, QComboBox
from pytestqt.qtbot import QtBot

from app.crew.chart import PlanChart
from app.crew.leaf import CrewLeaf
from app.crew.planning import Outlook, Stretch, outlook, stretches
from app.crew.terms_card import read_rate, weekdays
from app.crew.words import finish_title, governing_words, range_words, stretch_words
from app.document import Document
from app.tables.reading import TypedError
from app.window import Window
from core import edits
from core.crew import crew_plan
from core.crew.calendar import DAY
from core.edits.crew import set_crew, set_person
from core.files import parse_room, room_document
from core.room import Room
from core.setout import solve
from core.workforce import Person
from tests.app.den import reading_den
from tests.app.table_hand import fill, type_into

CONTROL = Qt.KeyboardModifier.ControlModifier
LONGEST_MS = 30_000


@pytest.fixture
def room() -> Room:
    """A small den with two people, so that its plan is soon worked out."""
    room = set_person(reading_den(), Person(name="Ines", hours_per_day=3.0))
    room = set_person(room, Person(name="Marek", hours_per_day=2.0, duty="build"))
    return set_crew(room, starts_on="2027-05-31")


@pytest.fixture
def leaf(window: Window, qtbot: QtBot) -> Iterator[CrewLeaf]:
    """The leaf as a key brings it up, with its plan worked out."""
    qtbot.keyClick(window, Qt.Key.Key_6, CONTROL)
    leaf = window.leaves.turn_to(window.crew)
    assert isinstance(leaf, CrewLeaf)
    wait_for_plan(qtbot, leaf)
    yield leaf
    leaf._aside.close()


@pytest.fixture
def bare(document: Document, qtbot: QtBot) -> Iterator[CrewLeaf]:
    """The leaf without a window and without waiting, for what needs no plan."""
    leaf = CrewLeaf(document)
    qtbot.addWidget(leaf)
    leaf.resize(1400, 300)
    with qtbot.waitExposed(leaf):
        leaf.show()
    leaf.turn(1)
    yield leaf
    leaf._aside.close()


def wait_for_plan(qtbot: QtBot, leaf: CrewLeaf) -> Outlook:
    """The plan of the room as it is."""
    qtbot.waitUntil(
        lambda: leaf.outlook is not None and leaf._setout.room == leaf._document.room and not leaf._aside.is_busy,
        timeout=LONGEST_MS,
    )
    return leaf.outlook


def test_the_finish_and_its_range_are_those_of_the_core(leaf: CrewLeaf) -> None:
    expected = outlook(leaf._document.work_out())
    assert leaf.outlook == expected
    assert leaf.card.finish.text() == finish_title(expected, leaf._document.room)
    assert expected.finish.on.startswith("2027-")
    assert leaf.card.range.text() == range_words(expected, leaf._document.room.crew)


def test_people_are_added_renamed_given_hours_and_taken_out_one_step_each(leaf: CrewLeaf, qtbot: QtBot) -> None:
    qtbot.mouseClick(leaf.switches[1], Qt.MouseButton.LeftButton)
    before = leaf._document.room
    type_into(qtbot, leaf.people, 2, "Name", "Odile")
    type_into(qtbot, leaf.people, 2, "Hours a day", "4,5")
    type_into(qtbot, leaf.people, 2, "From", "2027-06-02")
    type_into(qtbot, leaf.people, 2, "Name", "Odile B")
    assert leaf._document.room.crew.people[2] == Person(name="Odile B", hours_per_day=4.5, starts_on="2027-06-02")
    leaf.people.setCurrentIndex(leaf.people.cells.index(0, 0))
    qtbot.keyClick(leaf.people, Qt.Key.Key_Delete)
    assert [person.name for person in leaf._document.room.crew.people] == ["Marek", "Odile B"]
    assert leaf._document.undo_stack.count() == 5
    for _ in range(5):
        qtbot.keyClick(leaf.people, Qt.Key.Key_Z, CONTROL)
    assert leaf._document.room is before


def test_what_somebody_does_is_chosen_by_keys(bare: CrewLeaf, qtbot: QtBot) -> None:
    leaf = bare
    leaf.people.setFocus()
    leaf.people.setCurrentIndex(leaf.people.cells.index(0, 3))
    qtbot.keyClick(leaf.people, Qt.Key.Key_Return)
    box = QApplication.focusWidget()
    assert isinstance(box, QComboBox)
    qtbot.waitUntil(box.view().isVisible)
    qtbot.keyClick(box.view(), Qt.Key.Key_Down)
    qtbot.keyClick(box.view(), Qt.Key.Key_Down)
    assert leaf._document.undo_stack.count() == 0
    qtbot.keyClick(box.view(), Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: leaf._document.room.crew.people[0].duty == "hang")


@pytest.mark.parametrize(
    ("column", "typed", "why"),
    [
        ("Hours a day", "25", "hours_per_day"),
        ("Hours a day", "long", "number"),
        ("From", "31.5.2027", "a date like"),
        ("Name", "Marek", "already"),
    ],
)
def test_what_cannot_be_stays_in_its_cell_with_the_reason(
    bare: CrewLeaf, qtbot: QtBot, column: str, typed: str, why: str
) -> None:
    leaf = bare
    before = leaf._document.room
    type_into(qtbot, leaf.people, 0, column, typed)
    assert leaf._document.room is before
    assert why in leaf._document.refusal
    number = [one.title for one in leaf.people.cells.columns].index(column)
    assert leaf.people.cells.index(0, number).data() == typed


def test_terms_are_typed_and_the_plan_follows(leaf: CrewLeaf, qtbot: QtBot) -> None:
    leaf.turn(1)
    terms = leaf.terms
    fill(qtbot, terms.starts, "2027-06-05")
    fill(qtbot, terms.workdays, "sat sun")
    fill(qtbot, terms.benches, "3")
    fill(qtbot, terms.kits, "6")
    fill(qtbot, terms.rate, "85 %")
    qtbot.keyClick(terms.model.box, Qt.Key.Key_Down)
    crew = leaf._document.room.crew
    assert (crew.starts_on, crew.workdays, crew.benches, crew.kits_per_bench) == ("2027-06-05", ("sat", "sun"), 3, 6)
    assert (crew.learning_rate, crew.learning_model) == (0.85, "cumulative average")
    found = wait_for_plan(qtbot, leaf)
    assert found == outlook(leaf._document.work_out())
    assert "cumulative average model" in leaf.card.rests_on.text()
    assert leaf._document.undo_stack.count() == 6


def test_the_pace_is_typed_saved_and_undone_and_the_plan_follows(bare: CrewLeaf, qtbot: QtBot) -> None:
    terms, document = bare.terms, bare._document
    before = document.room
    for field, typed in ((terms.full, "12.5 min"), (terms.hanging, "3"), (terms.setting_up, "20 min")):
        fill(qtbot, field, typed)
    rates = parse_room(json.dumps(room_document(document.room)).encode()).rates
    assert (rates.build_full_panel, rates.handling, rates.setup) == (12.5, 3.0, 20.0)
    assert terms.full.line.text() == "12.5 min"
    assert document.undo_stack.count() == 3
    for _ in range(3):
        document.undo_stack.undo()
    assert document.room == before
    assert terms.full.line.text() == "10 min"


@pytest.mark.parametrize(
    ("field", "typed"),
    [("benches", "0"), ("benches", "two"), ("rate", "120"), ("full", "ten"), ("starts", "soon"), ("workdays", "")],
)
def test_wrong_terms_are_said_beside_the_field(bare: CrewLeaf, qtbot: QtBot, field: str, typed: str) -> None:
    leaf = bare
    before = leaf._document.room
    row = getattr(leaf.terms, field)
    row.line.setFocus()
    row.line.selectAll()
    qtbot.keyClick(row.line, Qt.Key.Key_Delete)
    qtbot.keyClicks(row.line, typed)
    qtbot.keyClick(row.line, Qt.Key.Key_Return)
    assert row.fault.isVisible()
    assert leaf._document.room is before


def test_every_task_lies_in_one_stretch_of_its_person_and_stretches_never_overlap(room: Room) -> None:
    setout = solve(room)
    found = outlook(setout)
    assert sum(one.panels for one in found.stretches) == len(crew_plan(setout).tasks)
    for person in {one.person for one in found.stretches}:
        mine = [one for one in found.stretches if one.person == person]
        assert all(before.end <= after.begin + 1e-9 for before, after in pairwise(mine))


def test_a_pause_parts_a_stretch(room: Room) -> None:
    plan = crew_plan(solve(room))
    task = plan.tasks[0]
    tasks = (replace(task, begin=0.0, end=10.0), replace(task, begin=10.0, end=20.0), replace(task, begin=DAY, end=DAY + 10.0))
    joined = stretches(replace(plan, tasks=tasks, longest_day=360.0))
    assert [one.panels for one in joined] == [2, 1]
    assert [one.begin for one in joined] == [0.0, 1.0]


def test_what_governs_the_finish_has_no_slack_and_is_named(room: Room) -> None:
    found = outlook(solve(room))
    assert found.governing
    assert all(found.stages[stage].slack < 1 for stage in found.governing)
    last = max(found.stages, key=lambda stage: found.stages[stage].early_finish)
    assert last in found.governing
    said = governing_words(found, room.crew)
    assert said.startswith("The finish waits for ")
    assert f"row {last[1] + 1}" in said or f"to {last[1] + 1}" in said


def test_arrows_go_along_the_chart_and_say_each_stretch(leaf: CrewLeaf, qtbot: QtBot) -> None:
    wall = leaf._document.wall
    leaf.chart.setFocus()
    found = leaf.outlook.stretches
    qtbot.keyClick(leaf.chart, Qt.Key.Key_Right)
    assert leaf.told.text() == stretch_words(found[0])
    qtbot.keyClick(leaf.chart, Qt.Key.Key_Right)
    assert leaf.chart.chosen == found[1]
    qtbot.keyClick(leaf.chart, Qt.Key.Key_Down)
    assert leaf.chart.chosen.person != found[1].person
    assert leaf._document.wall == wall


def test_a_click_on_a_bar_says_what_it_is(leaf: CrewLeaf, qtbot: QtBot) -> None:
    stretch = leaf.outlook.stretches[-1]
    box = leaf.chart.axes.bar(stretch)
    qtbot.mouseClick(leaf.chart, Qt.MouseButton.LeftButton, pos=box.center().toPoint())
    assert leaf.told.text() == stretch_words(stretch)
    qtbot.mouseClick(leaf.chart, Qt.MouseButton.LeftButton, pos=QPoint(5, 5))
    assert leaf.told.text() == "Who does what when"


def test_building_and_hanging_differ_in_black_and_white(qtbot: QtBot, room: Room) -> None:
    """In grey the bodies of the bars are far apart; WCAG 2.1 asks a contrast of 3 between parts of a drawing (1.4.11)."""
    from app.theme import contrast

    chart = PlanChart()
    qtbot.addWidget(chart)
    found = outlook(solve(room))
    chart.show_outlook(found, lambda _day: "")
    chart.resize(1400, 400)
    chart.show()
    image = chart.grab().toImage().convertToFormat(QImage.Format.Format_Grayscale8)

    def body(stretch: Stretch) -> str:
        box = chart.axes.bar(stretch)
        return QColor(image.pixel(round(box.right()) - 3, round(box.top()) + 5)).name()

    built, hung = (
        max((s for s in found.stretches if s.doing == doing), key=lambda s: s.end - s.begin) for doing in ("build", "hang")
    )
    assert contrast(body(built), body(hung)) > 3


def test_a_name_typed_beside_its_cell_changes_nothing(leaf: CrewLeaf, qtbot: QtBot) -> None:
    before = leaf._document.room
    leaf.people.setFocus()
    leaf.people.setCurrentIndex(leaf.people.cells.index(len(before.crew.people), 1))
    for letter in "Dow1":
        qtbot.keyClicks(leaf.people, letter)
    assert leaf._document.room is before


def test_without_people_the_chart_asks_for_them_and_nothing_is_dated(leaf: CrewLeaf, qtbot: QtBot) -> None:
    leaf._document.commit_edit(lambda room: set_crew(room, people=()), "Send everybody home")
    found = wait_for_plan(qtbot, leaf)
    assert found.stretches == ()
    assert leaf.card.finish.text() == "no people yet"
    assert "Name the people" in leaf.card.range.text()
    assert leaf.chart.axes is None


def test_panels_nobody_may_hang_leave_no_finish(leaf: CrewLeaf, qtbot: QtBot) -> None:
    leaf._document.commit_edit(lambda room: set_crew(room, people=(Person(name="Marek", duty="build"),)), "Only Marek")
    wait_for_plan(qtbot, leaf)
    assert leaf.card.finish.text() == "no finish"
    assert "nobody may do what they need" in leaf.card.range.text()


def test_nothing_is_planned_during_a_drag_or_while_the_leaf_is_hidden(leaf: CrewLeaf, window: Window, qtbot: QtBot) -> None:
    document = leaf._document
    document.preview_edit(lambda room: edits.set_clad_height(room, 608.0))
    qtbot.wait(300)
    assert leaf.outlook is None
    assert not leaf._aside.is_busy
    document.cancel()
    wait_for_plan(qtbot, leaf)
    window.leaves.turn_to(0)
    assert leaf._aside._process is None
    document.commit_edit(lambda room: set_crew(room, benches=1), "One bench")
    qtbot.wait(300)
    assert leaf.outlook is None
    assert not leaf._aside.is_busy


def test_a_change_gives_up_the_plan_that_was_being_worked_out(leaf: CrewLeaf, qtbot: QtBot) -> None:
    told = []
    leaf._aside.told.connect(told.append)
    for benches in (1, 3, 1, 4):
        leaf._document.commit_edit(lambda room, benches=benches: set_crew(room, benches=benches), "Benches")
        qtbot.wait(90)
    found = wait_for_plan(qtbot, leaf)
    assert told[-1] == found == outlook(leaf._document.work_out())


def test_weekdays_and_rates_are_read_as_people_write_them() -> None:
    assert weekdays("Friday, mon") == ("mon", "fri")
    assert read_rate("none") == read_rate("") == 1.0
    assert read_rate("85") == 0.85
    for typed in ("", "someday"):
        with pytest.raises(TypedError):
            weekdays(typed)
