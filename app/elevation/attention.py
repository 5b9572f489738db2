"""What the person is busy with on the elevation: what is chosen, pointed at, dragged and refused."""

from collections.abc import Sequence
from dataclasses import dataclass

from app.document import Document
from app.elevation.band import Band
from app.elevation.gestures import Gesture
from app.elevation.hand import Hand
from app.elevation.studs import Studs, StudView
from core.room import Opening
from core.setout.result import Panel


@dataclass(frozen=True, slots=True)
class Attention:
    """What the person is busy with."""

    wall: int
    opening: Opening | None
    """The chosen opening that is the current one."""
    openings: Sequence[Opening]
    """Further openings chosen."""
    panels: Sequence[Panel]
    """All panels chosen."""
    hover: Opening | Panel | None
    gesture: Gesture | None
    notice: str
    has_focus: bool
    studs: StudView | None = None
    """The current wall's studs where they can be moved."""


def attention(document: Document, hand: Hand, studs: Studs, notice: str, *, has_focus: bool) -> Attention:
    """What there is to paint over the walls now."""
    chosen, current, gesture = document.chosen, document.selected_opening, hand.gesture
    is_still = gesture is None or isinstance(gesture, Band)
    return Attention(
        wall=document.wall,
        opening=current,
        openings=[opening for opening in chosen.openings if opening != current],
        # A drag shows the panels it changes; those chosen before are outlined again when it ends.
        panels=chosen.panels if is_still else (),
        hover=hand.hover,
        gesture=gesture,
        notice=notice,
        has_focus=has_focus,
        studs=studs.view,
    )
