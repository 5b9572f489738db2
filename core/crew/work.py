"""The work a set-out makes, panel by panel in the order in which panels go up."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from core.crew.standing import standing
from core.progress import PanelState
from core.setout.result import Panel, SetOut


@dataclass(frozen=True, slots=True)
class Job:
    """One panel's work in minutes at first-panel pace; set-up is with the first panel of its design, blocking with hanging."""

    mark: str
    design: str
    row: int
    build: float
    hang: float
    state: PanelState


@dataclass(frozen=True, slots=True)
class OwnWork:
    """The work of a panel laid otherwise than its design: how many times as long it takes to build, and the sheet it needs.

    Panels of one ``sheet`` share a set-up, as a design that is not in the kit has one.
    """

    sheet: str
    times: float


def hanging_order(setout: SetOut, *, first_wall: int = 0) -> list[Panel]:
    """Panels as they go up: the bottom row all round from the corner left of ``first_wall``, then the next row."""
    walls = len(setout.walls)

    def key(panel: Panel) -> tuple[int, int]:
        return panel.row, (panel.faces[-1].wall - first_wall) % walls

    return sorted(setout.panels, key=key)


def jobs(
    setout: SetOut, *, first_wall: int = 0, from_scratch: bool = False, own: Mapping[str, OwnWork] | None = None
) -> list[Job]:
    """Every panel's work in hanging order. Slivers and weak panels cost the set-out minutes to avoid them, but are no work.

    ``from_scratch`` leaves out what is recorded as done. ``own`` is the work of panels not laid as their design, by mark.
    """
    rates = setout.room.rates
    states = {} if from_scratch else dict(standing(setout).by_mark)
    needs_setup = {design.name for design in setout.designs if not design.in_kit}
    if not from_scratch:
        needs_setup -= {record.design for record in setout.room.progress.panels if record.is_made}
    needs_setup |= {one.sheet for one in (own or {}).values()}
    found: list[Job] = []
    for panel in hanging_order(setout, first_wall=first_wall):
        mine = (own or {}).get(panel.mark)
        sheet = mine.sheet if mine else panel.design
        setup = rates.setup if sheet in needs_setup else 0.0
        needs_setup.discard(sheet)
        blocking = rates.blocking * sum(mount.lands_on is None for face in panel.faces for mount in face.mounts)
        build = (panel.minutes - rates.handling) * (mine.times if mine else 1.0) + setup
        state = states.get(panel.mark, "to build")
        found.append(Job(panel.mark, panel.design, panel.row, build, rates.handling + blocking, state))
    return found


def minutes_left(work: Iterable[Job]) -> float:
    """Crew minutes still to be done, without practice."""
    return sum(_left(job) for job in work)


def _left(job: Job) -> float:
    if job.state in ("hung", "taken out"):
        return 0.0
    return job.hang + (job.build if job.state == "to build" else 0.0)
