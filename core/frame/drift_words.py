"""How far one wall's studs walk away from its panel joints, in words for the window and for paper.

All of it stays in millimetres: the differences vanish in sixteenths of an inch.
"""

from dataclasses import dataclass

from core.frame.drift import Drift, drift_of
from core.room import FrameToBuild, RegularFrame, Room
from core.timberwork import FOOT_MM
from core.units import metric_size

GRID_HOLDS = (
    "Do not stretch the panels' joints to keep step with the studs: the starter ring, the corner panels and the row below lock "
    "every panel to the grid."
)


@dataclass(frozen=True, slots=True)
class WallDrift:
    """One wall's drift; ``bay`` is how many panels stand between two studs. ``words`` say it, ``how`` is the arithmetic."""

    bay: int
    drift: Drift
    words: str

    @property
    def how(self) -> str:
        """The figures with their formulas and sources."""
        figures = (self.drift.per_panel, self.drift.at_failure)
        return "; ".join(figure.words("mm") for figure in figures if figure) + "."


def wall_drift(room: Room, wall: int) -> WallDrift | None:
    """A regular frame's own drift; that of a frame to build were it set out at 12 in; None where studs were measured singly."""
    frame, kit = room.frame(wall), room.kit
    panel, inset = kit.full_width * kit.pitch_mm, kit.mounts.inset_pitches * kit.pitch_mm
    if isinstance(frame, FrameToBuild):
        drift = drift_of(panel, FOOT_MM, frame.stud_mm, kit.mounts.edge_mm, inset)
        return WallDrift(1, drift, f"Set studs out as marked, at {metric_size(panel)}, not at 12 in: there {_walk(drift, 1)}")
    if not isinstance(frame, RegularFrame):
        return None
    bay = max(1, round(frame.spacing_mm / panel))
    drift = drift_of(bay * panel, frame.spacing_mm, frame.stud_mm, kit.mounts.edge_mm, inset)
    said = [] if bay == 1 else [f"Only every {_ordinal(bay)} joint of {metric_size(panel)} panels can meet a stud."]
    if drift.per_panel.value:
        said.append(f"Spacing {metric_size(frame.spacing_mm)}: {_walk(drift, bay)}")
    elif bay == 1:
        said.append(f"Spacing {metric_size(panel)}, a panel's width: the studs do not drift.")
    return WallDrift(bay, drift, " ".join(said))


def _walk(drift: Drift, bay: int) -> str:
    what = "panel" if bay == 1 else f"{bay} panels"
    said = f"{metric_size(drift.per_panel.value, 1)} are lost with every {what}"
    if drift.fails_at is None or drift.at_failure is None:
        return f"{said}, never enough for a screw to miss."
    near = drift.at_failure.value
    size = metric_size(abs(near), 1)
    to_edge = f"{size} from its stud's edge" if near > 0 else f"{size} past its stud's edge"
    number = drift.fails_at if bay == 1 else f"{(drift.fails_at - 1) * bay + 1} to {drift.fails_at * bay}"
    return (
        f"{said}; counted from a joint centred on a stud, panel {number} is the first with a screw too near, {to_edge} "
        f"where {metric_size(drift.edge_mm)} are needed."
    )


def _ordinal(number: int) -> str:
    return {2: "second", 3: "third", 4: "fourth"}.get(number, f"{number}th")
