"""What panels, walls and the room weigh, and what one person should lift: cautions with their arithmetic, no permission."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from core.setout.result import Face, SetOut

SOLID_KG_PER_M3 = 1050.0
"""Density of ABS, middle of data sheets (1020 to 1080 kg/m³)."""
SOLID_SHARE = 0.45
"""How much of a hollow brick is plastic. From memory, 0.40 to 0.50: weigh fifty of each part instead."""

Coupling = Literal["good", "fair", "poor"]


@dataclass(frozen=True, slots=True)
class Loads:
    """Masses in kilograms: of each design, each wall and the room; ``is_estimated`` where no bonds were weighed up."""

    by_design: Mapping[str, float]
    by_wall: Mapping[int, float]
    total_kg: float
    per_m2_kg: float
    panels_per_box: int
    heaviest: str
    is_estimated: bool


def loads_of(setout: SetOut, masses: Mapping[str, float] | None) -> Loads:
    """Sum the masses up; a design ``masses`` does not name is estimated from its area. A corner panel counts half a wall each."""
    estimates = _estimates(setout)
    given = masses or {}
    by_design = {name: given.get(name, kg) for name, kg in estimates.items()}
    by_wall = dict.fromkeys(range(setout.room.wall_count), 0.0)
    for panel in setout.panels:
        areas = [_cells(face) for face in panel.faces]
        for face, area in zip(panel.faces, areas, strict=True):
            by_wall[face.wall] += by_design[panel.design] * area / max(sum(areas), 1)
    total = sum(by_wall.values())
    kit = setout.room.kit
    area_m2 = sum(_cells(face) for panel in setout.panels for face in panel.faces) * kit.pitch_mm * kit.plate_mm / 1e6
    heaviest = max(by_design, key=lambda name: (by_design[name], name), default="")
    most = setout.room.stock.heaviest_box_kg
    per_box = int(most // by_design[heaviest]) if heaviest and by_design[heaviest] > 0 else 0
    is_estimated = any(name not in given for name in by_design)
    return Loads(by_design, by_wall, total, total / area_m2 if area_m2 else 0.0, per_box, heaviest, is_estimated)


def _cells(face: Face) -> int:
    """Pitch-plates a face covers, by the surveyor's formula."""
    return sum(_ring_area(ring) for ring in (face.outline, *face.holes))


def _ring_area(ring: tuple[tuple[int, int], ...]) -> int:
    doubled = sum(x0 * z1 - x1 * z0 for (x0, z0), (x1, z1) in zip(ring, (*ring[1:], ring[0]), strict=True))
    return doubled // 2


def _estimates(setout: SetOut) -> dict[str, float]:
    """Mass of every design from the area of its faces, the panel's thickness and the solid share."""
    kit = setout.room.kit
    volume = kit.pitch_mm * kit.plate_mm * kit.thickness_pitches * kit.pitch_mm / 1e9
    return {
        panel.design: sum(_cells(face) for face in panel.faces) * volume * SOLID_KG_PER_M3 * SOLID_SHARE
        for panel in setout.panels
    }


def lifting_limit_kg(
    *,
    reach_cm: float,
    from_cm: float,
    travel_cm: float,
    turn_degrees: float = 0.0,
    frequency: float = 1.0,
    grip: Coupling = "good",
) -> float:
    """The recommended weight limit of the revised NIOSH lifting equation by its multiplier formulas; 0 beyond its limits.

    ``reach_cm`` is from ankles to hands, ``from_cm`` the height of the hands at the start, ``travel_cm`` how far up or down.
    Source: NIOSH 94-110: RWL = 23 kg × 25/H × (1 - 0.003 |V - 75|) × (0.82 + 4.5/D) × (1 - 0.0032 A) × F × C. Its printed tables
    round the multipliers and differ a little.
    """
    if reach_cm > 63 or not 0 <= from_cm <= 175 or travel_cm > 175 or not 0 <= turn_degrees <= 135:
        return 0.0
    horizontal = min(1.0, 25 / max(reach_cm, 25))
    vertical = 1 - 0.003 * abs(from_cm - 75)
    distance = min(1.0, 0.82 + 4.5 / max(travel_cm, 25))
    coupling = {"good": 1.0, "fair": 1.0 if from_cm >= 75 else 0.95, "poor": 0.90}[grip]
    return 23 * horizontal * vertical * distance * (1 - 0.0032 * turn_degrees) * frequency * coupling
