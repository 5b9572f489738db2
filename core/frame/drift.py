"""The classic trap: panels are 304.0 mm wide, a foot is 304.8 mm, so studs at 12 in centres walk away from the joints."""

from dataclasses import dataclass

from core.frame.figure import Figure
from core.language import tr
from core.units import metric_size

_MOST_PANELS = 10_000


@dataclass(frozen=True, slots=True)
class Drift:
    """Panels set side by side from a joint centred on a stud, in front of studs at another spacing.

    ``fails_at`` is the first panel with a screw nearer than the edge distance to its stud's edge; None where none ever fails.
    """

    panel_mm: float
    spacing_mm: float
    edge_mm: float
    fails_at: int | None
    per_panel: Figure
    at_failure: Figure | None


def drift_of(panel_mm: float, spacing_mm: float, stud_mm: float, edge_mm: float, inset_mm: float) -> Drift:
    """How far panels get before a screw misses. Raises ValueError where a size is not positive."""
    for name, size in (("panel", panel_mm), ("spacing", spacing_mm), ("stud", stud_mm)):
        if size <= 0:
            raise ValueError(f"{name} is {size:g} mm; it must be more than 0")
    step = spacing_mm - panel_mm
    per_panel = Figure(
        tr("drift per panel"),
        abs(step),
        "mm",
        f"|{spacing_mm:g} - {panel_mm:g}|",
        tr("arithmetic; 1 ft = {foot} exactly", foot=metric_size(304.8)),
    )
    reach = stud_mm / 2 - edge_mm
    for panel in range(1, _MOST_PANELS + 1):
        # Its left screw stands on the stud behind its left joint, its right one on the stud behind its right joint.
        left, right = inset_mm - step * (panel - 1), -inset_mm - step * panel
        off = max(abs(left), abs(right))
        if off > reach + 1e-9:
            failure = Figure(
                tr("panel {panel}: from the screw to the stud's edge", panel=panel),
                stud_mm / 2 - off,
                "mm",
                tr("{stud:g} / 2 - {off:g}, under the {needed:g} needed", stud=stud_mm, off=off, needed=edge_mm),
                tr("arithmetic"),
            )
            return Drift(panel_mm, spacing_mm, edge_mm, panel, per_panel, failure)
        if abs(step) < 1e-9:
            break
    return Drift(panel_mm, spacing_mm, edge_mm, None, per_panel, None)
