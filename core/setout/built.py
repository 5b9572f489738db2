"""Whether a set-out agrees with what the crew has built: then nothing the crew notes may change it."""

from collections import Counter

from core.progress import Progress
from core.setout.problem import IN_PLACE
from core.setout.result import Panel


def agrees_with(panels: tuple[Panel, ...], progress: Progress) -> bool:
    """Whether every panel that hangs has its place among these panels, and every one built is of a design they need."""
    places = {(first.wall, first.bottom, first.left, panel.design) for panel in panels for first in panel.faces[:1]}
    needed = Counter(panel.design for panel in panels)
    made = Counter(record.design for record in progress.panels if record.is_made)
    return made <= needed and all(record.place in places for record in progress.panels if record.state in IN_PLACE)
