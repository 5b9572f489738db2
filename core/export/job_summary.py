"""The whole job in a few lines to read: bricks, boxes, cost, and when the crew is done."""

from core.buying.order import Buying, gap_in_words
from core.crew.plan import CrewPlan, Finish, person_days
from core.frame import takes_timber
from core.language import tr, trn
from core.whole_job import WholeJob
from core.workforce import Workforce


def job_summary_text(job: WholeJob, crew: CrewPlan | None = None) -> str:
    """What the job takes, a line each: bricks, what to buy, cost as far as prices are known, work and finish.

    ``crew`` is the job's crew plan where that is at hand already; nothing is asked of it before all else is worked out.
    """
    lines = [
        (tr("bricks"), _bricks(job)),
        (tr("to buy"), _to_buy(job.purchasing.buying)),
        (tr("cost"), _cost(job)),
        (tr("crew"), _crew(crew or job.crew, job.setout.room.crew)),
    ]
    widest = max(len(name) for name, _ in lines)
    return "\n".join([tr("What it takes"), *(f"  {name:<{widest}}  {words}" for name, words in lines)])


def _bricks(job: WholeJob) -> str:
    """Everything that clicks together, plugs left out, as the set-out's JSON counts it."""
    total = sum(number for count in job.counted.laid.values() for item, number in count.items() if item.name != "plug")
    if missing := job.counted.without_parts:
        return tr("{bricks} in panels; not bonded: {designs}", bricks=total, designs=", ".join(missing))
    return tr("{bricks} in panels", bricks=total)


def _to_buy(buying: Buying) -> str:
    lines = [*(line for order in buying.orders for line in order.lines), *buying.unsupplied]
    if not lines:
        return tr("nothing")
    boxes = sum(line.packs for line in lines if line.pack > 1)
    singles = sum(line.pieces for line in lines if line.pack == 1)
    mass = sum(line.mass_kg or 0.0 for line in lines)
    if singles:
        return tr("{boxes} boxes, {singles} single pieces, {mass:.0f} kg of parts", boxes=boxes, singles=singles, mass=mass)
    return tr("{boxes} boxes, {mass:.0f} kg of parts", boxes=boxes, mass=mass)


def _cost(job: WholeJob) -> str:
    buying, currency = job.purchasing.buying, job.setout.room.stock.currency
    amount = f"{currency} {buying.total:.2f}".strip()
    known = tr("{amount}, shipping included", amount=amount)
    missing = [] if buying.proof == "proven" else [gap_in_words(buying)]
    if buying.unpriced:
        missing.append(trn("{n} item without a price", "{n} items without a price", len(buying.unpriced)))
    if buying.short:
        missing.append(trn("{n} item not to be had in full", "{n} items not to be had in full", len(buying.short)))
    missing += [tr("designs not bonded are not in it")] if job.counted.without_parts else []
    missing += [tr("timber is not in it")] if takes_timber(job.setout) else []
    return "; ".join([known, *missing] if buying.total or not buying.unpriced else [tr("no prices given")])


def _crew(plan: CrewPlan, crew: Workforce) -> str:
    hours, days = plan.minutes / 60, person_days(plan.minutes, crew)
    if not crew.people:
        return tr("{hours:.1f} hours of work left; nobody is named yet", hours=hours)
    if plan.finish is None:
        return tr(
            "{hours:.1f} hours of work left, {days:.1f} person-days; {panels} panels nobody may finish",
            hours=hours,
            days=days,
            panels=plan.undone,
        )
    return tr(
        "{hours:.1f} hours of work left, {days:.1f} person-days; {people} people, done {when}",
        hours=hours,
        days=days,
        people=len(crew.people),
        when=_when(plan, plan.finish),
    )


def _when(plan: CrewPlan, finish: Finish) -> str:
    if plan.range is None:
        return _day(finish)
    early, late = _day(plan.range.early), _day(plan.range.late)
    return tr("{day} (1 in 10 by {early}, 9 in 10 by {late})", day=_day(finish), early=early, late=late)


def _day(finish: Finish) -> str:
    return finish.on or tr("on working day {day}", day=finish.day)
