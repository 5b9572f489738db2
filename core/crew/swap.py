"""Panels taken out for something else, a shelf or a picture: screws, neighbours, order, the insert's size, the timber behind."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from shapely import MultiPolygon, Polygon, box
from shapely.ops import unary_union

from core.errors import RoomError
from core.language import tr
from core.setout.metric import mount_mm, ring_mm
from core.setout.result import Mount, Panel, SetOut, Timber

INSERT_PLAY_MM = 0.5
"""Left free at each edge of an insert. Common practice, no published source."""
_TOUCH_MM = 0.5


@dataclass(frozen=True, slots=True)
class Screw:
    """One screw to take out, in wall-local millimetres; ``timber`` is what it is in, None where it found none."""

    mark: str
    wall: int
    x_mm: float
    z_mm: float
    timber: str | None


@dataclass(frozen=True, slots=True)
class Step:
    """One panel to take out: its screws, and the panel above, whose locating plates it must be pulled clear of."""

    mark: str
    screws: int
    under: tuple[str, ...]
    """Panels above, still hanging, that the panel's cap holds in line: they stay on their own screws."""
    on: tuple[str, ...]
    """Panels below whose locating plates it comes off."""


@dataclass(frozen=True, slots=True)
class Insert:
    """A space that opens on one wall, in wall-local millimetres; ``width`` to ``depth`` are what fits in with play all round.

    ``is_rectangle`` is False where the space is smaller than its box in places; ``outline`` is its real edge.
    """

    wall: int
    left_mm: float
    bottom_mm: float
    width_mm: float
    height_mm: float
    depth_mm: float
    is_rectangle: bool
    outline_mm: tuple[tuple[float, float], ...]
    timber: tuple[Timber, ...]
    """What stands behind it to screw an insert to."""


@dataclass(frozen=True, slots=True)
class Swap:
    """Everything to know before panels come out. ``notes`` are cautions in words."""

    steps: tuple[Step, ...]
    screws: tuple[Screw, ...]
    inserts: tuple[Insert, ...]
    notes: tuple[str, ...]


def swap(setout: SetOut, marks: Iterable[str], timber: Sequence[Timber] | None = None) -> Swap:
    """How to take panels out, from the top down. ``timber`` replaces the set-out's where a frame is known better.

    Raises RoomError for a mark that does not exist, or without any.
    """
    chosen = _chosen(setout, marks)
    order = sorted(chosen, key=lambda panel: (-panel.row, -max(f.top for f in panel.faces), panel.faces[0].wall, panel.mark))
    out: set[str] = set()
    steps: list[Step] = []
    for panel in order:
        under = tuple(other.mark for other in _touching(setout, panel, above=True) if other.mark not in out)
        on = tuple(other.mark for other in _touching(setout, panel, above=False))
        steps.append(Step(panel.mark, sum(len(face.mounts) for face in panel.faces), under, on))
        out.add(panel.mark)
    inserts = _inserts(setout, chosen, setout.timber if timber is None else timber)
    return Swap(tuple(steps), tuple(_screws(setout, order)), inserts, _notes(order, steps, inserts))


def _chosen(setout: SetOut, marks: Iterable[str]) -> list[Panel]:
    panels = {panel.mark: panel for panel in setout.panels}
    wanted = list(dict.fromkeys(marks))
    if not wanted:
        raise RoomError(tr("choose at least one panel to take out"))
    for mark in wanted:
        if mark not in panels:
            raise RoomError(tr("panel {mark} does not exist in this set-out; look the mark up in the panel schedule", mark=mark))
    return [panels[mark] for mark in wanted]


def _touching(setout: SetOut, panel: Panel, *, above: bool) -> list[Panel]:
    """Panels that stand right on this one, or on which it stands."""
    found = []
    for other in setout.panels:
        if other is panel:
            continue
        upper, lower = (other, panel) if above else (panel, other)
        if any(
            one.wall == two.wall and one.bottom == two.top and min(one.right, two.right) > max(one.left, two.left)
            for one in upper.faces
            for two in lower.faces
        ):
            found.append(other)
    return found


def _screws(setout: SetOut, panels: Iterable[Panel]) -> Iterable[Screw]:
    for panel in panels:
        for mount in (mount for face in panel.faces for mount in face.mounts):
            yield _screw(setout, panel.mark, mount)


def _screw(setout: SetOut, mark: str, mount: Mount) -> Screw:
    x_mm, z_mm = mount_mm(setout, mount)
    return Screw(mark, mount.wall, x_mm, z_mm, mount.lands_on)


def _inserts(setout: SetOut, chosen: Iterable[Panel], timber: Sequence[Timber]) -> tuple[Insert, ...]:
    """The spaces that open, panels that touch on a wall making one."""
    areas: defaultdict[int, list[Polygon]] = defaultdict(list)
    for panel in chosen:
        for face in panel.faces:
            holes = [ring_mm(setout, face.wall, hole) for hole in face.holes]
            areas[face.wall].append(Polygon(ring_mm(setout, face.wall, face.outline), holes))
    found: list[Insert] = []
    for wall in sorted(areas):
        whole = unary_union(areas[wall])
        parts = whole.geoms if isinstance(whole, MultiPolygon) else [whole]
        found += [_insert(setout, wall, part, timber) for part in sorted(parts, key=lambda one: one.bounds)]
    return tuple(found)


def _insert(setout: SetOut, wall: int, space: Polygon, timber: Sequence[Timber]) -> Insert:
    kit = setout.room.kit
    left, bottom, right, top = space.bounds
    behind = tuple(
        one
        for one in timber
        if one.wall == wall
        and space.intersection(box(one.left_mm, one.bottom_mm, one.left_mm + one.width_mm, one.bottom_mm + one.height_mm)).area
        > _TOUCH_MM
    )
    return Insert(
        wall=wall,
        left_mm=round(left, 4),
        bottom_mm=round(bottom, 4),
        width_mm=round(right - left - 2 * INSERT_PLAY_MM, 4),
        height_mm=round(top - bottom - 2 * INSERT_PLAY_MM, 4),
        depth_mm=kit.thickness_pitches * kit.pitch_mm,
        is_rectangle=abs(space.area - (right - left) * (top - bottom)) < _TOUCH_MM,
        outline_mm=tuple((round(x, 4), round(z, 4)) for x, z in list(space.exterior.coords)[:-1]),
        timber=behind,
    )


def _notes(order: Sequence[Panel], steps: Sequence[Step], inserts: Sequence[Insert]) -> tuple[str, ...]:
    notes = [
        tr("Power off before panels near an electrical box come out; work on the box is for a licensed electrician."),
        tr("Whether timber and screws carry an insert's load is for a qualified person to judge."),
    ]
    if any(step.under for step in steps):
        notes.append(tr("Panels above stay up on their own screws: check that every one of them is tight before pulling."))
    if any(len(panel.faces) > 1 for panel in order):
        notes.append(tr("A corner panel comes out towards the room's middle, both legs at once: two people."))
    if any(not insert.is_rectangle for insert in inserts):
        notes.append(tr("An opening is not a rectangle: make the insert to its outline, or leave one more panel out."))
    if any(not insert.timber for insert in inserts):
        notes.append(tr("No timber is known behind an opening: cut blocking in before anything is hung there."))
    return tuple(notes)
