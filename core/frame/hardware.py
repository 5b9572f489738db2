"""The screw for every wall: what is asked of it, which of the catalogue do, and why the others do not."""

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from core.frame.figure import Figure
from core.frame.packers import Packers
from core.frame.points import Point
from core.frame.screws import LATERAL_SOURCE, Duty, ScrewVerdict, judge
from core.language import tr
from core.room import Room
from core.setout.metric import face_box_mm
from core.setout.result import SetOut
from core.timberwork import Screw

GRAVITY_N_PER_KG = 9.80665


@dataclass(frozen=True, slots=True)
class WallScrews:
    """One wall's screws: the chosen one's verdict, None where none does, and how many points take each length."""

    wall: int
    duty: Duty
    verdicts: tuple[ScrewVerdict, ...]
    chosen: ScrewVerdict | None
    lengths: Mapping[float, int]
    unheld: int
    """Points whose packing no made length suits."""


def screws_for(
    setout: SetOut, wall: int, points: Sequence[Point], packers: Packers, masses: Mapping[str, float]
) -> WallScrews | None:
    """The screws of one wall; None where it has no mounting points. ``masses`` are kilograms by design."""
    if not points:
        return None
    room = setout.room
    duty = _duty(setout, wall, points, packers, masses)
    verdicts = tuple(judge(screw, duty, room.timberwork) for screw in room.timberwork.screws)
    chosen = _chosen(verdicts, room.timberwork.screw)
    lengths: Counter[float] = Counter()
    unheld = 0
    screw = chosen.screw if chosen else _best_effort(verdicts)
    for thickness, count in sorted(Counter(packers.thickness_mm).items()):
        length = chosen.length_mm if chosen else _length_at(screw, duty, thickness, room) if screw else None
        if length is None:
            unheld += count
        else:
            lengths[length] += count
    return WallScrews(wall, duty, verdicts, chosen, dict(lengths), unheld)


def _best_effort(verdicts: Sequence[ScrewVerdict]) -> Screw | None:
    """A screw that fails only because no one length suits all of the wall's packing."""
    for verdict in verdicts:
        if verdict.fails_by_length_only:
            return verdict.screw
    return None


def _length_at(screw: Screw, duty: Duty, packing_mm: float, room: Room) -> float | None:
    here = Duty(duty.pull, duty.shear, packing_mm, packing_mm, duty.thickness_mm)
    verdict = judge(screw, here, room.timberwork)
    return verdict.length_mm if verdict.fits else None


def _chosen(verdicts: Sequence[ScrewVerdict], wished: str | None) -> ScrewVerdict | None:
    """The wished screw if it does; else the fitting one with the widest ring of plastic, the shorter of two alike."""
    fitting = [verdict for verdict in verdicts if verdict.fits and wished in (None, verdict.screw.name)]
    return max(fitting, key=lambda v: (v.screw.head_least_mm, -(v.length_mm or 0.0)), default=None)


class _Load(NamedTuple):
    """What one screw of a panel is asked for, in newtons."""

    newton: float
    formula: str
    mark: str

    def figure(self, name: str, source: str) -> Figure:
        """The load with its formula and the panel."""
        return Figure(name, self.newton, "N", tr("{formula}, panel {panel}", formula=self.formula, panel=self.mark), source)


def _hardest(loads: Sequence[_Load]) -> _Load:
    return max(loads, key=lambda load: load.newton)


def _duty(setout: SetOut, wall: int, points: Sequence[Point], packers: Packers, masses: Mapping[str, float]) -> Duty:
    """The hardest-worked screw of a wall: panel weight and sideways load shared by the panel's points."""
    kit, load = setout.room.kit, setout.room.timberwork.lateral_kpa
    count = Counter(point.mark for point in points)
    areas: defaultdict[str, float] = defaultdict(float)
    pulls: list[_Load] = []
    shears: list[_Load] = []
    for panel in setout.panels:
        if not count[panel.mark]:
            continue
        for face in panel.faces:
            if face.wall == wall:
                left, bottom, right, top = face_box_mm(setout, face)
                areas[panel.mark] += (right - left) * (top - bottom) / 1e6
        total = sum(len(face.mounts) for face in panel.faces)
        pull = load * 1000 * areas[panel.mark] / count[panel.mark]
        weight = masses[panel.design] * GRAVITY_N_PER_KG / total
        area, mounts = areas[panel.mark], count[panel.mark]
        pulls.append(_Load(pull, f"{load:g} kPa × {area:.4f} m² / {mounts}", panel.mark))
        shears.append(_Load(weight, f"{masses[panel.design]:.2f} kg × 9.81 / {total}", panel.mark))
    return Duty(
        _hardest(pulls).figure(tr("pull on one screw"), tr(LATERAL_SOURCE)),
        _hardest(shears).figure(tr("shear on one screw"), tr("panel weight shared by its screws")),
        packers.least_mm,
        packers.most_mm,
        kit.thickness_pitches * kit.pitch_mm,
    )
