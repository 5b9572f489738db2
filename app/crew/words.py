"""The plan in words: when it is done, how sure that is, what governs it."""

from collections.abc import Sequence

from app.crew.planning import Outlook, Stretch
from core.crew.plan import Finish, person_days
from core.crew.schedule import Doing
from core.crew.stages import Stage
from core.language import marked, tr, trn
from core.room import Room
from core.sheets.buying_crew import day_words, finish_words
from core.sheets.wording import hours
from core.workforce import Workforce

NOBODY = marked("Name the people to see when they are done.")


def finish_title(found: Outlook, room: Room) -> str:
    """The finish as a title."""
    if found.finish is not None and found.stretches:
        return finish_words(found.finish)
    if not found.minutes:
        return tr("all panels hang")
    return tr("no people yet") if not room.crew.people else tr("no finish")


def range_words(found: Outlook, crew: Workforce) -> str:
    """How sure the finish is, or why there is none."""
    if found.range is not None:
        early, late = _short(found.range.early), _short(found.range.late)
        return tr("1 job in 10 like this is done by {early}, 9 in 10 by {late}.", early=early, late=late)
    if not found.minutes:
        return tr("Nothing is left to plan.")
    if not crew.people:
        return tr(NOBODY)
    return trn(
        "{n} panel cannot be finished: nobody may do what it needs, or it would take over a hundred years.",
        "{n} panels cannot be finished: nobody may do what they need, or it would take over a hundred years.",
        found.undone,
    )


def work_words(found: Outlook, room: Room) -> str:
    """What is left to do, in hours and in days of one person."""
    days = person_days(found.minutes, room.crew)
    left = hours(found.minutes)
    if room.crew.people:
        return tr("{hours} of work left: {days:.1f} days of one person, of the crew's hours.", hours=left, days=days)
    return tr("{hours} of work left: {days:.1f} days of one person, of 8 h.", hours=left, days=days)


def rests_on_words(found: Outlook, crew: Workforce) -> str:
    """What plan and range assume; a learning rate means nothing without its model."""
    said = []
    if found.range is not None:
        said.append(
            tr(
                "{jobs} jobs simulated: panels scatter by {spread:g} %, the rates as a whole by {off:g} %.",
                jobs=found.range.runs,
                spread=crew.spread_percent,
                off=crew.rates_off_percent,
            )
        )
    said.append(tr("Nobody gets faster with practice.") if crew.learning_rate == 1.0 else _practice_words(crew))
    return " ".join(said)


def _practice_words(crew: Workforce) -> str:
    rate, floor = crew.learning_rate * 100, crew.learning_floor * 100
    if crew.learning_model == "unit":
        return tr(
            "Each time somebody's panels double, every panel takes {rate:g} % as long (unit model), "
            "down to {floor:g} % of the first.",
            rate=rate,
            floor=floor,
        )
    return tr(
        "Each time somebody's panels double, their average takes {rate:g} % as long (cumulative average model), "
        "down to {floor:g} % of the first.",
        rate=rate,
        floor=floor,
    )


def governing_words(found: Outlook, crew: Workforce) -> str:
    """What the finish waits for, how far the rest may slip, and where more people than places are."""
    if not found.stages:
        return ""
    said = [tr("The finish waits for {stages}.", stages=_stages(found.governing))]
    slack = [times.slack for stage, times in found.stages.items() if stage not in found.governing]
    if slack:
        said.append(tr("The rest may slip by {hours} or more.", hours=hours(min(slack))))
    busy = {doing for doing, _row in found.governing}
    builders, hangers = (sum(person.duty != other for person in crew.people) for other in ("hang", "build"))
    if "build" in busy and builders > crew.benches:
        said.append(
            trn("{people} may build, at {n} bench.", "{people} may build, at {n} benches.", crew.benches, people=builders)
        )
    if "hang" in busy and hangers > crew.hangers:
        said.append(tr("{people} may hang, {places} at once.", people=hangers, places=crew.hangers))
    return " ".join(said)


def stretch_words(stretch: Stretch) -> str:
    """One stretch of the chart."""
    first, last = int(stretch.begin) + 1, int(stretch.end - 1e-9) + 1
    when = tr("day {day}", day=first) if first == last else tr("days {first} to {last}", first=first, last=last)
    count, parts = stretch.panels, {"person": stretch.person, "row": stretch.row + 1, "when": when}
    if stretch.doing == "build":
        return trn(
            "{person} builds {n} panel of row {row}, {when}", "{person} builds {n} panels of row {row}, {when}", count, **parts
        )
    return trn("{person} hangs {n} panel of row {row}, {when}", "{person} hangs {n} panels of row {row}, {when}", count, **parts)


def _short(finish: Finish) -> str:
    day = tr("day {day}", day=finish.day)
    return f"{day}, {day_words(finish.on)}" if finish.on else day


def _stages(found: Sequence[Stage]) -> str:
    """``building rows 1 to 7, then hanging row 7``."""
    groups: list[tuple[Doing, list[int]]] = []
    for doing, row in found:
        if groups and groups[-1][0] == doing and abs(groups[-1][1][-1] - row) == 1:
            groups[-1][1].append(row)
        else:
            groups.append((doing, [row]))
    return tr(", then ").join(_rows(doing, rows[0] + 1, rows[-1] + 1) for doing, rows in groups)


def _rows(doing: Doing, first: int, last: int) -> str:
    if doing == "build":
        if first == last:
            return tr("building row {row}", row=first)
        return tr("building rows {first} to {last}", first=first, last=last)
    return tr("hanging row {row}", row=first) if first == last else tr("hanging rows {first} to {last}", first=first, last=last)
