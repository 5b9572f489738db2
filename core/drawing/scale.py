"""Drawing scales: the ISO 5455 series for metric sheets, the customary inch series for US ones."""

from dataclasses import dataclass

ISO_FACTORS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000)
"""Full size and the reductions of ISO 5455, as the number after ``1:``."""
US_INCHES_PER_FOOT = {
    1: 12.0, 2: 6.0, 4: 3.0, 8: 1.5, 12: 1.0, 16: 0.75, 24: 0.5, 32: 0.375, 48: 0.25, 64: 0.1875, 96: 0.125,
    128: 0.09375, 192: 0.0625,
}  # fmt: skip
"""Customary scales: the factor and the inches on paper that stand for one foot."""
_INCH_NAMES = {
    12.0: "12", 6.0: "6", 3.0: "3", 1.5: "1 1/2", 1.0: "1", 0.75: "3/4", 0.5: "1/2", 0.375: "3/8", 0.25: "1/4",
    0.1875: "3/16", 0.125: "1/8", 0.09375: "3/32", 0.0625: "1/16",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Scale:
    """``factor`` millimetres of the room are drawn as one."""

    factor: int
    is_us: bool = False

    def on_paper_mm(self, real_mm: float) -> float:
        return real_mm / self.factor

    @property
    def title(self) -> str:
        """As the title block states it."""
        inches = US_INCHES_PER_FOOT.get(self.factor) if self.is_us else None
        if inches is None or self.factor == 1:
            return f"SCALE 1:{self.factor}"
        return f'SCALE 1:{self.factor}  ({_INCH_NAMES[inches]}" = 1\'-0")'


def largest_scale(width_mm: float, height_mm: float, room_mm: tuple[float, float], is_us: bool) -> Scale:
    """The largest scale at which ``room_mm`` (width, height) fits the given paper area, both in millimetres."""
    factors = tuple(US_INCHES_PER_FOOT) if is_us else ISO_FACTORS
    for factor in factors:
        if room_mm[0] / factor <= width_mm and room_mm[1] / factor <= height_mm:
            return Scale(factor, is_us)
    return Scale(factors[-1], is_us)
