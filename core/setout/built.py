"""Whether a set-out agrees with what the crew has built: then nothing the crew notes may change it."""

from collections import Counter

from core.progress import Progress
from core.setout.problem import IN_PLACE
from core.setout.result import Design, Panel


def agrees_with(panels: tuple[Panel, ...], designs: tuple[Design, ...], progress: Progress) -> bool:
    """Whether every panel that hangs has its place among these panels, and every one built is of a design they need."""
    needed = Counter({design.name: design.count for design in designs})
    if not Counter(record.design for record in progress.panels if record.is_made) <= needed:
        return False
    hanging = [record.place for record in progress.panels if record.state in IN_PLACE]
    walls = {wall for wall, *_ in hanging}
    firsts = ((panel.faces[0], panel.design) for panel in panels if panel.faces[0].wall in walls)
    return {(first.wall, first.bottom, first.left, design) for first, design in firsts}.issuperset(hanging)
