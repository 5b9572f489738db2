"""The whole job in a few lines to read: bricks, boxes, cost, and when the crew is done."""

from core.buying.order import Buying, gap_in_words
from core.crew.plan import CrewPlan, Finish, person_days
from core.whole_job import WholeJob


def job_summary_text(job: WholeJob) -> str:
    """What the job takes, a line each: bricks, what to buy, cost as far as prices are known, work and finish."""
    lines = [("bricks", _bricks(job)), ("to buy", _to_buy(job.purchasing.buying)), ("cost", _cost(job)), ("crew", _crew(job))]
    return "\n".join(["What it takes", *(f"  {name:<6}  {words}" for name, words in lines)])


def _bricks(job: WholeJob) -> str:
    """Everything that clicks together, plugs left out, as the set-out's JSON counts it."""
    total = sum(number for count in job.takeoff.laid.values() for item, number in count.items() if item.name != "plug")
    missing = job.takeoff.without_parts
    return f"{total} in panels" + (f"; not bonded: {', '.join(missing)}" if missing else "")


def _to_buy(buying: Buying) -> str:
    lines = [*(line for order in buying.orders for line in order.lines), *buying.unsupplied]
    if not lines:
        return "nothing"
    boxes = sum(line.packs for line in lines if line.pack > 1)
    singles = sum(line.pieces for line in lines if line.pack == 1)
    mass = sum(line.mass_kg or 0.0 for line in lines)
    loose = f", {singles} single pieces" if singles else ""
    return f"{boxes} boxes{loose}, {mass:.0f} kg of parts"


def _cost(job: WholeJob) -> str:
    buying, currency = job.purchasing.buying, job.setout.room.stock.currency
    known = f"{currency} {buying.total:.2f}".strip() + ", shipping included"
    missing = [] if buying.proof == "proven" else [gap_in_words(buying)]
    missing += [f"{_items(len(buying.unpriced))} without a price"] if buying.unpriced else []
    missing += [f"{_items(len(buying.short))} not to be had in full"] if buying.short else []
    missing += ["designs not bonded are not in it"] if job.takeoff.without_parts else []
    missing += ["timber is not in it"] if job.takeoff.timber else []
    return "; ".join([known, *missing] if buying.total or not buying.unpriced else ["no prices given"])


def _items(count: int) -> str:
    return f"{count} item{'' if count == 1 else 's'}"


def _crew(job: WholeJob) -> str:
    plan, crew = job.crew, job.setout.room.crew
    work = f"{plan.minutes / 60:.1f} hours of work left"
    if not crew.people:
        return f"{work}; nobody is named yet"
    days = f"{work}, {person_days(plan.minutes, crew):.1f} person-days"
    if plan.finish is None:
        return f"{days}; {plan.undone} panels nobody may finish"
    return f"{days}; {len(crew.people)} people, done {_when(plan)}"


def _when(plan: CrewPlan) -> str:
    if plan.finish is None or plan.range is None:
        return _day(plan.finish) if plan.finish else "never"
    return f"{_day(plan.finish)} (1 in 10 by {_day(plan.range.early)}, 9 in 10 by {_day(plan.range.late)})"


def _day(finish: Finish) -> str:
    return finish.on or f"on working day {finish.day}"
