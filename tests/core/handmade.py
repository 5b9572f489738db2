"""Set-outs divided by simple rules instead of the solver, so that the sheets' tests meet every kind of panel."""

from collections import Counter

from shapely import MultiPolygon, Point, Polygon, box

from core.room import Room, wall_letter
from core.setout.result import (
    Check,
    CrewMinutes,
    Design,
    Face,
    Mount,
    Panel,
    PanelKind,
    Reveal,
    Ring,
    Row,
    SetOut,
    Tally,
    Timber,
    WallShell,
)


def handmade(room: Room, *, leg: int = 19, width: int = 38, closing_courses: int = 0) -> SetOut:
    """Every wall from its left corner in panels of one width, a closer at the end, openings cut out of whatever they meet."""
    walls = tuple(_wall(room, wall) for wall in range(room.wall_count))
    rows = _rows(room, closing_courses)
    panels: list[Panel] = []
    for shell in walls:
        for row in rows:
            pieces = _pieces(room, walls, shell.wall, row, leg, width)
            for place, (faces, is_plain) in enumerate(pieces, start=1):
                mark = f"{wall_letter(shell.wall)}-{row.index + 1}-{place:02d}"
                panels.append(_panel(mark, row, faces, is_plain, width))
    return _summed(room, walls, rows, tuple(panels))


def _wall(room: Room, wall: int) -> WallShell:
    length = room.wall_length_mm(wall)
    pitches = int((length - 1) // 8)
    packing = (length - 8 * pitches) / 2
    return WallShell(wall, length, pitches, packing, packing, "inside", "inside")


def _rows(room: Room, closing_courses: int) -> tuple[Row, ...]:
    rows: list[Row] = []
    z = 0
    for courses in (*[31] * 40, 15, *([closing_courses] if closing_courses else [])):
        height = 3 * courses + 2
        if (z + height) * 3.2 <= room.clad_height_mm:
            rows.append(Row(len(rows), z, courses, height))
            z += height
    return tuple(rows)


def _pieces(
    room: Room, walls: tuple[WallShell, ...], wall: int, row: Row, leg: int, width: int
) -> list[tuple[tuple[Face, ...], bool]]:
    before, here = walls[wall - 1], walls[wall]
    left = _cut(room, before, row, before.pitches - leg, before.pitches)
    right = _cut(room, here, row, 0, leg)
    found: list[tuple[tuple[Face, ...], bool]] = []
    if left and right:
        found.append(((left[-1], right[0]), all(len(face.outline) == 4 and not face.holes for face in (left[-1], right[0]))))
    x = leg
    while x < here.pitches - leg:
        end = min(x + width, here.pitches - leg)
        found += [((face,), len(face.outline) == 4 and not face.holes) for face in _cut(room, here, row, x, end)]
        x = end
    return found


def _cut(room: Room, shell: WallShell, row: Row, left: int, right: int) -> list[Face]:
    rest: Polygon | MultiPolygon = box(left, row.z_plates, right, row.z_plates + row.height_plates)
    for opening in room.openings:
        if opening.wall == shell.wall:
            edges = [(opening.left_mm - shell.start_mm) / 8, (opening.right_mm - shell.start_mm) / 8]
            heights = [opening.sill_mm / 3.2, opening.head_mm / 3.2]
            rest = rest.difference(box(edges[0] // 1, heights[0] // 3 * 3, -(-edges[1] // 1), -(-heights[1] // 3) * 3))
    parts = [part for part in getattr(rest, "geoms", [rest]) if part.area > 0]
    return [_face(shell.wall, part) for part in parts]


def _face(wall: int, area: Polygon) -> Face:
    left, bottom, right, top = (int(value) for value in area.bounds)
    heights = sorted({2 * bottom + 21, 2 * top - 4 - 21}) if top - bottom > 26 else [bottom + top]
    spots = [(x, height) for x in (left + 1, right - 1) for height in heights]
    mounts = tuple(
        Mount(wall, x, height, None if x % 76 == 1 else "stud") for x, height in spots if area.covers(Point(x, height / 2))
    )
    holes = tuple(_ring(hole.coords) for hole in area.interiors)
    return Face(wall, _ring(area.normalize().exterior.coords), holes, mounts)


def _ring(coords: object) -> Ring:
    return tuple((round(x), round(z)) for x, z in list(coords)[:-1])  # type: ignore[call-overload]


def _panel(mark: str, row: Row, faces: tuple[Face, ...], is_plain: bool, width: int) -> Panel:
    wide = sum(face.right - face.left for face in faces)
    kind: PanelKind = "closer"
    if len(faces) == 2:
        kind = "corner" if is_plain else "shaped-corner"
    elif not is_plain:
        kind = "shaped"
    elif wide == width:
        kind = "full" if row.courses == 31 else "half-height" if row.courses == 15 else "closer"
    return Panel(mark, f"{kind} {wide}x{row.courses}", kind, row.index, 14.0 if is_plain else 19.0, faces)


def _summed(room: Room, walls: tuple[WallShell, ...], rows: tuple[Row, ...], panels: tuple[Panel, ...]) -> SetOut:
    counted = Counter((panel.design, panel.kind) for panel in panels)
    designs = tuple(
        Design(name, kind, count, kind in ("full", "half-height", "corner")) for (name, kind), count in counted.items()
    )
    by_kind = dict(Counter(panel.kind for panel in panels))
    timber = tuple(
        Timber(shell.wall, "stud", x - 19.0, 38.0, 38.0, room.clad_height_mm - 76)
        for shell in walls
        for x in range(19, int(shell.length_mm), 610)
    )
    return SetOut(
        room,
        rows,
        walls,
        panels,
        designs,
        Tally(len(panels), by_kind, sum(not design.in_kit for design in designs)),
        CrewMinutes(10.0 * len(panels), 4.0 * len(panels), 12.0, 0.0, 0.0, 0.0, bound=0.0),
        (Check("warning", "no-timber", "wall B", "12 mounting points have no timber behind them."),),
        tuple(Reveal(opening.id, 4.0, 4.0, 0.0, 0.0) for opening in room.openings),
        timber,
    )
