"""The forecast and its charts: the lines end where the figures say."""

from datetime import date

import pytest
from pytestqt.qtbot import QtBot

from app.tracking.burn import At, burns
from app.tracking.leaf import BuildLeaf
from app.tracking.outcome import outlook_words
from app.window import Window
from core.crew import hanging_order
from core.crew.forecast import forecast
from core.crew.plan import crew_plan
from core.edits.progress import mark_panels
from core.room import Room
from core.setout import solve
from core.setout.result import SetOut
from core.workforce import Workforce
from tests.core.crew.small import small_room


@pytest.fixture
def room() -> Room:
    return small_room()


def half_built(room: Room) -> SetOut:
    setout = solve(room)
    marks = [panel.mark for panel in hanging_order(setout)]
    setout = solve(mark_panels(setout, marks[:6], "built", {}, on="2027-05-31"))
    return solve(mark_panels(setout, marks[:4], "hung", {}, on="2027-06-01"))


def test_the_lines_begin_with_everything_and_the_plan_ends_with_nothing() -> None:
    setout = half_built(small_room())
    panels, hours = burns(setout, forecast(setout, "2027-06-02"), "2027-06-02")
    whole = crew_plan(setout, from_scratch=True)
    monday = date(2027, 5, 31).toordinal()
    assert panels.planned[0] == panels.done[0] == At(monday, len(setout.panels))
    assert hours.done[0].left == pytest.approx(whole.minutes / 60)
    assert panels.planned[-1].left == 0
    assert hours.planned[-1].left == pytest.approx(0, abs=1e-6)
    assert panels.done[-1] == At(monday + 2, len(setout.panels) - 4)


def test_the_way_ahead_leads_from_now_to_the_forecast_end() -> None:
    setout = half_built(small_room())
    found = forecast(setout, "2027-06-02")
    panels, _ = burns(setout, found, "2027-06-02")
    assert found.left.finish is not None
    assert found.left.finish.on is not None
    assert panels.ahead == (panels.done[-1], At(date.fromisoformat(found.left.finish.on).toordinal() + 1, 0.0))


def test_a_weekend_off_shows_as_a_stretch_without_progress() -> None:
    """Common practice, no published source: the axis counts calendar days, so that a date can be read off it."""
    setout = solve(small_room(Workforce(people=small_room().crew.people[:1], starts_on="2027-06-04")))
    panels, _ = burns(setout, forecast(setout, "2027-06-04"), "2027-06-04")
    moments = [point.moment for point in panels.planned]
    friday = date(2027, 6, 4).toordinal()
    assert moments[:3] == [friday, friday + 1, friday + 4]


def test_without_a_crew_the_words_say_that_there_is_no_plan() -> None:
    setout = half_built(small_room(Workforce()))
    found = forecast(setout, "2027-06-02")
    panels, hours = burns(setout, found, "2027-06-02")
    assert (panels.planned, panels.ahead, hours.planned) == ((), (), ())
    assert "Nobody is in the crew yet" in outlook_words(setout, found)


def test_the_words_name_the_planned_end_and_how_far_behind_it_is() -> None:
    setout = half_built(small_room())
    found = forecast(setout, "2027-06-02")
    text = outlook_words(setout, found)
    assert found.days_late is not None
    assert found.days_late > 0
    assert f"{found.days_late} working day" in text
    assert "behind the plan" in text


def test_the_outlook_follows_a_mark_and_paints_its_charts(window: Window, qtbot: QtBot) -> None:
    window.document.work_out()
    window.building.marking._today = lambda: date(2027, 6, 1)
    leaf = window.leaves.turn_to(window.build)
    assert isinstance(leaf, BuildLeaf)
    qtbot.waitUntil(leaf.isVisible)
    leaf.outlook.work_out()
    qtbot.waitUntil(lambda: leaf.outlook.charts[0].burn is not None, timeout=60_000)
    before = leaf.outlook.charts[0].grab().toImage()
    window.building.marking.put([panel.mark for panel in window.document.setout.panels], "hung")
    leaf.outlook.work_out()
    qtbot.waitUntil(lambda: leaf.outlook.charts[0].accessibleDescription().startswith("0 of"), timeout=60_000)
    burn = leaf.outlook.charts[0].burn
    assert burn is not None
    assert burn.done[-1].left == 0
    assert leaf.outlook.charts[0].grab().toImage() != before


def test_what_was_marked_while_the_outlook_is_hidden_is_not_worked_out(window: Window, qtbot: QtBot) -> None:
    window.document.work_out()
    leaf = window.leaves.turn_to(window.build)
    assert isinstance(leaf, BuildLeaf)
    qtbot.waitUntil(leaf.isVisible)
    leaf.sides.setCurrentWidget(leaf.loose)
    window.building.marking.put(["A-1-02"], "built")
    assert not leaf.outlook._timer.isActive()
    leaf.sides.setCurrentWidget(leaf.outlook)
    assert leaf.outlook._timer.isActive()
