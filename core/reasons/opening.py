"""What an opening does to the panels about it."""

from collections.abc import Iterable

from core.language import tr, trn
from core.reasons.cuts import bounds_of, cuts_of
from core.room import Opening
from core.setout.result import Panel, SetOut


def opening_words(setout: SetOut, opening: Opening) -> tuple[str, ...]:
    """Lines that name the panels an opening cuts into, and those that end under or over it."""
    near = [panel for panel in setout.panels if any(face.wall == opening.wall for face in panel.faces)]
    cut = [panel for panel in near if any(found.opening.id == opening.id for found in cuts_of(setout, panel))]
    ended = [panel for panel in near if any(found.id == opening.id for found, _ in bounds_of(setout, panel))]
    lines = [tr("cuts into {panels}", panels=_marks(cut)) if cut else tr("cuts into no panel")]
    if ended:
        lines.append(trn("{panels} ends under or over it", "{panels} end under or over it", len(ended), panels=_marks(ended)))
    return tuple(lines)


def _marks(panels: Iterable[Panel]) -> str:
    return ", ".join(panel.mark for panel in panels)
