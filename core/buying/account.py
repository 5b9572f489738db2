"""Where every part is: what came in, what is in panels, what lies in the boxes, what is still needed.

For every part, always: received + unrecorded - lost - in panels - needed - spare = left; below nothing, it is short.
Unrecorded is what sits in panels although nobody noted that it came.
"""

import math
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from core.crew.standing import DONE, standing
from core.room import Room
from core.setout.result import SetOut
from core.takeoff import SCREW, Count, Material, TakeOff, in_order, packer, starter_ring
from core.takeoff.material import counted, times


@dataclass(frozen=True, slots=True)
class AccountLine:
    """One material, in pieces."""

    received: int
    lost: int
    in_panels: int
    """In panels that are built, right or wrong, and in the starter ring; screws in those that hang."""
    needed: int
    spare: int

    @property
    def unrecorded(self) -> int:
        """What must have come without being noted: a brick in a panel was somebody's delivery."""
        return max(0, self.lost + self.in_panels - self.received)

    @property
    def on_hand(self) -> int:
        """What lies in the boxes."""
        return self.received + self.unrecorded - self.lost - self.in_panels

    @property
    def left(self) -> int:
        """What stays when all is built and the spares are kept; below nothing where it is short."""
        return self.on_hand - self.needed - self.spare

    @property
    def to_buy(self) -> int:
        return max(0, -self.left)


def account(setout: SetOut, takeoff: TakeOff) -> dict[Material, AccountLine]:
    """The account of every material that is needed, in panels or ever came in. Timber has a list of its own."""
    room = setout.room
    used = in_panels(room)
    needed = still_needed(setout, takeoff)
    received: Count = Counter()
    lost: Count = Counter()
    for line in room.stock.received:
        received[Material(line.part, line.colour)] = line.count
        lost[Material(line.part, line.colour)] = line.lost
    spares = spare(needed, room.stock.spare_percent)
    return {
        material: AccountLine(received[material], lost[material], used[material], needed[material], spares[material])
        for material in in_order({**needed, **used, **received}, room.parts)
    }


def on_hand(room: Room) -> Count:
    """What lies in the boxes of every material that was ever received or counted."""
    used = in_panels(room)
    return Counter(
        {
            Material(line.part, line.colour): max(0, line.count - line.lost - used[Material(line.part, line.colour)])
            for line in room.stock.received
        }
    )


def ring_to_lay(setout: SetOut) -> Count:
    """The plates that the rest of the starter ring takes."""
    found = _summed(starter_ring(setout).by_wall())
    found.subtract(counted(setout.room.progress.ring_laid))
    return +found


def spare(needed: Mapping[Material, int], percent: float) -> Count:
    """So many percent of every count, rounded up to whole pieces."""
    return Counter({material: math.ceil(round(number * percent / 100, 6)) for material, number in needed.items()})


def in_panels(room: Room) -> Count:
    """What sits in panels already, on the wall or off it: their own parts where noted, else the recipe of their design."""
    progress = room.progress
    recipes = {recipe.design: counted(recipe.parts) for recipe in progress.recipes}
    made = Counter(record.design for record in progress.panels if record.is_made and not record.parts)
    hung = Counter(record.design for record in progress.panels if record.state == "hung" and not record.parts)
    found: Count = counted(progress.ring_laid)
    for design, number in made.items():
        recipe = recipes.get(design, Counter())
        found.update(times(recipe, number))
        # One plug to a mounting point, and one screw behind it.
        found[Material(SCREW)] += recipe[Material("plug")] * hung[design]
    for record in progress.panels:
        if record.is_made and record.parts:
            own = counted(record.parts)
            found.update(own)
            if record.state == "hung":
                found[Material(SCREW)] += sum(number for one, number in own.items() if one.name == "plug")
    for wrong in progress.wrong:
        found.update(counted(wrong.parts))
    return +found


def still_needed(setout: SetOut, takeoff: TakeOff) -> Count:
    """What the rest of the room takes: parts of panels to build, screws and packers of panels to hang, the rest of the ring."""
    states = standing(setout).by_mark
    to_build: Counter[int] = Counter()
    built: Counter[int] = Counter()
    kept = {id(count): count for count in takeoff.per_panel.values()}
    for mark, count in takeoff.per_panel.items():
        if states[mark] == "to build":
            to_build[id(count)] += 1
        elif states[mark] not in DONE:
            built[id(count)] += 1
    found: Count = Counter()
    for one, number in to_build.items():
        found.update(times(kept[one], number))
    for one, number in built.items():
        found.update(times(_hardware(kept[one]), number))
    laid = counted(setout.room.progress.ring_laid)
    for count in takeoff.ring.by_wall().values():
        found.update(count)
    for material, number in laid.items():
        found[material] -= min(number, found[material], _summed(takeoff.ring.by_wall())[material])
    return +found


def _summed(counts: Mapping[int, Count]) -> Count:
    total: Count = Counter()
    for count in counts.values():
        total.update(count)
    return total


def _hardware(count: Count) -> Count:
    prefix = packer(0.0).name.partition(" ")[0]
    return Counter({one: number for one, number in count.items() if one.name == SCREW or one.name.startswith(prefix)})
