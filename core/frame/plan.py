"""The frame behind one set-out: everything to build, cut, pack and drive, worked out when it is asked for and not before."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from core.frame.cutlist import CutList, Piece, cut_list, spliced, stock_of
from core.frame.datum import ring_mm
from core.frame.drift import Drift, drift_of
from core.frame.drift_words import WallDrift, wall_drift
from core.frame.findings import about_frame
from core.frame.hardware import WallScrews, screws_for
from core.frame.hung import as_hung
from core.frame.loads import Loads, loads_of
from core.frame.members import STANDING, Member, TapeMark, members_of, tape_marks
from core.frame.misses import Backed
from core.frame.openings import BoxNote, Escape, Trim, box_notes, escapes, trims
from core.frame.packers import Packers, packers_for
from core.frame.points import Point, points_of
from core.frame.receptacles import FarStretch, unreached
from core.frame.remedies import backed_walls
from core.room import Room
from core.setout.framing import sole_lift_mm
from core.setout.result import Check, SetOut
from core.timberwork import FOOT_MM


@dataclass(frozen=True, slots=True)
class WallFrame:
    """One wall's frame. ``members`` and ``marks`` are empty where it stands already.

    ``points`` are where screws go, moved holes at their new places; ``backed`` speaks of where the designs have them.
    ``lift_mm`` is how far its sole plate stands above the set-out's zero, ``strip_mm`` how thick a strip it therefore lies on.
    """

    wall: int
    is_to_build: bool
    lift_mm: float
    strip_mm: float
    members: tuple[Member, ...]
    marks: tuple[TapeMark, ...]
    points: tuple[Point, ...]
    backed: Backed
    packers: Packers
    screws: WallScrews | None
    drift: WallDrift | None


@dataclass(frozen=True, slots=True)
class FramePlan:
    """The whole room's frame, its timber, its hardware, and what a person must know about both."""

    walls: tuple[WallFrame, ...]
    cuts: CutList
    drift: Drift
    trims: tuple[Trim, ...]
    boxes: tuple[BoxNote, ...]
    escapes: tuple[Escape, ...]
    far_from_outlets: tuple[FarStretch, ...]
    loads: Loads
    checks: tuple[Check, ...]


def plan_of(setout: SetOut, masses: Mapping[str, float] | None = None) -> FramePlan:
    """Everything about the frame of a set-out. ``masses`` are kilograms by design; those missing are estimated from the area.

    Panels with moved holes weigh what their design does, unless their own mass is given.
    """
    room, kit = setout.room, setout.room.kit
    hung = as_hung(setout)
    given = dict(masses or {})
    given = {**{one.name: given[one.design] for one in hung.variants if one.design in given}, **given}
    loads = loads_of(hung.setout, given)
    points = points_of(hung.setout)
    backed = backed_walls(setout)
    walls = tuple(
        _wall_frame(hung.setout, wall, tuple(p for p in points if p.wall == wall), backed[wall], loads.by_design)
        for wall in range(room.wall_count)
    )
    cuts = cut_list(room, (piece for frame in walls for piece in _pieces(room, frame)))
    inset = kit.mounts.inset_pitches * kit.pitch_mm
    drift = drift_of(kit.full_width * kit.pitch_mm, FOOT_MM, room.frame(0).stud_mm, kit.mounts.edge_mm, inset)
    found = FramePlan(walls, cuts, drift, trims(setout), box_notes(setout), escapes(room), unreached(room), loads, ())
    return replace(found, checks=tuple(about_frame(setout, found)))


def takes_timber(setout: SetOut) -> bool:
    """Whether anything is to be cut from timber, which is known without a cut list."""
    walls = range(setout.room.wall_count)
    return any(setout.room.frame(wall).mode == "to_build" for wall in walls) or any(
        backed.doubling or backed.blocks for backed in backed_walls(setout)
    )


def checks_to_heed(setout: SetOut) -> tuple[Check, ...]:
    """What is wrong with the frame of a set-out, or may be; not what is only to be noted. Errors first."""
    return tuple(check for check in plan_of(setout).checks if check.level != "note")


def _wall_frame(setout: SetOut, wall: int, points: tuple[Point, ...], backed: Backed, masses: Mapping[str, float]) -> WallFrame:
    room = setout.room
    frame = room.frame(wall)
    is_to_build = frame.mode == "to_build"
    lift = sole_lift_mm(room, frame.stud_mm) if is_to_build else 0.0
    members = members_of(setout, wall)
    packers = packers_for(setout.walls[wall], points, room.timberwork)
    return WallFrame(
        wall=wall,
        is_to_build=is_to_build,
        lift_mm=lift,
        strip_mm=lift + ring_mm(setout) if is_to_build else 0.0,
        members=members,
        marks=tape_marks(members),
        points=points,
        backed=backed,
        packers=packers,
        screws=screws_for(setout, wall, points, packers, masses),
        drift=wall_drift(room, wall),
    )


def _pieces(room: Room, frame: WallFrame) -> Iterator[Piece]:
    """What is cut for one wall: members, doubling pieces and blocking; long plates in the lengths they are spliced from."""
    longest = max(stock_of(room))
    uprights = [m for m in frame.members if m.name in STANDING]
    for member in frame.members:
        lengths: tuple[float, ...] = (member.length_mm,)
        if member.name in ("sole plate", "top plate"):
            left = member.timber.left_mm
            middles = sorted(m.timber.left_mm + m.timber.width_mm / 2 - left for m in uprights)
            lengths = spliced(member.length_mm, longest, middles)
        for length in lengths:
            for _ in range(member.plies):
                yield Piece(member.name, frame.wall, length, f"{member.number}")
    for piece in frame.backed.doubling:
        yield Piece(piece.member, frame.wall, piece.height_mm, f"{piece.left_mm:.0f}")
    for number, block in enumerate(frame.backed.blocks, start=1):
        yield Piece("blocking", frame.wall, block.length_mm, f"b{number}")
