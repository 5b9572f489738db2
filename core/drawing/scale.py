"""Drawing scales: the ISO 5455 series for metric sheets, the customary inch series for US ones."""

from collections.abc import Iterator
from dataclasses import dataclass

from core.language import tr

ISO_FACTORS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000)
"""Full size and the reductions of ISO 5455, as the number after ``1:``."""
US_INCHES_PER_FOOT = {
    1: 12.0, 2: 6.0, 4: 3.0, 8: 1.5, 12: 1.0, 16: 0.75, 24: 0.5, 32: 0.375, 48: 0.25, 64: 0.1875, 96: 0.125,
    128: 0.09375, 192: 0.0625,
}  # fmt: skip
"""Customary scales: the factor and the inches on paper that stand for one foot."""
US_FEET_PER_INCH = {240: 20, 360: 30, 480: 40, 600: 50, 1200: 100, 2400: 200, 6000: 500, 12000: 1000}
"""Customary site scales, for what no architect's scale can hold (common practice, no published source)."""
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
    def ratio(self) -> str:
        """The ratio, and in the customary series what stands for a foot."""
        plain = f"1:{self.factor}"
        if not self.is_us or self.factor == 1:
            return plain
        if self.factor in US_FEET_PER_INCH:
            return f"{plain}  (1\" = {US_FEET_PER_INCH[self.factor]}')"
        return f'{plain}  ({_INCH_NAMES[US_INCHES_PER_FOOT[self.factor]]}" = 1\'-0")'

    @property
    def title(self) -> str:
        """As the title block states it."""
        return stated(self.ratio)


def stated(ratio: str) -> str:
    """A ratio as the title block states it (ISO 5455)."""
    return tr("SCALE {scale}", scale=ratio)


def scales(is_us: bool) -> Iterator[Scale]:
    """All scales of a series, the largest first."""
    factors = (*US_INCHES_PER_FOOT, *US_FEET_PER_INCH) if is_us else ISO_FACTORS
    return (Scale(factor, is_us) for factor in factors)


def largest_scale(width_mm: float, height_mm: float, room_mm: tuple[float, float], is_us: bool) -> Scale:
    """The largest scale at which ``room_mm`` (width, height) fits the given paper area, both in millimetres."""
    *larger, smallest = scales(is_us)
    fitting = (scale for scale in larger if room_mm[0] / scale.factor <= width_mm and room_mm[1] / scale.factor <= height_mm)
    return next(fitting, smallest)
