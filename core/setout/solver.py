"""The one way from a room to its set-out."""

from collections import Counter

from core.room import Room
from core.setout.assembly import Assembly, assemble
from core.setout.findings import findings, reveals_of
from core.setout.naming import DesignNames
from core.setout.planning import plan
from core.setout.problem import Problem
from core.setout.result import CrewMinutes, Design, SetOut, Tally
from core.setout.tariff import Tariff
from core.setout.workshop import workshop_for


def solve(room: Room) -> SetOut:
    """Divide a room into panels for the fewest crew minutes.

    Raises RoomError where a wall is too short for the panels that must stand on it; a room no row stack fits comes back
    without panels and with an error check.
    """
    problem = Problem(room)
    workshop = workshop_for(room.kit, room.rates)
    planned = plan(problem, workshop)
    names = DesignNames()
    assembly = assemble(problem, planned, workshop, names)
    designs = _designs(assembly)
    return SetOut(
        room=room,
        rows=planned.rows,
        walls=problem.shell.walls,
        panels=assembly.panels,
        designs=designs,
        tally=_tally(assembly, designs),
        minutes=_minutes(assembly, designs, workshop.tariff),
        checks=findings(problem, planned.rows, assembly),
        reveals=reveals_of(problem, planned.rows),
        timber=assembly.timber,
    )


def _designs(assembly: Assembly) -> tuple[Design, ...]:
    """Every design in order of first appearance."""
    counts = Counter(panel.design for panel in assembly.panels)
    found: dict[str, Design] = {}
    for panel, body in zip(assembly.panels, assembly.bodies, strict=True):
        if panel.design not in found:
            found[panel.design] = Design(panel.design, panel.kind, counts[panel.design], body.in_kit)
    return tuple(found.values())


def _tally(assembly: Assembly, designs: tuple[Design, ...]) -> Tally:
    kinds = Counter(panel.kind for panel in assembly.panels)
    return Tally(len(assembly.panels), dict(sorted(kinds.items())), sum(not design.in_kit for design in designs))


def _minutes(assembly: Assembly, designs: tuple[Design, ...], tariff: Tariff) -> CrewMinutes:
    bodies = assembly.bodies
    bare = sum(m.lands_on is None for panel in assembly.panels for face in panel.faces for m in face.mounts)
    return CrewMinutes(
        build=tariff.minutes(sum(body.build for body in bodies)),
        handling=tariff.minutes(sum(body.handling for body in bodies)),
        setup=tariff.minutes(tariff.setup * sum(not design.in_kit for design in designs)),
        sliver=tariff.minutes(sum(body.sliver for body in bodies)),
        weak=tariff.minutes(sum(body.weak for body in bodies)),
        blocking=tariff.minutes(tariff.blocking * bare),
    )
