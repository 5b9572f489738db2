"""The hole template: where a panel's screws fall along its width, at full size, to mark timber before the panel hangs."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from core.bond.result import Bond
from core.drawing import Box, Item, Path, Pen, Text
from core.drawing.items import rectangle
from core.drawing.lettering import text_width_mm, wrap
from core.kit import Kit
from core.language import marked, tr
from core.setout.result import SetOut
from core.sheets.draft import Draft, papers
from core.sheets.flow import Line
from core.sheets.full_size import Piece, full_size_drafts, join_marks, piece_words, pieces, strip_width_mm
from core.sheets.panel_bricks import hole
from core.sheets.panel_columns import abreast
from core.sheets.panel_legs import leg_name, leg_spans, running_counts
from core.sheets.panel_patterns import hole_lines
from core.sheets.wording import APART, both
from core.units import METRIC, metric_size

STRIP_MM = 24.0
_UNDER_MM = 9.0
_EDGE, _AXIS, _TICK = Pen(0.5), Pen(0.25), Pen(0.13)
_EVERY = 2
_ABREAST_MM = 10.0
"""Between two strips side by side, where they are short enough for that."""
_LAST_COUNT_MM = 2.0
"""How far the count at a strip's end reaches beyond it."""
_HOW = marked(
    "Cut the strip out and hold it to the frame, its left end where the panel begins, its middle line at the height given "
    "for the hole. Mark through each ring. Timber must lie behind every mark; where there is none, the frame list says "
    "what to do. Small numbers count knobs."
)


@dataclass(frozen=True, slots=True)
class Template:
    """Where holes fall on a panel or on one leg: its width and the lines of its holes, in pitches from its left end."""

    width: int
    lines: tuple[int, ...]
    leg: str


def templates(bonds: Mapping[str, Bond], kit: Kit) -> dict[Template, dict[tuple[float, ...], list[str]]]:
    """The distinct templates; for each the heights of the holes in millimetres above the panel's foot, and the designs."""
    found: defaultdict[Template, defaultdict[tuple[float, ...], list[str]]] = defaultdict(lambda: defaultdict(list))
    for design, bond in bonds.items():
        for span in leg_spans(bond):
            heights: defaultdict[tuple[int, ...], list[float]] = defaultdict(list)
            for layer in bond.layers:
                lines = tuple(span.knobs(line) for leg, line in hole_lines(layer) if leg == span.leg)
                if lines:
                    heights[lines].append(round((layer.z_plates + layer.height_plates / 2) * kit.plate_mm, 2))
            for lines, levels in heights.items():
                found[Template(span.width, lines, leg_name(bond, span.leg))][tuple(levels)].append(design)
    return {template: dict(uses) for template, uses in found.items()}


def hole_templates(setout: SetOut, bonds: Mapping[str, Bond]) -> list[Draft]:
    """Sheets with a strip for every way holes fall along a panel or a leg."""
    kit, paper = setout.room.kit, papers(setout.room.display_units)[1]
    width = strip_width_mm(paper)
    found = sorted(
        templates(bonds, kit).items(), key=lambda pair: (bool(pair[0].leg), -pair[0].width, pair[0].leg, pair[0].lines)
    )
    column = (width - _ABREAST_MM) / 2
    narrow = [template.width * kit.pitch_mm + _LAST_COUNT_MM <= column for template, _ in found]
    wide = [
        line
        for (template, uses), one in zip(found, narrow, strict=True)
        if not one
        for line in _strips(template, uses, kit, width)
    ]
    slim = [
        line for (template, uses), one in zip(found, narrow, strict=True) if one for line in _strips(template, uses, kit, column)
    ]
    pairs = [abreast(slim[n : n + 1], slim[n + 1 : n + 2], column + _ABREAST_MM)[0] for n in range(0, len(slim), 2)]
    return full_size_drafts("hole-template", tr("Hole template"), marked("hole template"), paper, tr(_HOW), [*wide, *pairs])


def _strips(template: Template, uses: Mapping[tuple[float, ...], Sequence[str]], kit: Kit, width: float) -> list[Line]:
    parts = pieces(template.width * kit.pitch_mm, width)
    lines = []
    for number, piece in enumerate(parts, start=1):
        named = f"{template.leg[:1].upper()}{template.leg[1:]}, " if template.leg else ""
        title = tr(
            "{leg}{knobs} knobs, {width}{part}",
            leg=named,
            knobs=template.width,
            width=metric_size(template.width * kit.pitch_mm, 1),
            part=piece_words(number, len(parts)),
        )
        said = "; ".join(f"{both([f'{mm:.1f}' for mm in levels])}{METRIC}: {APART.join(names)}" for levels, names in uses.items())
        rows = [(part, 3.5, 5.4) for part in wrap(title, width, 3.5)]
        rows += [(part, 2.5, 4.2) for part in wrap(tr("Holes above the panel's foot at {heights}", heights=said), width, 2.5)]
        items: list[Item] = []
        y = 0.0
        for part, size, height in rows:
            items.append(Text((0.0, y + height - 1.2), part, size))
            y += height
        items += _strip(template, kit, piece, y + 1.0)
        lines.append(Line(y + 1.0 + STRIP_MM + _UNDER_MM, tuple(items)))
    return lines


def _strip(template: Template, kit: Kit, piece: Piece, top: float) -> list[Item]:
    def x(mm: float) -> float:
        return mm - piece.start_mm

    bottom, middle = top + STRIP_MM, top + STRIP_MM / 2
    items: list[Item] = [
        rectangle(Box(0.0, top, piece.length_mm, bottom), _EDGE),
        Path(((0.0, middle), (piece.length_mm, middle)), _TICK),
    ]
    counts = [
        count for count in range(template.width + 1) if piece.start_mm - 1e-6 <= count * kit.pitch_mm <= piece.end_mm + 1e-6
    ]
    items += [Path(((x(count * kit.pitch_mm), bottom - 2.0), (x(count * kit.pitch_mm), bottom)), _TICK) for count in counts]
    shown = [count for count in counts if count % _EVERY == 0 or count == template.width]
    items += running_counts([(x(count * kit.pitch_mm), count) for count in shown], bottom, has_ticks=False)
    for number, line in enumerate(template.lines):
        if line in counts:
            items += _hole(template, kit, line, (x(line * kit.pitch_mm), top), is_low=number % 2 == 1)
    return [*items, *join_marks(piece, x, top, bottom)]


def _hole(template: Template, kit: Kit, line: int, at: tuple[float, float], *, is_low: bool) -> list[Item]:
    """A hole's axis and ring, and how far it is from either end of the panel; every second one says so below the middle."""
    x, top = at
    said = tr(
        "{left:.1f} from left, {right:.1f} from right",
        left=line * kit.pitch_mm,
        right=(template.width - line) * kit.pitch_mm,
    )
    fits_left = x - 4.0 - text_width_mm(said, 2.5) >= 0.0 and line * 2 > template.width
    return [
        Path(((x, top), (x, top + STRIP_MM)), _AXIS),
        *hole((x, top + STRIP_MM / 2), 1.0),
        Text((x - 4.0 if fits_left else x + 4.0, top + (19.8 if is_low else 5.5)), said, 2.5, "end" if fits_left else "start"),
    ]
