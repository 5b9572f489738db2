"""The whole purchase of a set-out, and what would bring it under its budget."""

from collections.abc import Mapping
from dataclasses import dataclass

from core.buying.account import AccountLine, account, spare
from core.buying.least_cost import buy
from core.buying.order import Buying
from core.setout.result import SetOut
from core.takeoff import Material, TakeOff


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
    lines = {material: line for material, line in account(setout, takeoff).items() if material not in takeoff.timber}
    stock = setout.room.stock
    buying = _bought(setout, {material: line.to_buy for material, line in lines.items()})
    budget = stock.budget
    is_over = budget is not None and buying.total > budget
    return Purchasing(lines, buying, budget, _ways(setout, takeoff, lines, buying) if is_over else ())


def _bought(setout: SetOut, needs: Mapping[Material, int]) -> Buying:
    return buy(needs, setout.room.stock.suppliers, setout.room.parts)


def _ways(setout: SetOut, takeoff: TakeOff, lines: Mapping[Material, AccountLine], buying: Buying) -> tuple[Way, ...]:
    """Fewer spares, then the topmost rows bought later, one after the other until the budget is met."""
    budget = setout.room.stock.budget or 0.0
    percent = setout.room.stock.spare_percent
    found: list[Way] = []

    def add(text: str, needs: Mapping[Material, int]) -> bool:
        total = _bought(setout, needs).total
        saves = round(buying.total - total, 4)
        if saves > 0:
            found.append(Way(text, saves, total <= budget))
        return total <= budget

    if percent:
        for less in dict.fromkeys((percent / 2, 0.0)):
            if add(f"{less:g} % spares instead of {percent:g} %", _needs(lines, less)):
                break
    later: dict[Material, int] = {}
    for row in sorted(takeoff.by_row, reverse=True)[:-1]:
        for material, number in takeoff.by_row[row].items():
            later[material] = later.get(material, 0) + number
        first = f"row {row + 1}" if row == max(takeoff.by_row) else f"rows {row + 1} to {max(takeoff.by_row) + 1}"
        if add(f"{first} bought later", _needs(lines, percent, later)):
            break
    return tuple(found)


def _needs(
    lines: Mapping[Material, AccountLine], percent: float, later: Mapping[Material, int] | None = None
) -> dict[Material, int]:
    """What to buy with other spares and some of the needs put off."""
    needed = {material: max(0, line.needed - (later or {}).get(material, 0)) for material, line in lines.items()}
    spares = spare(needed, percent)
    return {material: max(0, needed[material] + spares[material] - line.on_hand) for material, line in lines.items()}
