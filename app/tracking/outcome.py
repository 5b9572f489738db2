"""How the job will go, worked out in a process of its own: it must do without Qt, and give what can be sent."""

from dataclasses import dataclass

from app.tracking.burn import Burn, burns
from core.crew.calendar import day_after
from core.crew.forecast import Forecast, burn_down, forecast
from core.crew.plan import Finish
from core.frame import as_hung
from core.language import tr, trn
from core.laying import work_of_cut_panels
from core.setout.result import SetOut
from core.sheets.buying_crew import day_words
from core.workforce import Day


@dataclass(frozen=True, slots=True)
class Outcome:
    """The forecast in words, and its charts."""

    words: str
    burns: tuple[Burn, Burn]


def outcome(setout: SetOut, today: Day) -> Outcome:
    """The forecast as of a day; what was noted that very day counts, and what is left begins the next."""
    setout = as_hung(setout).setout
    own = work_of_cut_panels(setout)
    points = burn_down(setout, own)
    found = forecast(setout, max([today, *(day_after(point.on) for point in points[-1:])]), own)
    return Outcome(outlook_words(setout, found), burns(setout, found, today))


def outlook_words(setout: SetOut, found: Forecast) -> str:
    """The forecast in a few sentences."""
    hours = found.left.minutes * found.pace / 60
    work = tr("{hours:.1f} crew hours of work left at the rates.", hours=hours)
    if not setout.room.crew.people:
        return " ".join([work, tr("Nobody is in the crew yet, so there is no plan to compare with.")])
    if found.planned.finish is None or found.left.finish is None:
        undone = found.left.undone
        return " ".join([work, tr("{n} panels have nobody to build or hang them.", n=undone)])
    planned = tr("Planned end: {day}.", day=_when(found.planned.finish))
    return " ".join([work, planned, _at_the_pace(found, _when(found.left.finish))])


def _at_the_pace(found: Forecast, end: str) -> str:
    """When the work ends at the pace so far, how sure that is, and how it lies to the plan."""
    if found.left.range is not None:
        early, late = _when(found.left.range.early), _when(found.left.range.late)
        end = tr("{day} (8 of 10 cases: {early} to {late})", day=end, early=early, late=late)
    if found.days_late is not None:
        end = _with_delay(end, found.days_late)
    if found.pace == 1.0:
        return tr("At the rates: {end}.", end=end)
    return tr("At {percent:.0f} % of the rates: {end}.", percent=found.pace * 100, end=end)


def _when(finish: Finish) -> str:
    return f"{day_words(finish.on)} {finish.on[:4]}" if finish.on else tr("day {day}", day=finish.day)


def _with_delay(end: str, days: int) -> str:
    if days == 0:
        return tr("{end}, as planned", end=end)
    if days > 0:
        return trn("{end}, {n} working day behind the plan", "{end}, {n} working days behind the plan", days, end=end)
    return trn("{end}, {n} working day ahead of the plan", "{end}, {n} working days ahead of the plan", -days, end=end)
