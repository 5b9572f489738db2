"""What one wall's picture shows, as one comparable value: equal contents need no new picture."""

from dataclasses import dataclass, field

from core.kit import Kit
from core.room import Opening
from core.setout.result import Face, Panel, PanelKind, Row, SetOut, Timber, WallShell


@dataclass(frozen=True, slots=True)
class PlacedFace:
    """A panel's face on a wall; ``end`` is the wall's end around which the panel goes on: -1 left, 1 right, 0 flat.

    Design names and minutes are not drawn, so a picture does not depend on them: they may change all over the room.
    """

    panel: Panel = field(compare=False)
    mark: str
    kind: PanelKind
    row: int
    face: Face
    end: int

    @classmethod
    def of(cls, panel: Panel, face: Face, end: int) -> "PlacedFace":
        return cls(panel, panel.mark, panel.kind, panel.row, face, end)


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


def wall_contents(setout: SetOut) -> tuple[WallContent, ...]:
    """The contents of every wall of a set-out, by wall number."""
    faces: list[list[PlacedFace]] = [[] for _ in setout.walls]
    for panel in setout.panels:
        for face in panel.faces:
            faces[face.wall].append(PlacedFace.of(panel, face, _end(panel, face)))
    timber: list[list[Timber]] = [[] for _ in setout.walls]
    for member in setout.timber:
        timber[member.wall].append(member)
    room = setout.room
    return tuple(
        WallContent(
            shell=shell,
            faces=tuple(faces[shell.wall]),
            openings=tuple(opening for opening in room.openings if opening.wall == shell.wall),
            timber=tuple(timber[shell.wall]),
            rows=setout.rows,
            clad_height_mm=room.clad_height_mm,
            kit=room.kit,
        )
        for shell in setout.walls
    )


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
    heights = sorted(
        z0
        for ring in (face.outline, *face.holes)
        for (x0, z0), (x1, z1) in zip(ring, ring[1:] + ring[:1], strict=True)
        if z0 == z1 and min(x0, x1) <= x < max(x0, x1)
    )
    return list(zip(heights[::2], heights[1::2], strict=True))


def roomiest_box(face: Face) -> GridBox:
    """The largest upright strip of a shaped face between two of its corners: where its mark is written."""
    if is_rectangle(face):
        return grid_box(face)
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
