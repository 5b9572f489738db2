"""From what a person pinned to what is held in a row: places put on the grid, and the wishes that cannot be kept."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from core.language import marked, tr
from core.pins import JointPin, LegPin, PanelPin
from core.room import Room, wall_letter
from core.setout.held import NOTHING_HELD, Held, fits, held_together
from core.setout.kept import Kept
from core.setout.paths import FREE_END, legs_of
from core.setout.result import Row
from core.setout.shell import Shell

_KEEPABLE = Kept(2_000)
_LEGS = {
    "left": marked("a leg of {pitches} pitches at the left end of wall {wall}"),
    "right": marked("a leg of {pitches} pitches at the right end of wall {wall}"),
}


class Wish(NamedTuple):
    """Something to be held on one wall, in the rows that hold ``z_plates``, or in all; and how to speak of it."""

    wall: int
    z_plates: float | None
    held: Held
    text: str

    def concerns(self, row: Row) -> bool:
        """Whether the wish speaks of this row."""
        return self.z_plates is None or row.z_plates <= self.z_plates < row.z_plates + row.height_plates


class Refused(NamedTuple):
    """A wish that cannot be kept, and why."""

    wish: Wish
    why: str


@dataclass(frozen=True)
class Wishes:
    """All wishes for one room; those that no row could keep are left out and told by ``refused``."""

    shell: Shell
    least: int
    full: int
    wanted: tuple[Wish, ...]
    refused: tuple[Refused, ...]

    def held(self, row: Row, before: tuple[Wish, ...] = ()) -> tuple[Held, ...]:
        """What is held in a row, by wall; ``before`` are wishes for just this row that come before those of the room."""
        return tuple(self._kept_on(wall, row, before)[0] for wall in range(len(self.shell.walls)))

    def contradictions(self, row: Row) -> list[Refused]:
        """Wishes for this row that cannot be kept beside those before them."""
        return [refused for wall in range(len(self.shell.walls)) for refused in self._kept_on(wall, row)[1]]

    def _kept_on(self, wall: int, row: Row, before: tuple[Wish, ...] = ()) -> tuple[Held, list[Refused]]:
        wanted = tuple(wish for wish in (*before, *self.wanted) if wish.wall == wall and wish.concerns(row))
        if not wanted:
            return NOTHING_HELD, []
        shell = self.shell.walls[wall]
        key = wanted, shell.pitches, shell.left, shell.right, self.least, self.full
        return _KEEPABLE.get(key, lambda: self._choose(wall, wanted))

    def _choose(self, wall: int, wanted: tuple[Wish, ...]) -> tuple[Held, list[Refused]]:
        if self._can_keep(wall, list(wanted)):
            return held_together(wish.held for wish in wanted), []
        kept: list[Wish] = []
        refused: list[Refused] = []
        for wish in wanted:
            if self._can_keep(wall, [*kept, wish]):
                kept.append(wish)
            else:
                others = "; ".join(other.text for other in kept) or tr("the wall's own ends")
                refused.append(Refused(wish, tr("it cannot be kept beside: {others}", others=others)))
        return held_together(wish.held for wish in kept), refused

    def _can_keep(self, wall: int, wishes: list[Wish]) -> bool:
        shell = self.shell.walls[wall]
        for end in ("left_leg", "right_leg"):
            if len({getattr(wish.held, end) for wish in wishes} - {None}) > 1:
                return False
        legs = legs_of(self.least, self.full)
        left, right = (FREE_END if end == "free" else legs for end in (shell.left, shell.right))
        return fits(held_together(wish.held for wish in wishes), shell.pitches, self.least, self.full, left, right)


def wishes_of(room: Room, shell: Shell) -> Wishes:
    """The pins of a room put on its grid."""
    wanted: list[Wish] = []
    refused: list[Refused] = []
    for wish, fault in _read(room, shell):
        if fault:
            refused.append(Refused(wish, fault))
        else:
            wanted.append(wish)
    kit = room.kit
    return Wishes(shell, kit.least_width_pitches, kit.full_width, tuple(wanted), tuple(refused))


def _read(room: Room, shell: Shell) -> Iterator[tuple[Wish, str]]:
    """Every pin as a wish, with what is wrong with it by itself."""
    for pin in room.pins:
        if pin.kind == "rows":
            continue
        z_plates = None if pin.z_mm is None else pin.z_mm / room.kit.plate_mm
        if pin.wall >= room.wall_count:
            yield (
                Wish(pin.wall, z_plates, NOTHING_HELD, tr("a pin on wall {wall}", wall=wall_letter(pin.wall))),
                tr("the room has no such wall"),
            )
            continue
        held, text, fault = _on_grid(room, shell, pin)
        if pin.z_mm is not None:
            text = tr("{wish}, {height:g} mm up", wish=text, height=pin.z_mm)
        yield Wish(pin.wall, z_plates, held, text), fault


def _on_grid(room: Room, shell: Shell, pin: JointPin | PanelPin | LegPin) -> tuple[Held, str, str]:
    """What the pin holds, what to call it, and what is wrong with it."""
    wall, kit, letter = shell.walls[pin.wall], room.kit, wall_letter(pin.wall)
    least, full = kit.least_width_pitches, kit.full_width

    def pitch(x_mm: float) -> int:
        return round((x_mm - wall.start_mm) / kit.pitch_mm)

    if isinstance(pin, LegPin):
        text = tr(_LEGS[pin.end], pitches=pin.pitches, wall=letter)
        if (wall.left if pin.end == "left" else wall.right) == "free":
            return NOTHING_HELD, text, tr("no corner panel stands at that end, which is not square")
        fault = "" if least <= pin.pitches <= full else tr("legs have {least} to {full} pitches", least=least, full=full)
        return (Held(left_leg=pin.pitches) if pin.end == "left" else Held(right_leg=pin.pitches)), text, fault
    if isinstance(pin, JointPin):
        joint = pitch(pin.x_mm)
        text = tr("a joint at {x:g} mm on wall {wall}", x=pin.x_mm, wall=letter)
        return Held(joints=(joint,)), text, _outside(wall.pitches, joint, joint)
    left = pitch(pin.left_mm)
    text = tr(
        "a panel of {pitches} pitches at {left:g} mm on wall {wall}",
        pitches=pin.width_pitches,
        left=pin.left_mm,
        wall=letter,
    )
    fault = "" if least <= pin.width_pitches <= full else tr("panels are {least} to {full} pitches wide", least=least, full=full)
    right = left + pin.width_pitches
    return Held(spans=((left, right),)), text, fault or _outside(wall.pitches, left, right)


def _outside(pitches: int, left: int, right: int) -> str:
    return "" if left >= 0 and right <= pitches else tr("it lies outside the lining of the wall")
