"""What a person should know about colours before bricks are bought: rules without effect, panels that are no mosaic."""

from collections.abc import Iterator, Mapping

from core.colour.laying import Finish
from core.colour.wishes import Wishes, wishes_of
from core.language import tr
from core.setout.result import Check, SetOut


def colour_checks(setout: SetOut, finishes: Mapping[str, Finish], wishes: Wishes | None = None) -> tuple[Check, ...]:
    """Findings about the colours of a set-out; none where the job has one colour."""
    if setout.room.colouring.is_plain:
        return ()
    return (*_idle(wishes or wishes_of(setout)), *_uncut(setout, finishes))


def _idle(wishes: Wishes) -> Iterator[Check]:
    for number in wishes.idle:
        kind = tr(wishes.setout.room.colouring.rules[number].kind)
        text = tr("colour rule {number} ({kind}) colours nothing that stands; move or remove it", number=number + 1, kind=kind)
        yield Check("warning", "colour-idle", "room", text)


def _uncut(setout: SetOut, finishes: Mapping[str, Finish]) -> Iterator[Check]:
    """Panels whose bricks lie over lines between colours, because they would fall apart if cut there."""
    for panel in setout.panels:
        finish = finishes.get(panel.mark)
        if finish is not None and finish.is_left_whole:
            text = tr(
                "panel {panel} would fall apart if cut at its colours; {pitches} pitches show another one",
                panel=panel.mark,
                pitches=finish.missed,
            )
            yield Check("note", "colour-uncut", f"panel {panel.mark}", text)
