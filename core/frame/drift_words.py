"""How far one wall's studs walk away from its panel joints, in words for the window and for paper.

All of it stays in millimetres: the differences vanish in sixteenths of an inch.
"""

from dataclasses import dataclass

from core.frame.drift import Drift, drift_of
from core.language import marked, tr, trc, trn
from core.room import FrameToBuild, RegularFrame, Room
from core.timberwork import FOOT_MM
from core.units import metric_size

GRID_HOLDS = marked(
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
        spacing, walk = metric_size(panel), _walk(drift, 1)
        return WallDrift(
            1, drift, tr("Set studs out as marked, at {spacing}, not at 12 in: there {walk}", spacing=spacing, walk=walk)
        )
    if not isinstance(frame, RegularFrame):
        return None
    bay = max(1, round(frame.spacing_mm / panel))
    drift = drift_of(bay * panel, frame.spacing_mm, frame.stud_mm, kit.mounts.edge_mm, inset)
    said = []
    if bay > 1:
        text = tr(
            "Only every {ordinal} joint of {width} panels can meet a stud.", ordinal=_ordinal(bay), width=metric_size(panel)
        )
        said.append(text)
    if drift.per_panel.value:
        said.append(tr("Spacing {spacing}: {walk}", spacing=metric_size(frame.spacing_mm), walk=_walk(drift, bay)))
    elif bay == 1:
        said.append(tr("Spacing {spacing}, a panel's width: the studs do not drift.", spacing=metric_size(panel)))
    return WallDrift(bay, drift, " ".join(said))


_FROM_EDGE = marked(
    "{said}; counted from a joint centred on a stud, panel {panel} is the first with a screw too near, "
    "{size} from its stud's edge where {needed} are needed."
)
_PAST_EDGE = marked(
    "{said}; counted from a joint centred on a stud, panel {panel} is the first with a screw too near, "
    "{size} past its stud's edge where {needed} are needed."
)


def _walk(drift: Drift, bay: int) -> str:
    lost = metric_size(drift.per_panel.value, 1)
    said = trn("{lost} are lost with every panel", "{lost} are lost with every {n} panels", bay, lost=lost)
    if drift.fails_at is None or drift.at_failure is None:
        return tr("{said}, never enough for a screw to miss.", said=said)
    near, first, last = drift.at_failure.value, (drift.fails_at - 1) * bay + 1, drift.fails_at * bay
    return tr(
        _FROM_EDGE if near > 0 else _PAST_EDGE,
        said=said,
        panel=first if bay == 1 else tr("{first} to {last}", first=first, last=last),
        size=metric_size(abs(near), 1),
        needed=metric_size(drift.edge_mm),
    )


def _ordinal(number: int) -> str:
    known = {2: trc("ordinal", "second"), 3: trc("ordinal", "third"), 4: trc("ordinal", "fourth")}
    return known.get(number) or trc("ordinal", "{number}th", number=number)
