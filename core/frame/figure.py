"""A number that says how it was found and where its rule was published, for hovering over and for paper."""

from dataclasses import dataclass

from core.room import Units
from core.timberwork import INCH_MM
from core.units import format_length, metric_size


@dataclass(frozen=True, slots=True)
class Figure:
    """``formula`` has the numbers put in; ``source`` names the publication, or says that there is none."""

    name: str
    value: float
    unit: str
    formula: str
    source: str

    def words(self, units: Units) -> str:
        """The figure as one line. Its formula counts in millimetres, so their sum does, too; a tape's reading follows."""
        value, read = self.value_words("mm"), self.value_words(units)
        return f"{self.name}: {self.formula} = {value if value == read else f'{value}, {read}'} ({self.source})"

    def value_words(self, units: Units) -> str:
        """The value with its unit. Under an inch a length stays metric: sixteenths would hide what decides."""
        if self.unit != "mm":
            return f"{self.value:.1f} {self.unit}"
        if units == "mm" or self.value < INCH_MM:
            return metric_size(self.value, 2)
        return format_length(self.value, units)
