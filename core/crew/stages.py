"""Rows as activities: which rows' building or hanging everything waits for, and how long the others may slip."""

from collections import defaultdict
from collections.abc import Mapping

from core.crew.network import Activity, Times, critical_path
from core.crew.plan import CrewPlan
from core.crew.schedule import Doing
from core.workforce import Workforce

Stage = tuple[Doing, int]


def stages(plan: CrewPlan, crew: Workforce) -> Mapping[Stage, Times]:
    """Times of building and hanging each row, in minutes of work.

    A row is hung when it is built and the row below hangs; work of a kind is shared by those who do it, as far as benches and
    the number of hangers let them.
    """
    most: dict[Doing, int] = {"build": crew.benches, "hang": crew.hangers}
    minutes: defaultdict[Stage, float] = defaultdict(float)
    people: defaultdict[Doing, set[str]] = defaultdict(set)
    for task in plan.tasks:
        minutes[task.doing, task.row] += task.minutes
        people[task.doing].add(task.person)
    activities = []
    last: dict[Doing, str] = {}
    for (doing, row), work in sorted(minutes.items(), key=lambda one: (one[0][1], one[0][0])):
        after = [last[doing]] if doing in last else []
        if doing == "hang" and ("build", row) in minutes:
            after.append(_name(("build", row)))
        last[doing] = _name((doing, row))
        activities.append(Activity(last[doing], work / min(most[doing], len(people[doing])), tuple(after)))
    times = critical_path(activities)
    return {stage: times[_name(stage)] for stage in sorted(minutes)}


def _name(stage: Stage) -> str:
    doing, row = stage
    return f"{doing} row {row + 1}"
