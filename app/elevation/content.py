"""What one wall's picture shows, as one comparable value: equal contents need no new picture."""

from bisect import bisect_left, bisect_right
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from functools import lru_cache

from app.panel_spans import changed_spans
from core.crew.standing import Place, place_of
from core.kit import Kit
from core.progress import PanelState
from core.room import Opening
from core.setout.result import Face, Panel, PanelKind, Row, SetOut, Timber, WallShell


@dataclass(frozen=True, slots=True)
class PlacedFace:
    """A panel's face on a wall; ``end`` is the wall's end around which the panel goes on: -1 left, 1 right, 0 flat.

    Design names and minutes are not drawn, so a picture does not depend on them: they may change all over the room.
    """

    mark: str
    kind: PanelKind
    row: int
    face: Face
    end: int
    state: PanelState = "to build"


@dataclass(frozen=True, slots=True)
class WallContent:
    """Everything drawn on one wall."""

    shell: WallShell
    faces: tuple[PlacedFace, ...]
    openings: tuple[Opening, ...]
    timber: tuple[Timber, ...]
    rows: tuple[Row, ...]
    clad_height_mm: float
    kit: Kit
    top_mm: float
    """The highest thing to see: the lining's head, a tall opening or the frame."""


def wall_contents(setout: SetOut) -> tuple[WallContent, ...]:
    """The contents of every wall of a set-out, by wall number."""
    return _contents(setout, _placed(setout, dict.fromkeys(range(len(setout.walls)), ())))


def next_contents(contents: tuple[WallContent, ...], before: SetOut, setout: SetOut) -> tuple[WallContent, ...]:
    """The contents of a set-out that follows ``before``, whose ``contents`` are known; what stays equal stays the same object."""
    if len(before.walls) != len(setout.walls):
        return wall_contents(setout)
    faces = {wall: content.faces for wall, content in enumerate(contents)}
    touched = _touched_walls(before.panels, setout.panels) | _walls_with_news(before, setout)
    faces |= _placed(setout, {wall: faces[wall] for wall in touched})
    fresh = _contents(setout, faces)
    return tuple(was if was == now else now for was, now in zip(contents, fresh, strict=True))


Faces = dict[int, tuple[PlacedFace, ...]]
"""The faces of walls by wall number."""


def _placed(setout: SetOut, known: Faces) -> Faces:
    """The faces of the walls that ``known`` names; those of them that stay equal stay the same objects."""
    by_face = {id(placed.face): placed for there in known.values() for placed in there}
    by_mark: dict[tuple[int, str], PlacedFace] = {}
    faces: dict[int, list[PlacedFace]] = {wall: [] for wall in known}
    states = _states(setout)
    noted = {wall for wall, *_ in states}
    for panel in _panels_on(setout, faces):
        state: PanelState = "to build"
        if panel.faces[0].wall in noted:
            state = states.get(place_of(panel), state)
        for face in panel.faces:
            there = faces.get(face.wall)
            if there is None:
                continue
            was = by_face.get(id(face))
            if was is None or was.state != state or was.mark != panel.mark:
                by_mark = by_mark or {(wall, placed.mark): placed for wall, of_wall in known.items() for placed in of_wall}
                fresh = PlacedFace(panel.mark, panel.kind, panel.row, face, _end(panel, face), state)
                was = by_mark.get((face.wall, panel.mark))
                was = was if was == fresh else fresh
            there.append(was)
    return {wall: tuple(placed) for wall, placed in faces.items()}


def _states(setout: SetOut) -> dict[Place, PanelState]:
    """The recorded states by place; panels that are not named are still to build."""
    return {record.place: record.state for record in setout.room.progress.panels}


def _walls_with_news(before: SetOut, setout: SetOut) -> set[int]:
    """Walls with a panel that the crew has brought into another state. A drag changes no record, so it costs nothing there."""
    if before.room.progress is setout.room.progress:
        return set()
    then, now = _states(before), _states(setout)
    changed = {place for place in then.keys() | now.keys() if then.get(place) != now.get(place)}
    return {face.wall for panel in setout.panels if place_of(panel) in changed for face in panel.faces} if changed else set()


def _touched_walls(before: tuple[Panel, ...], now: tuple[Panel, ...]) -> set[int]:
    """Walls with a panel that is not the very same: panels stand in order, so all of these lie in one span of either list."""
    gone, come = ({id(panel): panel for panel in span} for span in changed_spans(before, now))
    changed = (*(gone[n] for n in gone.keys() - come.keys()), *(come[n] for n in come.keys() - gone.keys()))
    return {face.wall for panel in changed for face in panel.faces}


def _panels_on(setout: SetOut, walls: Collection[int]) -> Iterator[Panel]:
    """The panels with a face on any of these walls: a wall's own, and those round the corner at its right end.

    Panels stand in order of the wall that their last face is on.
    """
    count = len(setout.walls)
    for wall in sorted({*walls, *((wall + 1) % count for wall in walls)}):
        begin = bisect_left(setout.panels, wall, key=_wall_of)
        yield from setout.panels[begin : bisect_right(setout.panels, wall, lo=begin, key=_wall_of)]


def _wall_of(panel: Panel) -> int:
    return panel.faces[-1].wall


def _contents(setout: SetOut, faces: Faces) -> tuple[WallContent, ...]:
    timber: list[list[Timber]] = [[] for _ in setout.walls]
    for member in setout.timber:
        timber[member.wall].append(member)
    openings: list[list[Opening]] = [[] for _ in setout.walls]
    for opening in setout.room.openings:
        openings[opening.wall].append(opening)
    return tuple(
        WallContent(
            shell=shell,
            faces=faces[shell.wall],
            openings=tuple(openings[shell.wall]),
            timber=tuple(timber[shell.wall]),
            rows=setout.rows,
            clad_height_mm=setout.room.clad_height_mm,
            kit=setout.room.kit,
            top_mm=_top_mm(setout.room.clad_height_mm, openings[shell.wall], timber[shell.wall]),
        )
        for shell in setout.walls
    )


def _top_mm(clad_height_mm: float, openings: list[Opening], timber: list[Timber]) -> float:
    heads = [opening.head_mm for opening in openings]
    return max([clad_height_mm, *heads, *(member.bottom_mm + member.height_mm for member in timber)])


def _end(panel: Panel, face: Face) -> int:
    """Where a panel goes on round the corner. An opening at the corner may part its leg into several faces on one wall."""
    if len(panel.faces) == 1:
        return 0
    return 1 if face.wall == panel.faces[0].wall else -1


GridBox = tuple[int, int, int, int]
"""Left, bottom, right, top in pitches and plates."""


def grid_box(face: Face) -> GridBox:
    """A face's bounding box on the grid."""
    if len(face.outline) == 4:
        (left, bottom), _, (right, top), _ = face.outline
        return left, bottom, right, top
    return face.left, face.bottom, face.right, face.top


def is_rectangle(face: Face) -> bool:
    return len(face.outline) == 4 and not face.holes


def covers(face: Face, x: float, z: float) -> bool:
    """Whether a grid place lies on the face: inside its outline and in no cut-out."""
    crossings = 0
    for ring in (face.outline, *face.holes):
        for (x0, z0), (x1, z1) in zip(ring, ring[1:] + ring[:1], strict=True):
            if x0 == x1 and x0 > x and min(z0, z1) <= z < max(z0, z1):
                crossings += 1
    return crossings % 2 == 1


def solid_spans(face: Face, x: float) -> list[tuple[int, int]]:
    """Where an upright line at ``x`` (on no vertex) runs over the face: spans of plates, bottom first."""
    if is_rectangle(face):
        left, bottom, right, top = grid_box(face)
        return [(bottom, top)] if left <= x < right else []
    heights = sorted(
        z0
        for ring in (face.outline, *face.holes)
        for (x0, z0), (x1, z1) in zip(ring, ring[1:] + ring[:1], strict=True)
        if z0 == z1 and min(x0, x1) <= x < max(x0, x1)
    )
    return list(zip(heights[::2], heights[1::2], strict=True))


def roomiest_box(face: Face) -> GridBox:
    """The largest upright strip of a shaped face between two of its corners: where its mark is written."""
    return grid_box(face) if is_rectangle(face) else _roomiest_box(Face(0, face.outline, face.holes, ()))


@lru_cache(maxsize=1024)
def _roomiest_box(face: Face) -> GridBox:
    edges = sorted({x for ring in (face.outline, *face.holes) for x, _ in ring})
    best, best_score = grid_box(face), -1
    for i, left in enumerate(edges[:-1]):
        common = solid_spans(face, left + 0.5)
        for right_before, right in zip(edges[i:], edges[i + 1 :], strict=False):
            common = _overlaps(common, solid_spans(face, right_before + 0.5))
            for bottom, top in common:
                score = min((right - left) * 8, (top - bottom) * 10)
                if score > best_score:
                    best, best_score = (left, bottom, right, top), score
    return best


def _overlaps(one: list[tuple[int, int]], other: list[tuple[int, int]]) -> list[tuple[int, int]]:
    pairs = ((max(a, c), min(b, d)) for a, b in one for c, d in other)
    return [(low, high) for low, high in pairs if low < high]
