"""The set-out as it is hung: panels whose holes move have them where they go, and are designs of their own."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from core.bond.shape import PanelShape, shape_of
from core.frame.deciding import MovedHole
from core.frame.last_asked import LastAsked
from core.frame.moving import usual_way
from core.frame.places import remounted
from core.frame.remedies import remedies_of
from core.language import tr
from core.progress import Progress
from core.setout.result import CrewMinutes, Design, Panel, SetOut


@dataclass(frozen=True, slots=True)
class Variant:
    """A design with some of its holes elsewhere, and the panels that are built so."""

    name: str
    design: str
    marks: tuple[str, ...]


@dataclass(frozen=True)
class Hung:
    """A set-out in which moved holes are where they go. ``variants`` are the designs that are in it only for that.

    ``moved`` are the moved holes of every panel that has any, by mark.
    """

    setout: SetOut
    variants: tuple[Variant, ...]
    moved: Mapping[str, tuple[MovedHole, ...]]

    @cached_property
    def by_mark(self) -> dict[str, Variant]:
        """The variant of every panel that is one."""
        return {mark: variant for variant in self.variants for mark in variant.marks}

    @cached_property
    def by_name(self) -> dict[str, Variant]:
        """The variants by what they are called."""
        return {variant.name: variant for variant in self.variants}


def as_hung(setout: SetOut) -> Hung:
    """The set-out with every moved hole in its place; the very same where none moves.

    Moved panels bear their variant's name as design, and so does what is recorded of them. Nothing may be edited by it: an edit
    takes the set-out as it was solved.
    """
    return _last_hung(setout)


def _hung(setout: SetOut) -> Hung:
    moved = remedies_of(setout).moved
    drilled = {panel.mark: _drilled(panel, moved.get(panel.mark, ())) for panel in setout.panels}
    variants = tuple(_variants(setout, drilled))
    if not variants:
        return Hung(setout, (), {})
    names = {mark: variant.name for variant in variants for mark in variant.marks}
    panels = tuple(replace(panel, design=names.get(panel.mark, panel.design)) for panel in drilled.values())
    designs = tuple(_designs(setout, panels, variants))
    tally = replace(setout.tally, designs_not_in_kit=sum(not design.in_kit for design in designs))
    room = setout.room.model_copy(update={"progress": _renamed(setout, names)})
    minutes = _minutes(setout, moved, tally.designs_not_in_kit - setout.tally.designs_not_in_kit)
    return Hung(replace(setout, room=room, panels=panels, designs=designs, tally=tally, minutes=minutes), variants, moved)


def _minutes(setout: SetOut, moved: Mapping[str, tuple[MovedHole, ...]], sheets: int) -> CrewMinutes:
    """The set-out's minutes with so many more sheets to set up, and without the timber that moved holes do not need."""
    rates, minutes = setout.room.rates, setout.minutes
    spared = sum(hole.was.lands_on is None and hole.to.lands_on is not None for holes in moved.values() for hole in holes)
    return replace(minutes, setup=minutes.setup + rates.setup * sheets, blocking=minutes.blocking - rates.blocking * spared)


def _drilled(panel: Panel, moved: tuple[MovedHole, ...]) -> Panel:
    went = {hole.was: hole.to for hole in moved}
    return remounted(panel, tuple(went.get(mount, mount) for face in panel.faces for mount in face.mounts)) if went else panel


def _variants(setout: SetOut, drilled: Mapping[str, Panel]) -> Iterator[Variant]:
    """Panels of one design that are alike and yet unlike its first panel, in the panels' order.

    Not only moved holes make them so: beside a free corner the hole pattern itself gives way.
    """
    firsts: dict[str, PanelShape] = {}
    alike: defaultdict[tuple[str, PanelShape], list[str]] = defaultdict(list)
    for panel in setout.panels:
        own = usual_way(shape_of(setout, panel))
        first = firsts.setdefault(panel.design, own)
        shape = own if drilled[panel.mark] is panel else usual_way(shape_of(setout, drilled[panel.mark]))
        if shape != first:
            alike[panel.design, shape].append(panel.mark)
    for (design, _), marks in alike.items():
        yield Variant(tr("{design}, holes as {mark}", design=design, mark=marks[0]), design, tuple(marks))


def _designs(setout: SetOut, panels: tuple[Panel, ...], variants: tuple[Variant, ...]) -> Iterator[Design]:
    """The designs there are panels of, each followed by its variants."""
    counts = Counter(panel.design for panel in panels)
    for design in setout.designs:
        if counts[design.name]:
            yield replace(design, count=counts[design.name])
        for variant in variants:
            if variant.design == design.name:
                yield Design(variant.name, design.kind, counts[variant.name], in_kit=False)


def _renamed(setout: SetOut, names: Mapping[str, str]) -> Progress:
    """What is recorded of moved panels under their variant's name, with its design's recipe."""
    progress = setout.room.progress
    places = {
        (panel.faces[0].wall, panel.faces[0].bottom, panel.faces[0].left, panel.design): names[panel.mark]
        for panel in setout.panels
        if panel.mark in names
    }
    records = tuple(
        record.model_copy(update={"design": places[record.place]}) if record.place in places else record
        for record in progress.panels
    )
    recipes = {recipe.design: recipe for recipe in progress.recipes}
    more = [
        recipes[design].model_copy(update={"design": name})
        for (*_, design), name in dict.fromkeys(places.items())
        if design in recipes
    ]
    unique = {recipe.design: recipe for recipe in (*progress.recipes, *more)}
    return progress.model_copy(update={"panels": records, "recipes": tuple(unique.values())})


_last_hung = LastAsked(_hung)
