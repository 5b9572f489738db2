"""How the job will go, worked out in a process of its own: it must do without Qt, and give what can be sent."""

from dataclasses import dataclass

from app.tracking.burn import Burn, burns
from core.crew.calendar import day_after
from core.crew.forecast import Forecast, burn_down, forecast
from core.crew.plan import Finish
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
    own = work_of_cut_panels(setout)
    points = burn_down(setout, own)
    found = forecast(setout, max([today, *(day_after(point.on) for point in points[-1:])]), own)
    return Outcome(outlook_words(setout, found), burns(setout, found, today))


def outlook_words(setout: SetOut, found: Forecast) -> str:
    """The forecast in a few sentences."""
    hours = found.left.minutes * found.pace / 60
    said = [f"{hours:.1f} crew hours of work left at the rates."]
    if not setout.room.crew.people:
        return " ".join([*said, "Nobody is in the crew yet, so there is no plan to compare with."])
    if found.planned.finish is None or found.left.finish is None:
        return " ".join([*said, f"{found.left.undone} panels have nobody to build or hang them."])
    said.append(f"Planned end: {_when(found.planned.finish)}.")
    pace = f"{found.pace * 100:.0f} % of the rates" if found.pace != 1.0 else "the rates"
    said.append(f"At {pace}: {_when(found.left.finish)}")
    if found.left.range is not None:
        early, late = found.left.range.early, found.left.range.late
        said[-1] += f" (8 of 10 cases: {_when(early)} to {_when(late)})"
    said[-1] += f", {_late_words(found.days_late)}." if found.days_late is not None else "."
    return " ".join(said)


def _when(finish: Finish) -> str:
    return f"{day_words(finish.on)} {finish.on[:4]}" if finish.on else f"day {finish.day}"


def _late_words(days: int) -> str:
    if days == 0:
        return "as planned"
    size = f"{abs(days)} working day{'s' if abs(days) != 1 else ''}"
    return f"{size} behind the plan" if days > 0 else f"{size} ahead of the plan"
