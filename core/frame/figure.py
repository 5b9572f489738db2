"""A number that says how it was found and where its rule was published, for hovering over and for paper."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Figure:
    """``formula`` has the numbers put in; ``source`` names the publication, or says that there is none."""

    name: str
    value: float
    unit: str
    formula: str
    source: str

    @property
    def words(self) -> str:
        """The figure as one line."""
        return f"{self.name}: {self.formula} = {self.value:.4g} {self.unit} ({self.source})"
