"""The crew plan: everything is done once, in order, by people who are there."""

import math
from collections import Counter
from functools import cache
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.crew.calendar import DAY, Calendar, Hours
from core.crew.plan import crew_plan, person_days
from core.crew.schedule import Noise, Ready, schedule
from core.crew.stages import stages
from core.crew.work import hanging_order, jobs
from core.edits import set_rates
from core.edits.progress import mark_panels
from core.edits.revise import revise
from core.setout import solve
from core.setout.result import SetOut
from core.workforce import Person, Workforce
from tests.core.crew.small import CREW, small_room
from tests.core.takeoff.guessed import guessed_parts


@cache
def with_crew(crew: Workforce) -> SetOut:
    return solve(small_room(crew))


@st.composite
def crews(draw: st.DrawFn) -> Workforce:
    people = tuple(
        Person(
            name=f"{number}",
            hours_per_day=float(draw(st.integers(1, 9))),
            duty="both" if number == 0 else draw(st.sampled_from(("build", "hang", "both"))),
            starts_on=None if number == 0 else draw(st.sampled_from((None, "2027-06-01", "2027-06-09"))),
        )
        for number in range(draw(st.integers(1, 4)))
    )
    return Workforce(
        people=people,
        starts_on="2027-05-31",
        benches=draw(st.integers(1, 3)),
        hangers=draw(st.integers(1, 2)),
        hang_from=draw(st.integers(1, 12)),
        learning_rate=draw(st.sampled_from((1.0, 0.85))),
    )


@settings(max_examples=40)
@given(crew=crews())
def test_every_panel_is_built_and_then_hung_once(crew: Workforce) -> None:
    setout = with_crew(CREW)
    tasks = schedule(jobs(setout), crew)
    done = Counter((task.doing, task.mark) for task in tasks)
    assert done == Counter((doing, panel.mark) for panel in setout.panels for doing in ("build", "hang"))
    built = {task.mark: task.end for task in tasks if task.doing == "build"}
    assert all(built[task.mark] <= task.begin + 1e-6 for task in tasks if task.doing == "hang")


@settings(max_examples=20)
@given(crew=crews(), slower=st.floats(1.1, 3.0))
def test_a_job_made_ready_once_goes_every_time_as_it_goes_by_itself(crew: Workforce, slower: float) -> None:
    work = jobs(with_crew(CREW))
    ready = Ready(work, crew)
    for noise in (None, Noise([slower] * len(work), [1 / slower] * len(work)), None):
        moments = [(work[done.job].mark, done.doing, done.begin, done.end) for done in ready.run(noise)]
        assert moments == [(task.mark, task.doing, task.begin, task.end) for task in schedule(work, crew, noise=noise)]


@settings(max_examples=40)
@given(crew=crews())
def test_nobody_does_two_things_at_once_nor_more_than_benches_and_hours_allow(crew: Workforce) -> None:
    every = schedule(jobs(with_crew(CREW)), crew)
    calendar = Calendar(crew)
    for person in crew.people:
        mine = [task for task in every if task.person == person.name]
        assert all(a.end <= b.begin + 1e-6 for a, b in pairwise(mine))
        assert all(task.end % DAY <= person.hours_per_day * 60 + 1e-6 for task in mine)
        assert all(person.duty in ("both", task.doing) for task in mine)
        first = calendar.day_of(person.starts_on) if person.starts_on else 0
        assert all(task.begin >= first * DAY for task in mine)
    for doing, most in (("build", crew.benches), ("hang", crew.hangers)):
        tasks = [task for task in every if task.doing == doing]
        for task in tasks:
            at_once = sum(other.begin <= task.begin + 1e-9 < other.end for other in tasks)
            assert at_once <= most


@settings(max_examples=20)
@given(crew=crews())
def test_a_row_goes_all_round_before_the_next_begins(crew: Workforce) -> None:
    setout = with_crew(CREW)
    hung = [task for task in schedule(jobs(setout), crew) if task.doing == "hang"]
    assert [task.mark for task in hung] == [panel.mark for panel in hanging_order(setout)]
    for before, after in pairwise(hung):
        if after.row != before.row:
            assert max(task.end for task in hung if task.row == before.row) <= after.begin + 1e-6


def test_hanging_begins_while_building_goes_on() -> None:
    plan = crew_plan(with_crew(CREW))
    first_hung = min(task.begin for task in plan.tasks if task.doing == "hang")
    last_built = max(task.end for task in plan.tasks if task.doing == "build")
    assert first_hung < last_built


def test_planned_work_is_the_set_outs_minutes_without_penalties() -> None:
    setout = with_crew(CREW)
    plan = crew_plan(setout)
    minutes = setout.minutes
    assert plan.minutes == pytest.approx(minutes.build + minutes.handling + minutes.setup + minutes.blocking)
    assert sum(plan.by_person.values()) == pytest.approx(plan.minutes)
    assert person_days(480, Workforce()) == 1.0


def test_the_range_holds_the_plan_and_is_the_same_every_time() -> None:
    setout = with_crew(CREW)
    one, two = crew_plan(setout), crew_plan(setout)
    assert one == two
    assert one.range is not None
    assert one.finish is not None
    assert one.range.early.day <= one.finish.day <= one.range.late.day


def test_without_scatter_the_range_is_the_plan() -> None:
    setout = with_crew(revise(CREW, spread_percent=0.0, rates_off_percent=0.0))
    plan = crew_plan(setout)
    assert plan.range is not None
    assert plan.range.early == plan.range.late == plan.finish


@pytest.mark.parametrize("percent", [5.0, 15.0, 60.0])
def test_where_only_the_rates_are_off_the_range_is_the_plan_at_its_tenths(percent: float) -> None:
    """Tenths of the log-normal distribution from a table of the normal one, whose tenths lie 1.28155 deviations out."""
    setout = with_crew(revise(CREW, spread_percent=0.0, rates_off_percent=percent))
    found = crew_plan(setout).range
    assert found is not None
    variance = math.log(1 + (percent / 100) ** 2)
    tenths = [math.exp(-variance / 2 + sign * 1.28155 * math.sqrt(variance)) for sign in (-1, 1)]
    assert [found.early, found.late] == [crew_plan(setout, pace=1 / factor).finish for factor in tenths]


def test_chance_hardly_moves_the_range(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of a job of some weeks; where chance also decides how far the rates are off, both ends vary by some days."""
    setout = with_crew(revise(CREW, people=(Person(name="one", hours_per_day=0.5),)))
    early, late = set(), set()
    for seed in range(20):
        monkeypatch.setattr("core.crew.plan._SEED", seed)
        found = crew_plan(setout).range
        assert found is not None
        early.add(found.early.day)
        late.add(found.late.day)
    assert max(early) - min(early) <= 1
    assert max(late) - min(late) <= 2


def test_practice_makes_the_job_shorter_down_to_its_floor() -> None:
    slow, quick = (crew_plan(with_crew(revise(CREW, learning_rate=rate))) for rate in (1.0, 0.8))
    floored = crew_plan(with_crew(revise(CREW, learning_rate=0.8, learning_floor=0.95)))
    hours = [sum(plan.by_person.values()) for plan in (slow, floored, quick)]
    assert hours[0] > hours[1] > hours[2]


def test_what_is_done_is_not_planned_again() -> None:
    setout = with_crew(CREW)
    parts = guessed_parts(setout)
    order = [panel.mark for panel in hanging_order(setout)]
    room = mark_panels(setout, order[:5], "hung", parts)
    setout = solve(mark_panels(solve(room), order[5:8], "built", parts))
    tasks = crew_plan(setout).tasks
    assert {task.mark for task in tasks if task.doing == "build"} == set(order[8:])
    assert {task.mark for task in tasks if task.doing == "hang"} == set(order[5:])
    assert len(crew_plan(setout, from_scratch=True).tasks) == 2 * len(order)


def test_nobody_to_hang_leaves_the_plan_without_a_finish() -> None:
    plan = crew_plan(with_crew(Workforce(people=(Person(name="one", duty="build"),))))
    assert plan.finish is None
    assert plan.undone == len(with_crew(CREW).panels)


def test_without_people_only_the_minutes_are_known() -> None:
    plan = crew_plan(with_crew(Workforce()))
    assert (plan.tasks, plan.finish, plan.range, plan.undone) == ((), None, None, 0)
    assert plan.minutes > 0


def test_weekends_and_days_off_are_no_working_days() -> None:
    calendar = Calendar(Workforce(starts_on="2027-06-04", days_off=("2027-06-07",)))
    assert [calendar.date_of(day) for day in range(3)] == ["2027-06-04", "2027-06-08", "2027-06-09"]
    assert calendar.day_of("2027-06-06") == 1


def test_what_does_not_fit_a_day_goes_on_the_next() -> None:
    hours = Hours(first_day=1, minutes=60)
    assert hours.after(0, 30) == DAY + 30
    assert hours.after(DAY + 30, 30) == DAY + 60
    assert hours.after(DAY + 30, 31) == 2 * DAY + 1
    assert hours.ready(DAY + 60) == 2 * DAY


def test_set_up_is_done_once_for_each_design_of_its_own() -> None:
    setout = with_crew(CREW)
    own = sum(not design.in_kit for design in setout.designs)
    rates = setout.room.rates
    build = sum(job.build for job in jobs(setout))
    assert build == pytest.approx(sum(p.minutes - rates.handling for p in setout.panels) + own * rates.setup)


def test_bars_and_slacks_cover_every_row() -> None:
    setout = with_crew(CREW)
    plan = crew_plan(setout)
    assert [(bar.row, bar.doing) for bar in plan.bars] == [
        (row.index, doing) for row in setout.rows for doing in ("build", "hang")
    ]
    assert sum(built for built, _ in plan.per_day) == sum(hung for _, hung in plan.per_day) == len(setout.panels)
    times = stages(plan, setout.room.crew)
    assert min(time.slack for time in times.values()) == pytest.approx(0)
    assert times["hang", setout.rows[-1].index].slack == pytest.approx(0)


def test_absurd_rates_are_not_planned_rather_than_planned_for_ages() -> None:
    rates = {"build_full_panel": 10_000.0, "plain_factor": 10.0}
    room = small_room(Workforce(people=(Person(name="one", hours_per_day=0.25),), starts_on="2027-05-31", benches=1))
    plan = crew_plan(solve(set_rates(room, **rates)))
    assert (plan.tasks, plan.finish, plan.per_day) == ((), None, ())
    assert plan.undone > 0


def test_a_person_who_comes_in_the_last_year_of_the_calendar_is_waited_for() -> None:
    crew = Workforce(people=(Person(name="one", starts_on="9999-12-31"),), starts_on="2027-05-31")
    plan = crew_plan(with_crew(crew))
    assert plan.finish is None


@pytest.mark.parametrize("people", [2, 3])
def test_who_is_free_waits_until_the_row_below_hangs_all_round(people: int) -> None:
    """All is built, and hands are many: without the rule the next row would begin beside the last panel of the one below."""
    crew = Workforce(
        people=tuple(Person(name=f"{n}") for n in range(people)), hangers=people, hang_from=1, starts_on="2027-05-31"
    )
    setout = with_crew(crew)
    built = solve(mark_panels(setout, [panel.mark for panel in setout.panels], "built", guessed_parts(setout)))
    tasks = schedule(jobs(built), crew)
    rows = sorted({task.row for task in tasks})
    assert len(rows) > 1
    for below, above in pairwise(rows):
        ends = max(task.end for task in tasks if task.row == below)
        assert min(task.begin for task in tasks if task.row == above) >= ends - 1e-6
