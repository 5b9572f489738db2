"""The plan in words: when it is done, how sure that is, what governs it."""

from collections.abc import Sequence

from app.crew.planning import Outlook, Stretch
from core.crew.plan import Finish, person_days
from core.crew.schedule import Doing
from core.crew.stages import Stage
from core.room import Room
from core.sheets.buying_crew import day_words, finish_words
from core.sheets.wording import hours
from core.workforce import Workforce

NOBODY = "Name the people to see when they are done."
DOING = {"build": "building", "hang": "hanging"}


def finish_title(found: Outlook, room: Room) -> str:
    """The finish as a title."""
    if found.finish is not None and found.stretches:
        return finish_words(found.finish)
    if not found.minutes:
        return "all panels hang"
    return "no people yet" if not room.crew.people else "no finish"


def range_words(found: Outlook, crew: Workforce) -> str:
    """How sure the finish is, or why there is none."""
    if found.range is not None:
        return f"1 job in 10 like this is done by {_short(found.range.early)}, 9 in 10 by {_short(found.range.late)}."
    if not found.minutes:
        return "Nothing is left to plan."
    if not crew.people:
        return NOBODY
    return f"{found.undone} panels cannot be finished: nobody may do what they need, or it would take over a hundred years."


def work_words(found: Outlook, room: Room) -> str:
    """What is left to do, in hours and in days of one person."""
    days = person_days(found.minutes, room.crew)
    each = "of the crew's hours" if room.crew.people else "of 8 h"
    return f"{hours(found.minutes)} of work left: {days:.1f} days of one person, {each}."


def rests_on_words(found: Outlook, crew: Workforce) -> str:
    """What plan and range assume; a learning rate means nothing without its model."""
    said = []
    if found.range is not None:
        scatter = f"panels scatter by {crew.spread_percent:g} %, the rates as a whole by {crew.rates_off_percent:g} %"
        said.append(f"{found.range.runs} jobs simulated: {scatter}.")
    if crew.learning_rate == 1.0:
        said.append("Nobody gets faster with practice.")
    else:
        what = "every panel takes" if crew.learning_model == "unit" else "their average takes"
        said.append(
            f"Each time somebody's panels double, {what} {crew.learning_rate * 100:g} % as long ({crew.learning_model} model), "
            f"down to {crew.learning_floor * 100:g} % of the first."
        )
    return " ".join(said)


def governing_words(found: Outlook, crew: Workforce) -> str:
    """What the finish waits for, how far the rest may slip, and where more people than places are."""
    if not found.stages:
        return ""
    said = [f"The finish waits for {_stages(found.governing)}."]
    slack = [times.slack for stage, times in found.stages.items() if stage not in found.governing]
    if slack:
        said.append(f"The rest may slip by {hours(min(slack))} or more.")
    busy = {doing for doing, _row in found.governing}
    builders, hangers = (sum(person.duty != other for person in crew.people) for other in ("hang", "build"))
    if "build" in busy and builders > crew.benches:
        said.append(f"{builders} may build, at {_counted(crew.benches, 'bench', 'benches')}.")
    if "hang" in busy and hangers > crew.hangers:
        said.append(f"{hangers} may hang, {crew.hangers} at once.")
    return " ".join(said)


def stretch_words(stretch: Stretch) -> str:
    """One stretch of the chart."""
    does = "builds" if stretch.doing == "build" else "hangs"
    first, last = int(stretch.begin) + 1, int(stretch.end - 1e-9) + 1
    when = f"day {first}" if first == last else f"days {first} to {last}"
    return f"{stretch.person} {does} {_counted(stretch.panels, 'panel', 'panels')} of row {stretch.row + 1}, {when}"


def _counted(count: int, one: str, many: str) -> str:
    return f"{count} {one if count == 1 else many}"


def _short(finish: Finish) -> str:
    return f"day {finish.day}" + (f", {day_words(finish.on)}" if finish.on else "")


def _stages(found: Sequence[Stage]) -> str:
    """``building rows 1 to 7, then hanging row 7``."""
    groups: list[tuple[Doing, list[int]]] = []
    for doing, row in found:
        if groups and groups[-1][0] == doing and abs(groups[-1][1][-1] - row) == 1:
            groups[-1][1].append(row)
        else:
            groups.append((doing, [row]))
    return ", then ".join(f"{DOING[doing]} {_rows(rows)}" for doing, rows in groups)


def _rows(rows: Sequence[int]) -> str:
    return f"row {rows[0] + 1}" if len(rows) == 1 else f"rows {rows[0] + 1} to {rows[-1] + 1}"
