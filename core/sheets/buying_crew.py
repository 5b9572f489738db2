"""The crew plan as a bar chart: when each row is built and hung, by working days."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from core.crew.calendar import Calendar
from core.crew.plan import Bar, CrewPlan, Finish, person_days
from core.crew.schedule import Doing
from core.crew.stages import stages
from core.crew.work import jobs
from core.drawing import Box, Item, Path, Pen, Text
from core.drawing.hatch import hatch
from core.drawing.items import moved, rectangle
from core.drawing.lettering import text_width_mm
from core.language import marked, tr
from core.setout.result import SetOut
from core.sheets.draft import Draft, drawing_box, page_title, page_words, papers
from core.sheets.flow import Line, gap, heading, paragraph
from core.sheets.listing import list_drafts, list_width, table
from core.sheets.wording import hours
from core.workforce import Workforce

_TITLE_MM = 8.0
_HEAD_MM, _NAMES_MM, _WORDS_MM, _FINISH_MM = 14.0, 58.0, 38.0, 12.0
_LEAST_ROW_MM, _MOST_ROW_MM = 13.0, 20.0
_THIN, _EDGE, _STRONG = Pen(0.13, grey=0.5), Pen(0.35), Pen(0.7)
_HATCH = Pen(0.18)
_HANG_GREY = 0.75
"""Light enough for a heavy black edge to be told from a thin one."""
_WORK: tuple[Doing, ...] = ("build", "hang")
_MONTHS = (
    marked("Jan"),
    marked("Feb"),
    marked("Mar"),
    marked("Apr"),
    marked("May"),
    marked("Jun"),
    marked("Jul"),
    marked("Aug"),
    marked("Sep"),
    marked("Oct"),
    marked("Nov"),
    marked("Dec"),
)
_DAYS = (marked("Mon"), marked("Tue"), marked("Wed"), marked("Thu"), marked("Fri"), marked("Sat"), marked("Sun"))


def crew_sheets(setout: SetOut, plan: CrewPlan) -> list[Draft]:
    """The bar chart with what it rests on; without people, the work by row."""
    if not plan.tasks:
        return list_drafts(setout, "crew", tr("Crew: the work by row"), marked("crew plan"), _work_by_row(setout, plan))
    paper = papers(setout.room.display_units)[1]
    box = drawing_box(paper, has_foot=False)
    height = box.height - _TITLE_MM - _HEAD_MM - _WORDS_MM - _FINISH_MM
    rows = sorted({bar.row for bar in plan.bars})
    fitting = int(height // _LEAST_ROW_MM)
    parts = [rows[begin : begin + fitting] for begin in range(0, len(rows), fitting)]
    row_mm = min(_MOST_ROW_MM, height / min(len(rows), fitting))
    names = _names_mm(plan)
    axis = _Axis(box.left + names, box.right - 4.0, _last_day(plan), row_mm, names)
    found: list[Draft] = []
    for number, some in enumerate(parts, start=1):
        items: list[Item] = [Text((box.left, box.top + 6.0), tr("Crew plan: what is left to do"), 5.0)]
        items += _chart(setout, plan, some, axis, box.top + _TITLE_MM)
        bottom = box.top + _TITLE_MM + _HEAD_MM + row_mm * len(some)
        if number == len(parts):
            items += [
                *_finish(plan, axis, bottom),
                *_placed(_words(setout, plan, box.width), box.left, bottom + _FINISH_MM + 2.0),
            ]
        page = page_words(number, len(parts))
        code = f"crew-{number}" if page else "crew"
        found.append(Draft(code, page_title(tr("Crew plan"), page), marked("crew plan"), paper, tuple(items), page=page))
    return found


def _names_mm(plan: CrewPlan) -> float:
    """Room that the rows' names need beside those of the bars."""
    rows = max(text_width_mm(tr("Row {row}", row=bar.row + 1), 5.0) for bar in plan.bars)
    return max(_NAMES_MM, rows + max(text_width_mm(_bar_words(bar), 3.5) for bar in plan.bars) + 6.0)


def _bar_words(bar: Bar) -> str:
    return f"{tr(bar.doing)} {bar.panels}"


def _last_day(plan: CrewPlan) -> float:
    last = max(bar.end for bar in plan.bars)
    return max(last, float(plan.range.late.day)) if plan.range else last


@dataclass(frozen=True, slots=True)
class _Axis:
    """Working days across the sheet."""

    left: float
    right: float
    days: float
    row_mm: float
    names_mm: float
    """Room for names to the left of the first day."""

    @property
    def bar_mm(self) -> float:
        return self.row_mm * 0.36

    @property
    def day_mm(self) -> float:
        return (self.right - self.left) / max(1.0, -(-self.days // 1))

    def x(self, day: float) -> float:
        return self.left + day * self.day_mm

    @property
    def step(self) -> int:
        """Every how many days are named, so that names keep apart."""
        return next(step for step in (1, 2, 5, 10, 20, 50, 100, 1000, 10_000_000) if step * self.day_mm >= 22)


def _chart(setout: SetOut, plan: CrewPlan, rows: Sequence[int], axis: _Axis, top: float) -> Iterator[Item]:
    """The rows from the top one down, as they hang on the wall, under the days."""
    bottom = top + _HEAD_MM + axis.row_mm * len(rows)
    yield from _days(Calendar(setout.room.crew, plan.starts_on), axis, top, bottom)
    slack = stages(plan, setout.room.crew)
    bars = {(bar.row, bar.doing): bar for bar in plan.bars}
    for place, number in enumerate(sorted(rows, reverse=True)):
        y = top + _HEAD_MM + place * axis.row_mm
        yield Path(((axis.left - axis.names_mm, y), (axis.right, y)), _THIN)
        yield Text((axis.left - axis.names_mm + 1, y + axis.row_mm / 2 + 2.5), tr("Row {row}", row=number + 1), 5.0)
        for lower, doing in enumerate(_WORK):
            if bar := bars.get((number, doing)):
                bar_top = y + axis.row_mm * (0.09 + 0.46 * lower)
                yield Text((axis.left - 2, bar_top + axis.bar_mm / 2 + 1.75), _bar_words(bar), 3.5, "end")
                yield from _bar(bar, axis, bar_top, slack[doing, number].slack)
    yield Path(((axis.left - axis.names_mm, bottom), (axis.right, bottom)), _STRONG)


def _days(calendar: Calendar, axis: _Axis, top: float, bottom: float) -> Iterator[Item]:
    for day in range(int(-(-axis.days // 1)) + 1):
        x = axis.x(day)
        is_named = day % axis.step == 0
        if axis.day_mm >= 2.0 or is_named:
            yield Path(((x, top + _HEAD_MM - (4 if is_named else 1.5)), (x, bottom)), _THIN)
        if is_named and day < axis.days:
            yield Text((x + 1, top + 4.0), tr("day {day}", day=day + 1), 2.5)
            yield Text((x + 1, top + 8.5), day_words(calendar.date_of(day)), 2.5)


def _bar(bar: Bar, axis: _Axis, y: float, slack_minutes: float) -> Iterator[Item]:
    """Building is hatched, hanging solid; what everything waits for has a heavy edge."""
    box = Box(axis.x(bar.begin), y, max(axis.x(bar.end), axis.x(bar.begin) + 0.8), y + axis.bar_mm)
    corners = ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))
    if bar.doing == "hang":
        yield Path(corners, None, closed=True, fill=_HANG_GREY)
    elif box.width > 2:
        yield from hatch(corners, (), 1.8, _HATCH)
    yield rectangle(box, _STRONG if slack_minutes < 1 else _EDGE)


def _finish(plan: CrewPlan, axis: _Axis, top: float) -> Iterator[Item]:
    """The planned end as a heavy stroke and the range it may fall in as an open bar."""
    if plan.range is None:
        return
    y = top + 3.0
    yield Text((axis.left - 2, y + 4.0), tr("finish"), 3.5, "end")
    # A day's end is a whole number on the axis; the range runs from the beginning of the early day to the end of the late one.
    yield rectangle(Box(axis.x(plan.range.early.day - 1), y, axis.x(plan.range.late.day), y + 5.0), _EDGE)
    end = axis.x(max(bar.end for bar in plan.bars))
    yield Path(((end, y - 1.0), (end, y + 6.0)), Pen(1.4))


def day_words(day: str | None) -> str:
    """A date short enough for a column; nothing where there is none."""
    if day is None:
        return ""
    found = date.fromisoformat(day)
    weekday, month = tr(_DAYS[found.weekday()]), tr(_MONTHS[found.month - 1])
    return tr("{weekday} {day} {month}", weekday=weekday, day=found.day, month=month)


def finish_words(finish: Finish) -> str:
    """A finish as day and date."""
    return tr("day {day}", day=finish.day) + (f", {day_words(finish.on)} {finish.on[:4]}" if finish.on else "")


def _words(setout: SetOut, plan: CrewPlan, width: float) -> list[Line]:
    crew = setout.room.crew
    said = [tr("Work left: {hours}.", hours=hours(plan.minutes))]
    if plan.finish:
        said.append(tr("Done on {day}.", day=finish_words(plan.finish)))
    else:
        said.append(
            tr("{panels} panels cannot be finished: nobody in the crew may do a kind of work they need.", panels=plan.undone)
        )
    if plan.range:
        early, late = plan.range.early, plan.range.late
        said.append(
            tr(
                "Of {runs} simulated jobs 1 in 10 ends by {early}, 9 in 10 by {late}: "
                "panels scatter by {spread:g} %, the rates as a whole by {off:g} %.",
                runs=plan.range.runs,
                early=finish_words(early),
                late=finish_words(late),
                spread=crew.spread_percent,
                off=crew.rates_off_percent,
            )
        )
    if crew.learning_rate < 1:
        said.append(_learning(crew))
    people = "; ".join(f"{name} {hours(minutes)}" for name, minutes in plan.by_person.items())
    key = tr(
        "Hatched: building. Grey: hanging. A heavy edge: nothing here may slip without delaying the end. "
        "Finish: the stroke is the plan, the open bar the range."
    )
    return [
        *paragraph(key, width, 3.5),
        gap(1.0),
        *paragraph(" ".join(said), width, 3.5),
        gap(1.0),
        *paragraph(tr("Who does how much: {people}.", people=people), width, 3.5),
    ]


def _learning(crew: Workforce) -> str:
    """One sentence for each model of learning there is."""
    percent = crew.learning_rate * 100
    if crew.learning_model == "unit":
        return tr("Learning: {percent:g} % each time the panels built double, unit model.", percent=percent)
    return tr("Learning: {percent:g} % each time the panels built double, cumulative average model.", percent=percent)


def _placed(lines: Sequence[Line], left: float, top: float) -> Iterator[Item]:
    y = top
    for line in lines:
        yield from (moved(item, left, y) for item in line.items)
        y += line.height_mm


def _work_by_row(setout: SetOut, plan: CrewPlan) -> list[Line]:
    """Without people: panels, building and hanging by row, and what it comes to in days of one person."""
    width = list_width(setout)
    work = jobs(setout, own=plan.own)
    rows = []
    for number in sorted({job.row for job in work}, reverse=True):
        mine = [job for job in work if job.row == number and job.state not in ("hung", "taken out")]
        build = sum(job.build for job in mine if job.state == "to build")
        rows.append([tr("row {row}", row=number + 1), f"{len(mine)}", hours(build), hours(sum(job.hang for job in mine))])
    titles = (tr("row"), tr("panels\nto finish"), tr("building"), tr("hanging and\nblocking"))
    said = paragraph(_unplanned(setout, plan), width, 3.5)
    return [heading(tr("Work left by row, from the top"), width), *table(titles, rows, width), gap(2.0), *said]


def _unplanned(setout: SetOut, plan: CrewPlan) -> str:
    """Why nothing is planned, and how much work that is."""
    if not plan.minutes:
        return tr("All panels hang; nothing is left to plan.")
    if setout.room.crew.people:
        return tr(
            "Work left: {hours}. Nothing can be planned: nobody in the crew may do what comes next, "
            "or it would take over a hundred years.",
            hours=hours(plan.minutes),
        )
    return tr(
        "Work left: {hours}, that is {days:.1f} days of one person at 8 hours. No people are named, so no dates are planned.",
        hours=hours(plan.minutes),
        days=person_days(plan.minutes, setout.room.crew),
    )
