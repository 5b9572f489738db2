"""From divisions to the panels of the room: marks, faces, mounting points and the timber they land on."""

from collections.abc import Iterator
from dataclasses import dataclass

from core.setout.framing import FrameDesign, design_frame
from core.room import FrameToBuild, wall_letter
from core.setout.bodies import Body, BodyMount, Rings
from core.setout.division import Division, Placed
from core.setout.naming import DesignNames
from core.setout.planning import Plan
from core.setout.problem import Problem
from core.setout.result import Face, Mount, Panel, Timber
from core.setout.tariff import Tariff


@dataclass(frozen=True, slots=True)
class Standing:
    """A body where it stands: the wall its mark names, its left end there, and its row."""

    wall: int
    left: int
    row: int
    placed: Placed
    body: Body


@dataclass(frozen=True)
class Assembly:
    """All panels in order of wall, row and place, what each was made from, and every wall's timber."""

    panels: tuple[Panel, ...]
    standing: tuple[Standing, ...]
    timber: tuple[Timber, ...]


def assemble(problem: Problem, plan: Plan, tariff: Tariff, names: DesignNames) -> Assembly:
    """Name, mark and place every panel of a plan."""
    standing = sorted(
        (s for division in plan.divisions for s in _standing(problem, division)),
        key=lambda s: (s.wall, s.row, s.left, _bottom(s.body)),
    )
    frames = _frames(problem, plan)
    panels: list[Panel] = []
    counter = (-1, -1, 0)
    for s in standing:
        place = counter[2] + 1 if counter[:2] == (s.wall, s.row) else 1
        counter = s.wall, s.row, place
        mark = f"{wall_letter(s.wall)}-{s.row + 1}-{place:02d}"
        panels.append(
            Panel(
                mark=mark,
                design=names.name(s.body),
                kind=s.body.kind,
                row=s.row,
                minutes=tariff.minutes(s.body.build + s.body.handling),
                faces=tuple(_faces(problem, plan.divisions[s.row], s, frames)),
            )
        )
    timber = tuple(t for frame in frames for t in frame.members)
    return Assembly(tuple(panels), tuple(standing), timber)


def _standing(problem: Problem, division: Division) -> Iterator[Standing]:
    row = division.view.row.index
    for wall in range(len(division.joints)):
        for placed, body in division.walls[wall].placed:
            left = placed.begin + _left(body)
            if body.right_faces:
                yield Standing(wall, max(0, left), row, placed, body)
            else:
                before = problem.before(wall)
                yield Standing(before, problem.pitches(before) + left, row, placed, body)


def _left(body: Body) -> int:
    return min(x for outline, *_ in (*body.left_faces, *body.right_faces) for x, _ in outline)


def _bottom(body: Body) -> int:
    return min(z for outline, *_ in (*body.left_faces, *body.right_faces) for _, z in outline)


def _faces(problem: Problem, division: Division, s: Standing, frames: list[FrameDesign]) -> Iterator[Face]:
    before = problem.before(s.placed.wall)
    sides = (
        (before, problem.pitches(before) + s.placed.begin, s.body.left_faces, True),
        (s.placed.wall, s.placed.begin, s.body.right_faces, False),
    )
    bottom = division.view.row.z_plates
    for wall, shift, faces, is_left in sides:
        mounts = [m for m in s.body.mounts if (s.placed.begin + m.x < 0) == is_left]
        for n, rings in enumerate(faces):
            mine = [m for m in mounts if len(faces) == 1 or _holds(rings, m, problem.room.kit.plates_per_course)]
            moved = tuple(tuple((x + shift, z + bottom) for x, z in ring) for ring in rings)
            points = tuple(_mount(problem, division, wall, m, m.x + shift, frames[wall]) for m in mine)
            yield Face(wall, moved[0], moved[1:], points)


def _holds(rings: Rings, mount: BodyMount, plates_per_course: int) -> bool:
    xs = [x for x, _ in rings[0]]
    zs = [z for _, z in rings[0]]
    return min(xs) < mount.x < max(xs) and min(zs) <= mount.course * plates_per_course < max(zs)


def _mount(problem: Problem, division: Division, wall: int, mount: BodyMount, x: int, frame: FrameDesign) -> Mount:
    row = division.view.row
    kit = problem.room.kit
    z_half_plates = 2 * row.z_plates + (2 * mount.course + 1) * kit.plates_per_course
    x_mm = problem.shell.walls[wall].start_mm + x * kit.pitch_mm
    return Mount(wall, x, z_half_plates, frame.lands_on(x_mm, z_half_plates / 2 * kit.plate_mm))


def _frames(problem: Problem, plan: Plan) -> list[FrameDesign]:
    """Every wall's timber: as it stands, or designed to the panels."""
    frames = []
    for wall in range(problem.room.wall_count):
        backing = problem.backings[wall]
        frame = problem.room.frame(wall)
        if backing is not None or not isinstance(frame, FrameToBuild):
            frames.append(FrameDesign(backing.members if backing else (), problem.room.kit.mounts.edge_mm, None))
        else:
            frames.append(design_frame(problem.room, wall, _joints_mm(problem, plan, wall)))
    return frames


def _joints_mm(problem: Problem, plan: Plan, wall: int) -> list[list[float]]:
    """Per row, the panel joints and leg ends of a wall in wall-local millimetres."""
    start, pitch = problem.shell.walls[wall].start_mm, problem.room.kit.pitch_mm
    return [[start + x * pitch for x in division.joints[wall]] for division in plan.divisions]
