"""The whole purchase of a set-out, and what would bring it under its budget."""

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from core.buying.account import AccountLine, account, spare
from core.buying.least_cost import buy
from core.buying.order import Buying
from core.language import tr
from core.setout.result import SetOut
from core.takeoff import Count, Material, TakeOff


@dataclass(frozen=True, slots=True)
class Way:
    """Something that would make the purchase cheaper, and by how much."""

    text: str
    saves: float
    is_enough: bool


@dataclass(frozen=True)
class Purchasing:
    """What is where, what to order, and how that compares with the budget."""

    lines: Mapping[Material, AccountLine]
    buying: Buying
    budget: float | None
    ways: tuple[Way, ...]

    @property
    def over(self) -> float:
        """By how much the known prices exceed the budget; below nothing is what is left of it, nothing without a budget."""
        return 0.0 if self.budget is None else round(self.buying.total - self.budget, 4)


def purchasing(setout: SetOut, takeoff: TakeOff) -> Purchasing:
    """What a set-out still needs and the cheapest way to get it. Timber has a cut list of its own and is not bought here."""
    lines = account(setout, takeoff)
    stock = setout.room.stock
    buying = _bought(setout, {material: line.to_buy for material, line in lines.items()})
    budget = stock.budget
    is_over = budget is not None and buying.total > budget
    return Purchasing(lines, buying, budget, _ways(setout, takeoff, lines, buying) if is_over else ())


def _bought(setout: SetOut, needs: Mapping[Material, int]) -> Buying:
    return buy(needs, setout.room.stock.suppliers, setout.room.parts)


def _ways(setout: SetOut, takeoff: TakeOff, lines: Mapping[Material, AccountLine], buying: Buying) -> tuple[Way, ...]:
    """Fewer spares, then the fewest of the topmost rows that must be bought later to meet the budget."""
    budget = setout.room.stock.budget or 0.0
    percent = setout.room.stock.spare_percent

    def way(text: str, needs: Mapping[Material, int]) -> Way:
        total = _bought(setout, needs).total
        return Way(text, round(buying.total - total, 4), total <= budget)

    def without_rows(rows: Sequence[int]) -> Way:
        return way(_later_words(rows), _needs(lines, percent, _later(takeoff, rows)))

    found: list[Way] = []
    for less in dict.fromkeys((percent / 2, 0.0)) if percent else ():
        if not any(one.is_enough for one in found):
            found.append(way(tr("{less:g} % spares instead of {percent:g} %", less=less, percent=percent), _needs(lines, less)))
    rows = sorted(takeoff.by_row, reverse=True)[:-1]
    if rows:
        enough = bisect_left(range(1, len(rows) + 1), True, key=lambda count: without_rows(rows[:count]).is_enough)
        found.append(without_rows(rows[: enough + 1]))
    return tuple(one for one in found if one.saves > 0)


def _later(takeoff: TakeOff, rows: Iterable[int]) -> Count:
    """What the panels of some rows take."""
    found: Count = Counter()
    for row in rows:
        found.update(takeoff.by_row[row])
    return found


def _later_words(rows: Sequence[int]) -> str:
    """Rows come from the top down."""
    top, bottom = rows[0] + 1, rows[-1] + 1
    return (
        tr("row {top} bought later", top=top)
        if top == bottom
        else tr("rows {bottom} to {top} bought later", bottom=bottom, top=top)
    )


def _needs(
    lines: Mapping[Material, AccountLine], percent: float, later: Mapping[Material, int] | None = None
) -> dict[Material, int]:
    """What to buy with other spares and some of the needs put off."""
    needed = {material: max(0, line.needed - (later or {}).get(material, 0)) for material, line in lines.items()}
    spares = spare(needed, percent)
    return {material: max(0, needed[material] + spares[material] - line.on_hand) for material, line in lines.items()}
