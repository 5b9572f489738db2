"""The members of frames to build, named and numbered as a carpenter cuts them: corners closed, cripples told from studs.

At an inside corner the wall to its left runs through: its plates go on by the frame's depth to a corner post, and its last
stud catches the leg on it while the next wall's first stud catches the other leg. At an outside corner the wall to its left
runs through too; its last stud turns its wide side to the next wall and catches that leg, and the next wall's plates and first
stud begin behind it. That holds where both frames are still to be built; beside a standing frame plates end at the corner.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from core.setout.result import SetOut, Timber, WallShell
from core.setout.timber import UPRIGHTS

CORNER_POST = "corner post"
CRIPPLE = "cripple"
STANDING = UPRIGHTS | {CRIPPLE, CORNER_POST}
LEVEL = ("sole plate", "top plate", "header", "sill")


@dataclass(frozen=True, slots=True)
class Member:
    """One member to cut: its number on its wall, what it is, where it stands, and its length along the grain."""

    number: int
    timber: Timber
    plies: int = 1

    @property
    def name(self) -> str:
        return self.timber.member

    @property
    def is_upright(self) -> bool:
        return self.name in STANDING

    @property
    def length_mm(self) -> float:
        return self.timber.height_mm if self.is_upright else self.timber.width_mm


def members_of(setout: SetOut, wall: int) -> tuple[Member, ...]:
    """Members to cut for a wall, uprights first from the left, then level ones from below; none where the frame stands."""
    room = setout.room
    if room.frame(wall).mode != "to_build":
        return ()
    timber = [_named(setout, t) for t in setout.timber if t.wall == wall]
    timber = list(_at_left_corner(setout, wall, _at_right_corner(setout, wall, timber)))
    uprights = sorted((t for t in timber if t.member in STANDING), key=lambda t: (t.left_mm, t.bottom_mm))
    level = sorted((t for t in timber if t.member not in STANDING), key=lambda t: (LEVEL.index(t.member), t.left_mm))
    plies = room.timberwork.header_plies
    return tuple(Member(number, t, plies if t.member == "header" else 1) for number, t in enumerate((*uprights, *level), start=1))


def _named(setout: SetOut, timber: Timber) -> Timber:
    """A stud that an opening cuts short is a cripple."""
    if timber.member != "stud":
        return timber
    right = timber.left_mm + timber.width_mm
    for opening in setout.room.openings:
        is_here = opening.wall == timber.wall and opening.kind in ("door", "window", "niche")
        if is_here and timber.left_mm < opening.right_mm and opening.left_mm < right:
            return replace(timber, member=CRIPPLE)
    return timber


def _runs_on(setout: SetOut, shell: WallShell, *, at_right: bool) -> str | None:
    """The corner at one end of a wall where its frame and the neighbour's are built together; None where they are not."""
    count = setout.room.wall_count
    other = (shell.wall + (1 if at_right else -1)) % count
    kind = shell.right if at_right else shell.left
    return kind if kind != "free" and setout.room.frame(other).mode == "to_build" else None


def _at_right_corner(setout: SetOut, wall: int, timber: Sequence[Timber]) -> Iterator[Timber]:
    """Plates run on past an inside corner to a post of their own."""
    shell, stud = setout.walls[wall], setout.room.frame(wall).stud_mm
    depth = setout.room.timberwork.size.depth_mm
    if _runs_on(setout, shell, at_right=True) != "inside":
        yield from timber
        return
    for t in timber:
        is_at_end = abs(t.left_mm + t.width_mm - shell.length_mm) < 1.0
        yield replace(t, width_mm=t.width_mm + depth) if is_at_end and t.member in ("sole plate", "top plate") else t
    last = [t for t in timber if t.member == "stud" and abs(t.left_mm + t.width_mm - shell.length_mm) < 1.0]
    if depth >= stud:
        yield from (replace(t, member=CORNER_POST, left_mm=shell.length_mm + depth - stud) for t in last)


def _at_left_corner(setout: SetOut, wall: int, timber: Iterator[Timber]) -> Iterator[Timber]:
    """Plates and first stud begin behind the other wall's last stud at an outside corner."""
    shell = setout.walls[wall]
    depth = setout.room.timberwork.size.depth_mm
    if _runs_on(setout, shell, at_right=False) != "outside":
        yield from timber
        return
    found = list(timber)
    taken = [t for t in found if t.member in UPRIGHTS and t.left_mm > 1.0]
    for t in found:
        if t.left_mm > 1.0:
            yield t
        elif t.member in ("sole plate", "top plate") and t.width_mm > depth:
            yield replace(t, left_mm=depth, width_mm=t.width_mm - depth)
        elif t.member == "stud" and not any(o.left_mm < depth + t.width_mm and depth < o.left_mm + o.width_mm for o in taken):
            yield replace(t, left_mm=depth)


@dataclass(frozen=True, slots=True)
class TapeMark:
    """A mark on the plates: the upright's left edge and middle from the frame's left corner, and what stands right of it."""

    left_mm: float
    centre_mm: float
    names: tuple[str, ...]
    numbers: tuple[int, ...]


def tape_marks(members: Sequence[Member]) -> tuple[TapeMark, ...]:
    """One mark for every place uprights stand at, from the left."""
    marks: dict[float, list[Member]] = {}
    for member in members:
        if member.is_upright:
            marks.setdefault(round(member.timber.left_mm, 2), []).append(member)
    return tuple(
        TapeMark(
            left,
            round(left + found[0].timber.width_mm / 2, 2),
            tuple(dict.fromkeys(member.name for member in found)),
            tuple(member.number for member in found),
        )
        for left, found in sorted(marks.items())
    )
