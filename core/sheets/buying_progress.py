"""How far the build has come: states by row, what is left against the plan, panels without a place, panels built wrong."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from core.crew.calendar import Calendar, day_after
from core.crew.forecast import Forecast, burn_down, forecast, planned_burn
from core.crew.standing import Orphan, Standing, standing
from core.crew.work import OwnWork
from core.crew.wrong import Use, uses_of
from core.drawing import Item, Path, Pen, Text
from core.language import marked, tr, trn
from core.progress import STATES, WrongPanel
from core.room import wall_letter
from core.setout.metric import x_mm, z_mm
from core.setout.result import SetOut
from core.sheets.buying_crew import day_words, finish_words
from core.sheets.draft import Draft
from core.sheets.flow import Line, gap, heading, paragraph
from core.sheets.listing import list_drafts, list_width, table
from core.units import format_length

_CHART_MM, _LEFT_MM, _RIGHT_MM, _FOOT_MM = 78.0, 14.0, 32.0, 10.0
_THIN, _PLANNED, _DONE = Pen(0.13, grey=0.5), Pen(0.35, (2.0, 1.5)), Pen(0.7)

Point = tuple[float, float]


def progress_sheets(setout: SetOut, own: Mapping[str, OwnWork] | None = None) -> list[Draft]:
    """The progress report; none where nothing has been recorded. ``own`` is the work of panels not laid as their design."""
    progress = setout.room.progress
    if not progress.panels and not progress.wrong:
        return []
    width = list_width(setout)
    now = standing(setout)
    lines = [
        heading(tr("Panels by row, from the top"), width),
        *table((tr("row"), *map(tr, STATES)), _state_rows(setout, now), width),
        *_going(setout, own or {}, width),
        *_orphans(setout, now.orphans, width),
        *_wrong(setout, progress.wrong, width),
    ]
    return list_drafts(setout, "progress", tr("Progress"), marked("progress report"), lines)


def _state_rows(setout: SetOut, now: Standing) -> list[list[str]]:
    counts: dict[int, Counter[str]] = {}
    for panel in setout.panels:
        counts.setdefault(panel.row, Counter())[now.by_mark[panel.mark]] += 1
    rows = [
        [tr("row {row}", row=row + 1), *(_number(counts[row][state]) for state in STATES)] for row in sorted(counts, reverse=True)
    ]
    return [*rows, [tr("room"), *(_number(now.counts[state]) for state in STATES)]]


def _number(count: int) -> str:
    return f"{count}" if count else ""


def _going(setout: SetOut, own: Mapping[str, OwnWork], width: float) -> list[Line]:
    """The burn-down with the forecast, as of the last date on record."""
    points = burn_down(setout, own)
    if not points or not setout.room.crew.people:
        return []
    last = points[-1].on
    found = forecast(setout, day_after(last), own)
    evening = f"{day_words(last)} {last[:4]}"
    lines = [heading(tr("Left to hang, up to the evening of {day}", day=evening), width)]
    if setout.room.crew.starts_on:
        lines.append(Line(_CHART_MM, tuple(_chart(setout, found, width))))
    return [*lines, *paragraph(_forecast_words(found), width, 3.5)]


def _forecast_words(found: Forecast) -> str:
    said = [tr("Pace so far: {percent:.0f} % of the rates.", percent=found.pace * 100)]
    if found.planned.finish:
        said.append(tr("Planned on the first day: {day}.", day=finish_words(found.planned.finish)))
    if found.left.finish and found.left.finish.on:
        end = f"{day_words(found.left.finish.on)} {found.left.finish.on[:4]}"
        said.append(tr("At this pace, not at the crew plan's rates, it ends on {day}.", day=end))
    if found.days_late:
        said.append(_late_words(found.days_late))
    return " ".join(said)


def _late_words(days: int) -> str:
    if days > 0:
        return trn("That is {n} working day late.", "That is {n} working days late.", days)
    return trn("That is {n} working day early.", "That is {n} working days early.", -days)


def _chart(setout: SetOut, found: Forecast, width: float) -> Iterator[Item]:
    """Panels left to hang over working days: dashed as planned, heavy as done."""
    calendar = Calendar(setout.room.crew)
    planned = [(float(day), left) for day, (_, left) in enumerate(planned_burn(setout, found.planned))]
    done = [(0.0, len(setout.panels)), *((calendar.day_of(p.on) + 1.0, p.to_hang) for p in burn_down(setout))]
    days = max(planned[-1][0], done[-1][0], 1.0)
    most = max(1, len(setout.panels))
    right, bottom = width - _RIGHT_MM, _CHART_MM - _FOOT_MM

    def at(day: float, left: float) -> Point:
        return _LEFT_MM + (right - _LEFT_MM) * day / days, 4.0 + (bottom - 4.0) * (1 - left / most)

    for share in (0, 0.5, 1):
        y = at(0, most * share)[1]
        yield Path(((_LEFT_MM, y), (right, y)), _THIN)
        yield Text((_LEFT_MM - 2, y + 1.25), f"{most * share:.0f}", 2.5, "end")
    step = next(step for step in (1, 2, 5, 10, 20, 50, 100, 1000, 100_000) if step * (right - _LEFT_MM) / days >= 24)
    for day in range(0, int(days), step):
        x, y = at(day, 0)
        yield Path(((x, y), (x, y + 2.0)), _THIN)
        yield Text((x, y + 6.0), day_words(calendar.date_of(day)), 2.5)
    for points, pen in ((planned, _PLANNED), (done, _DONE)):
        yield Path(tuple(at(*point) for point in points), pen)
    yield from _keys(right + 3.0)


def _keys(left: float) -> Iterator[Item]:
    for y, pen, name in ((8.0, _PLANNED, tr("planned")), (15.0, _DONE, tr("done"))):
        yield Path(((left, y), (left + 9.0, y)), pen)
        yield Text((left + 11.0, y + 1.25), name, 2.5)


def _orphans(setout: SetOut, orphans: Sequence[Orphan], width: float) -> list[Line]:
    """Panels that exist and have no place: where they are, where they would fit."""
    if not orphans:
        return []
    rows = [[orphan.record.design, tr(orphan.record.state), _place(setout, orphan), _fits(orphan)] for orphan in orphans]
    heads = (tr("design"), tr("state"), tr("was at"), tr("fits at"))
    return [heading(tr("Panels without a place"), width), *table(heads, rows, width, texts=4)]


def _place(setout: SetOut, orphan: Orphan) -> str:
    """The place in words; the pitch as a length where the wall still exists."""
    wall, bottom, left, _ = orphan.record.place
    units = setout.room.display_units
    height = format_length(z_mm(setout.room.kit, bottom), units)
    if wall >= len(setout.walls):
        return tr("a wall that is gone, {height} up", height=height)
    along = format_length(x_mm(setout, wall, left), units)
    return tr("wall {wall}, {along} from the left, {height} up", wall=wall_letter(wall), along=along, height=height)


def _fits(orphan: Orphan) -> str:
    if not orphan.fits:
        return tr("nowhere: take it apart")
    first = orphan.suggestion or orphan.fits[0]
    more = len(orphan.fits) - 1
    return tr("{mark} or {more} more", mark=first, more=more) if more else f"{first}"


def _wrong(setout: SetOut, wrong: Sequence[WrongPanel], width: float) -> list[Line]:
    """Panels that came out wrong, and what they can serve as."""
    if not wrong:
        return []
    rows = []
    for panel in wrong:
        size = f"{'+'.join(map(str, panel.widths_pitches))} x {panel.courses}"
        uses = uses_of(setout, panel)
        words = "; ".join(_use_words(use) for use in uses[:2])
        rows.append([panel.meant_for, size, words or tr("nothing still to build: take it apart")])
    heads = (tr("meant for"), tr("is (pitches\nx courses)"), tr("can serve as"))
    return [heading(tr("Panels built wrong"), width), *table(heads, rows, width, texts=3), gap(1.0)]


def _use_words(use: Use) -> str:
    marks = ", ".join(use.marks[:2])
    if not use.courses_off:
        return f"{use.design} ({marks})"
    return tr("{design}, {courses} courses off ({marks})", design=use.design, courses=use.courses_off, marks=marks)
