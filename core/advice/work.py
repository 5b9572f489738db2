"""What a set-out asks of the crew, in the few numbers that advice compares."""

from dataclasses import dataclass

from core.setout.result import SetOut


@dataclass(frozen=True, slots=True)
class Work:
    """Panels of a room, how many of them are special (not in the kit), and the crew minutes for all of it."""

    panels: int
    special_panels: int
    shaped_panels: int
    """Those of the special panels that have a notch or a cut-out."""
    special_designs: int
    minutes: float


def work_of(setout: SetOut) -> Work:
    """The work of a set-out."""
    kinds = setout.tally.by_kind
    return Work(
        panels=setout.tally.panels,
        special_panels=sum(design.count for design in setout.designs if not design.in_kit),
        shaped_panels=kinds.get("shaped", 0) + kinds.get("shaped-corner", 0),
        special_designs=setout.tally.designs_not_in_kit,
        minutes=setout.minutes.total,
    )
