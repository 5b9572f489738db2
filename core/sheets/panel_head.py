"""The head of a panel sheet: what it is called, how many to build, the panel in a sentence, and how to build it."""

from collections.abc import Sequence

from core.bond.result import Bond
from core.drawing import Box, Item, Text
from core.drawing.lettering import shorten, text_width_mm
from core.language import marked, tr
from core.parts import Part
from core.setout.result import Design, SetOut
from core.sheets.panel_batch import Batch
from core.sheets.panel_facts import mark_groups, mass_kg
from core.sheets.panel_legs import leg_spans
from core.sheets.wording import KIND_NAMES
from core.units import metric_size

_HOW = (
    marked(
        "Build on a flat table, standing up: course 1 on the table, knobs up, the side drawn here towards you. "
        "Lay each course from the left, press every brick down until no gap shows, tick its box."
    ),
    marked(
        "A letter names a way to lay a course, drawn large from above; the thin strips under it show the joints of the course "
        "below. A number on a brick is its length in knobs, numbers along edges count knobs from the left."
    ),
)
_LIST_MM = 90.0
"""Longer lists of marks are not in the first line."""
_CORNER_HOW = marked("Crossed out: the other leg's end.")


def band(setout: SetOut, batch: Batch, design: Design, marks: Sequence[str], area: Box, number: int) -> list[Item]:
    """Name and number at the top, the panel in a sentence, and on the first page how to build it."""
    name, build = batch.name, tr("build {count}", count=batch.build)
    said = _colour_words(batch) + _only_words(batch, marks) + _sentence(setout, design, batch.bond)
    name_width = area.width - text_width_mm(build, 10.0) - 10.0
    height = next((h for h in (10.0, 7.0, 5.0) if text_width_mm(name, h) <= name_width), 3.5)
    size = 3.5 if text_width_mm(said, 3.5) <= area.width else 2.5
    how = [tr(_HOW[0]) + (" " + tr(_CORNER_HOW) if batch.bond.corner else ""), tr(_HOW[1])]
    items: list[Item] = [
        Text((area.left, area.top + 9.6), shorten(name, name_width, height), height),
        Text((area.right, area.top + 9.6), build, 10.0, "end"),
        Text((area.left, area.top + 17.0), shorten(said, area.width, size), size),
    ]
    if number == 1:
        items += [Text((area.left, area.top + 21.4 + 4.0 * i), shorten(line, area.width, 2.5), 2.5) for i, line in enumerate(how)]
    return items


def _colour_words(batch: Batch) -> str:
    """That some of the panels are counted, and built, by other sheets."""
    if not batch.by_colour:
        return ""
    return tr("{panels} more by colour sheets, NOT by this.", panels=batch.by_colour) + " "


def _only_words(batch: Batch, marks: Sequence[str]) -> str:
    """Before the panel in a sentence, where other panels of the design have another bond: which ones this is for."""
    panels = "; ".join(mark_groups(marks))
    if batch.has_moved_holes:
        # The list in full stands with what is moved; of a list cut short nobody could tell.
        is_short = text_width_mm(panels, 3.5) <= _LIST_MM
        named = (
            tr("Moved holes, ONLY for {panels}.", panels=panels) if is_short else tr("Moved holes, ONLY for the panels named.")
        )
        return f"{named} "
    return tr("Laid from the stock, ONLY for {panels}.", panels=panels) + " " if batch.is_apart else ""


def _sentence(setout: SetOut, design: Design, bond: Bond) -> str:
    kit = setout.room.kit
    parts: dict[str, Part] = {part.name: part for part in setout.room.parts}
    knobs = " + ".join(str(span.width) for span in leg_spans(bond))
    courses = sum(layer.kind == "course" for layer in bond.layers)
    width = " + ".join(f"{span.width * kit.pitch_mm:.1f}" for span in leg_spans(bond))
    height = max(layer.z_plates + layer.height_plates for layer in bond.layers) * kit.plate_mm
    named = (("plate", tr("plates")), ("cap", tr("cap")))
    on_top = [name for kind, name in named if any(layer.kind == kind for layer in bond.layers)]
    up = ", ".join([tr("{courses} courses up", courses=courses), *on_top])
    across = tr("{knobs} knobs across, corner included", knobs=knobs) if bond.corner else tr("{knobs} knobs across", knobs=knobs)
    size = f"{width} × {metric_size(height, 1)}"
    counted = tr(
        "{size}; {parts} parts, about {mass:.2f} kg by the parts' estimated masses",
        size=size,
        parts=sum(bond.parts.values()),
        mass=mass_kg(bond, parts),
    )
    return f"{tr(KIND_NAMES[design.kind])}, {across}, {up}; {counted}"
