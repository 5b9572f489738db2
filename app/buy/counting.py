"""What buying rests on, without a window: the parts of every design, the take-off, the account and the orders."""

from collections.abc import Generator, Mapping
from dataclasses import dataclass, replace

from app.colour.finishing import finishing
from core.bond import StockError, bond_of
from core.bond.bonds import first_panels
from core.buying import AccountLine, Purchasing, account, purchasing
from core.edits.revise import revise
from core.frame import as_hung
from core.setout.result import SetOut
from core.takeoff import Material, TakeOff, take_off


@dataclass(frozen=True)
class Needs:
    """What a set-out takes and how much of it there is; ``faults`` say which designs the stocked parts cannot fill."""

    setout: SetOut
    takeoff: TakeOff
    lines: Mapping[Material, AccountLine]
    faults: tuple[str, ...]


def counting(setout: SetOut) -> Generator[None, None, Needs]:
    """The needs of a set-out, one design at each step."""
    parts: dict[str, Mapping[str, int]] = {}
    faults: list[str] = []
    hung = as_hung(setout).setout
    yield
    for name, panel in first_panels(hung).items():
        try:
            parts[name] = bond_of(hung, panel).parts
        except StockError as error:
            faults.append(str(error))
        yield
    finishes = yield from finishing(setout)
    takeoff = take_off(hung, parts, own={mark: finish.parts for mark, finish in finishes.by_mark.items()})
    yield
    return Needs(setout, takeoff, account(hung, takeoff), tuple(faults))


def orders_of_least_cost(setout: SetOut, takeoff: TakeOff) -> Purchasing:
    """What to order, whatever the budget: the answer that a person waits for."""
    room = setout.room
    found = purchasing(replace(setout, room=revise(room, stock=revise(room.stock, budget=None))), takeoff)
    return replace(found, budget=room.stock.budget)
