"""The one way from a room to its set-out."""

from collections import Counter
from collections.abc import Generator
from dataclasses import replace
from typing import cast

from core.progress import Progress
from core.room import Room
from core.setout.assembly import Assembly, assemble
from core.setout.bodies import BuiltTo
from core.setout.built import agrees_with
from core.setout.findings import findings, reveals_of
from core.setout.nearness import Near, nearness
from core.setout.plan import Plan
from core.setout.planning import plan
from core.setout.problem import Problem
from core.setout.result import CrewMinutes, Design, PanelKind, SetOut, Tally
from core.setout.tariff import Tariff
from core.setout.thorough import thorough_plan
from core.setout.workshop import Workshop, workshop_for

KINDS: tuple[PanelKind, ...] = ("full", "half-height", "half-width", "quarter", "corner", "closer", "shaped", "shaped-corner")


BESIDE_THE_PANELS = ("name", "display_units", "parts", "timberwork", "colouring", "stock", "crew")
"""What a room says that no set-out depends on."""


def has_same_panels(one: Room, other: Room) -> bool:
    """Whether two rooms differ at most in what no set-out depends on."""
    return one.model_copy(update={field: getattr(other, field) for field in BESIDE_THE_PANELS}) == other


def solve(room: Room) -> SetOut:
    """Divide a room into panels for the fewest crew minutes.

    Raises RoomError where a wall is too short for the panels that must stand on it; a room no row stack fits comes back
    without panels and with an error check.
    """
    work = solving(room)
    while True:
        try:
            next(work)
        except StopIteration as done:
            return cast(SetOut, done.value)


def solving(room: Room) -> Generator[None, None, SetOut]:
    """The same set-out as ``solve``, worked out a little at a time: some milliseconds between pauses. Raises RoomError."""
    if room.progress.panels:
        unbuilt = yield from _solving(_unbuilt(room))
        if agrees_with(unbuilt.panels, unbuilt.designs, room.progress):
            return replace(unbuilt, room=room)
    return (yield from _solving(room))


def _unbuilt(room: Room) -> Room:
    """The room before anything was built: as long as its set-out agrees with what was, the crew goes on by it."""
    return room.model_copy(update={"progress": Progress()})


def _solving(room: Room) -> Generator[None, None, SetOut]:
    problem = Problem(room)
    workshop = workshop_for(room.kit, room.rates)
    planned = yield from thorough_plan(problem, workshop)
    return _set_out(problem, planned, workshop)


def sketch(room: Room, near: SetOut | None = None) -> SetOut:
    """A set-out for every step of a drag: found quickly, as sound as that of ``solve``, and seldom much dearer.

    ``near`` is a set-out of much the same room: its rows and designs are kept where they still serve. Raises RoomError like
    ``solve``.
    """
    kept = near.divided if near is not None else None
    like = kept if isinstance(kept, Near) and kept.serves(room) else None
    if room.progress.panels and not (like is not None and like.heeds_built):
        unbuilt = _sketch(_unbuilt(room), like)
        if agrees_with(unbuilt.panels, unbuilt.designs, room.progress):
            return replace(unbuilt, room=room)
    return _sketch(room, like)


def _sketch(room: Room, near: Near | None) -> SetOut:
    problem = Problem(room)
    workshop = workshop_for(room.kit, room.rates)
    return _set_out(problem, plan(problem, workshop, near), workshop)


def _set_out(problem: Problem, planned: Plan, workshop: Workshop) -> SetOut:
    assembly = assemble(problem, planned, workshop)
    counts: Counter[BuiltTo] = Counter()
    for division in planned.divisions:
        counts.update(division.built)
    return SetOut(
        room=problem.room,
        rows=planned.rows,
        walls=problem.shell.walls,
        panels=assembly.panels,
        designs=_designs(counts, assembly),
        tally=_tally(counts),
        minutes=_minutes(counts, planned, assembly, workshop.tariff),
        checks=findings(problem, workshop, planned.rows, assembly),
        reveals=reveals_of(problem, planned.rows),
        timber=assembly.timber,
        divided=nearness(problem.room, planned.divisions),
    )


def _designs(counts: Counter[BuiltTo], assembly: Assembly) -> tuple[Design, ...]:
    """Every design, those of the kit first, then by kind and name."""
    found = [Design(assembly.names[design], design.kind, count, design.in_kit) for design, count in counts.items()]
    return tuple(sorted(found, key=lambda d: (not d.in_kit, KINDS.index(d.kind), d.name)))


def _tally(counts: Counter[BuiltTo]) -> Tally:
    kinds: Counter[PanelKind] = Counter()
    for design, count in counts.items():
        kinds[design.kind] += count
    return Tally(counts.total(), {kind: kinds[kind] for kind in KINDS if kinds[kind]}, _not_in_kit(counts))


def _not_in_kit(counts: Counter[BuiltTo]) -> int:
    return sum(not design.in_kit for design in counts)


def _minutes(counts: Counter[BuiltTo], planned: Plan, assembly: Assembly, tariff: Tariff) -> CrewMinutes:
    terms = [division.terms for division in planned.divisions]
    return CrewMinutes(
        build=tariff.minutes(sum(row.build for row in terms)),
        handling=tariff.minutes(sum(row.handling for row in terms)),
        setup=tariff.minutes(tariff.setup * _not_in_kit(counts)),
        sliver=tariff.minutes(sum(row.sliver for row in terms)),
        weak=tariff.minutes(sum(row.weak for row in terms)),
        blocking=tariff.minutes(tariff.blocking * sum(wall_row.bare_mounts for wall_row in assembly.wall_rows)),
        bound=tariff.minutes(planned.at_least),
    )
