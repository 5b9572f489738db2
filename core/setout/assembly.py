"""From divisions to the panels of the room: marks, faces, mounting points and the timber they land on."""

from collections.abc import Iterator
from dataclasses import dataclass

from core.room import wall_letter
from core.setout.bodies import Body, BodyMount, Rings
from core.setout.division import Division, Placed
from core.setout.framing import FrameDesign, design_frame
from core.setout.naming import DesignNames
from core.setout.planning import Plan
from core.setout.problem import Problem
from core.setout.result import Face, Mount, Panel, Timber
from core.setout.workshop import Workshop


@dataclass(frozen=True, slots=True)
class Standing:
    """A body where it stands: the wall its mark names, its left end there, the faces it shows."""

    wall: int
    left: int
    body: Body
    faces: tuple[Face, ...]


@dataclass(frozen=True)
class Assembly:
    """All panels in order of wall, row and place, what each was made from, and every wall's timber."""

    panels: tuple[Panel, ...]
    bodies: tuple[Body, ...]
    timber: tuple[Timber, ...]


@dataclass(frozen=True, slots=True)
class _Frame:
    """A wall's frame design with a number that tells it from others."""

    serial: int
    design: FrameDesign


def assemble(problem: Problem, plan: Plan, workshop: Workshop, names: DesignNames) -> Assembly:
    """Name, mark and place every panel of a plan."""
    return _Assembler(problem, plan, workshop).assembly(names)


class _Assembler:
    def __init__(self, problem: Problem, plan: Plan, workshop: Workshop) -> None:
        self._problem = problem
        self._plan = plan
        self._workshop = workshop
        self._frames = [self._frame(wall) for wall in range(problem.room.wall_count)]

    def assembly(self, names: DesignNames) -> Assembly:
        panels: list[Panel] = []
        bodies: list[Body] = []
        placed = [self._rows_standing(division) for division in self._plan.divisions]
        for wall in range(self._problem.room.wall_count):
            for row, by_wall in enumerate(placed):
                for place, standing in enumerate(by_wall[wall], start=1):
                    mark = f"{wall_letter(wall)}-{row + 1}-{place:02d}"
                    panels.append(self._panel(mark, row, standing, names))
                    bodies.append(standing.body)
        timber = tuple(t for frame in self._frames for t in frame.design.members)
        return Assembly(tuple(panels), tuple(bodies), timber)

    def _panel(self, mark: str, row: int, standing: Standing, names: DesignNames) -> Panel:
        body = standing.body
        minutes = self._workshop.tariff.minutes(body.build + body.handling)
        return Panel(mark, names.name(body), body.kind, row, minutes, standing.faces)

    def _rows_standing(self, division: Division) -> list[list[Standing]]:
        """What stands on each wall in one row, from left to right and from below."""
        by_wall: list[list[Standing]] = [[] for _ in self._frames]
        for wall in range(len(self._frames)):
            for standing in self._standing(division, wall):
                by_wall[standing.wall].append(standing)
        for standings in by_wall:
            standings.sort(key=lambda s: (s.left, s.faces[0].bottom))
        return by_wall

    def _standing(self, division: Division, wall: int) -> tuple[Standing, ...]:
        before = self._problem.before(wall)
        panels, row = division.walls[wall], division.view.row
        key = ("standing", panels.serial, row.z_plates, self._frames[before].serial, self._frames[wall].serial)
        return self._workshop.walls.get(key, lambda: tuple(self._stand(division, placed, body) for placed, body in panels.placed))

    def _stand(self, division: Division, placed: Placed, body: Body) -> Standing:
        faces = tuple(self._faces(division, placed, body))
        left = min(x for outline, *_ in (*body.left_faces, *body.right_faces) for x, _ in outline) + placed.begin
        if body.right_faces:
            return Standing(placed.wall, max(0, left), body, faces)
        before = self._problem.before(placed.wall)
        return Standing(before, self._problem.pitches(before) + left, body, faces)

    def _faces(self, division: Division, placed: Placed, body: Body) -> Iterator[Face]:
        before = self._problem.before(placed.wall)
        sides = (
            (before, self._problem.pitches(before) + placed.begin, body.left_faces, True),
            (placed.wall, placed.begin, body.right_faces, False),
        )
        bottom = division.view.row.z_plates
        for wall, shift, faces, is_left in sides:
            mounts = [m for m in body.mounts if (placed.begin + m.x < 0) == is_left]
            for rings in faces:
                mine = [m for m in mounts if len(faces) == 1 or self._holds(rings, m)]
                moved = tuple(tuple((x + shift, z + bottom) for x, z in ring) for ring in rings)
                yield Face(wall, moved[0], moved[1:], tuple(self._mount(division, wall, m, m.x + shift) for m in mine))

    def _holds(self, rings: Rings, mount: BodyMount) -> bool:
        xs = [x for x, _ in rings[0]]
        zs = [z for _, z in rings[0]]
        course_bottom = mount.course * self._problem.room.kit.plates_per_course
        return min(xs) < mount.x < max(xs) and min(zs) <= course_bottom < max(zs)

    def _mount(self, division: Division, wall: int, mount: BodyMount, x: int) -> Mount:
        kit = self._problem.room.kit
        z_half_plates = 2 * division.view.row.z_plates + (2 * mount.course + 1) * kit.plates_per_course
        x_mm = self._problem.shell.walls[wall].start_mm + x * kit.pitch_mm
        lands_on = self._frames[wall].design.lands_on(x_mm, z_half_plates / 2 * kit.plate_mm)
        return Mount(wall, x, z_half_plates, lands_on)

    def _frame(self, wall: int) -> _Frame:
        """A wall's timber: as it stands, or designed to the panels."""
        room, backing = self._problem.room, self._problem.backings[wall]
        start, pitch = self._problem.shell.walls[wall].start_mm, room.kit.pitch_mm
        joints = () if backing else tuple(division.joints[wall] for division in self._plan.divisions)
        openings = tuple(o for o in room.openings if o.wall == wall)
        measures = start, room.wall_length_mm(wall), room.clad_height_mm

        def make() -> _Frame:
            if backing is not None:
                return _Frame(self._workshop.next_serial(), FrameDesign(backing.members, backing.edge_mm, None))
            joints_mm = [[start + x * pitch for x in row] for row in joints]
            return _Frame(self._workshop.next_serial(), design_frame(room, wall, joints_mm))

        return self._workshop.walls.get(("frame", wall, room.frame(wall), measures, openings, joints), make)
