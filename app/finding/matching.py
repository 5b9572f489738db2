"""What a few typed letters may mean in a set-out: marks, designs, openings, walls, the likeliest first."""

import re
from dataclasses import dataclass

from core.crew.standing import standing
from core.language import tr
from core.places import place_words
from core.room import Opening, wall_letter
from core.setout.result import Panel, SetOut
from core.sheets.wording import KIND_NAMES, both
from core.units import format_length

_MARK = re.compile(r"([A-Z]{1,2})[\s-]*(?:(\d+)(?:[\s-]+(\d*))?)?")
"""A mark as people write it: with or without dashes after the wall, noughts left out, or only its beginning."""


@dataclass(frozen=True, slots=True)
class Match:
    """One thing found: its place as checks name it, its name, and what there is to say of it."""

    where: str
    name: str
    about: str


def matches(setout: SetOut, text: str) -> tuple[Match, ...]:
    """Everything that the text may mean, each once: exact names, then marks, openings, walls and designs that hold it."""
    wanted = " ".join(text.split()).casefold()
    if not wanted:
        return ()
    ranked: list[tuple[int, int, Match]] = []
    states = standing(setout).by_mark
    for opening in setout.room.openings:
        if (rank := _rank(opening.id.casefold(), wanted)) is not None:
            ranked.append((rank, len(ranked), _opening_match(setout, opening)))
    for wall in range(setout.room.wall_count):
        where = f"wall {wall_letter(wall)}"
        if wanted in (wall_letter(wall).casefold(), where.casefold(), place_words(where).casefold()):
            ranked.append((0, len(ranked), _wall_match(setout, wall)))
    for panel in setout.panels:
        if (rank := _panel_rank(panel, wanted)) is not None:
            ranked.append((rank, len(ranked), _panel_match(panel, states[panel.mark])))
    return tuple(match for _, _, match in sorted(ranked, key=lambda found: found[:2]))


def _rank(name: str, wanted: str) -> int | None:
    """0 for the very name, 1 where it begins so, 3 where it holds it."""
    if name == wanted:
        return 0
    if name.startswith(wanted):
        return 1
    return 3 if wanted in name else None


def _panel_rank(panel: Panel, wanted: str) -> int | None:
    mark = panel.mark.casefold()
    ranks = [rank for rank in (_rank(mark, wanted), _loosely(panel.mark, wanted)) if rank is not None]
    design = _rank(panel.design.casefold(), wanted)
    if design is not None:
        ranks.append(4 + design)
    return min(ranks, default=None)


def _loosely(mark: str, wanted: str) -> int | None:
    """2 where the text is the mark's beginning once noughts and dashes are seen through."""
    found = _MARK.fullmatch(wanted.upper())
    if found is None:
        return None
    wall, row, place = mark.split("-")
    typed_wall, typed_row, typed_place = found.groups()
    if typed_wall != wall:
        return None
    if typed_row is None:
        return 2
    if typed_place is None:
        whole = row + place
        return 2 if int(typed_row) == int(row) or whole.startswith(typed_row) else None
    fits = int(typed_row) == int(row) and (not typed_place or place.startswith(typed_place) or int(place) == int(typed_place))
    return 2 if fits else None


def _panel_match(panel: Panel, state: str) -> Match:
    kind = KIND_NAMES[panel.kind]
    said = [panel.design if panel.design.startswith(kind) else f"{tr(kind)} {panel.design}"]
    walls = tuple(dict.fromkeys(wall_letter(face.wall) for face in panel.faces))
    if len(walls) > 1:
        said.append(tr("walls {walls}", walls=both(walls)))
    return Match(f"panel {panel.mark}", panel.mark, " · ".join([*said, tr(state)]))


def _opening_match(setout: SetOut, opening: Opening) -> Match:
    units = setout.room.display_units
    size = f"{format_length(opening.width_mm, units, with_unit=False)} × {format_length(opening.height_mm, units)}"
    return Match(
        f"opening {opening.id}", opening.id, f"{tr(opening.kind)} · {place_words(f'wall {wall_letter(opening.wall)}')} · {size}"
    )


def _wall_match(setout: SetOut, wall: int) -> Match:
    length = format_length(setout.room.wall_length_mm(wall), setout.room.display_units)
    return Match(f"wall {wall_letter(wall)}", tr("Wall {wall}", wall=wall_letter(wall)), length)
