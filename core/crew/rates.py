"""The crew's rates from its own stopwatch."""

import math
from collections.abc import Iterable

from core.crew.learning import Practice
from core.kit import Rates
from core.setout.metric import face_box_mm
from core.setout.result import Panel, PanelKind, SetOut
from core.workforce import Make, Timing, Workforce

_FACTORS: dict[Make, str] = {
    "plain": "plain_factor",
    "shaped": "shaped_factor",
    "corner": "corner_factor",
    "shaped corner": "shaped_corner_factor",
}


def make_of(kind: PanelKind) -> Make:
    """Which of the four building rates a panel goes by."""
    if kind == "shaped-corner":
        return "shaped corner"
    return kind if kind in ("shaped", "corner") else "plain"


def area_of(setout: SetOut, panel: Panel) -> float:
    """A panel's area on the frame side in full panels, as the set-out's minutes reckon it."""
    rates = setout.room.rates
    factor = getattr(rates, _FACTORS[make_of(panel.kind)])
    if rates.build_full_panel > 0:
        return float((panel.minutes - rates.handling) / (rates.build_full_panel * factor))
    kit = setout.room.kit
    full = kit.full_width * kit.pitch_mm * kit.row_plates(kit.full_courses) * kit.plate_mm
    boxes = [face_box_mm(setout, face) for face in panel.faces]
    return sum((right - left) * (top - bottom) for left, bottom, right, top in boxes) / full


def rates_from(crew: Workforce, rates: Rates) -> dict[str, float]:
    """The rates that the crew's timings speak of, by name, as minutes of a first panel; practice is taken out."""
    practice = Practice(crew)
    found: dict[str, float] = {}
    if plain := _full_panel_minutes(practice, (t for t in crew.timings if t.work == "build" and t.make == "plain")):
        found["build_full_panel"] = plain / rates.plain_factor
    full = found.get("build_full_panel", rates.build_full_panel)
    for make, name in _FACTORS.items():
        timings = [timing for timing in crew.timings if timing.work == "build" and timing.make == make]
        minutes = _full_panel_minutes(practice, timings)
        if make != "plain" and minutes and full:
            found[name] = minutes / full
    for work in ("handling", "setup"):
        if timings := [timing for timing in crew.timings if timing.work == work]:
            found[work] = math.fsum(t.minutes for t in timings) / sum(t.panels for t in timings)
    return {name: round(value, 4) for name, value in found.items()}


def _full_panel_minutes(practice: Practice, timings: Iterable[Timing]) -> float | None:
    """Minutes of a full panel by those readings, all of them together; None without any."""
    known = list(timings)
    first_panels = math.fsum(t.panels * t.area * practice.mean_share(t.panels_before, t.panels) for t in known)
    return math.fsum(t.minutes for t in known) / first_panels if known else None
