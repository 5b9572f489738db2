"""What stands in words and numbers on a panel sheet: its parts, the figures to check it by, where it goes, where it is weak."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby

from core.bond.result import Bond
from core.drawing import Path, Pen
from core.drawing.items import moved
from core.kit import Kit
from core.language import marked, tr, trn
from core.parts import Part
from core.sheets.flow import Column, Line, gap, header_row, heading, heading_and_words, paragraph, row, sized
from core.sheets.panel_bricks import Look
from core.sheets.panel_legs import leg_name, leg_spans
from core.sheets.panel_patterns import courses_words, hole_lines, layer_name, layers_words
from core.sheets.wording import both
from core.units import METRIC, metric_size

_ROW_MM = 4.0
_RULE = Pen(0.13, grey=0.5)
_KINDS = ("brick", "pin-hole brick", "plate", "locating plate", "tile", "plug")
FAULT_WORDS = {
    "straight joint": marked("a joint right above another: keep this panel from knocks until it hangs"),
    "short lap": marked("joints lap by one knob only; these lengths leave no better way"),
    "poor bearing": marked("a brick that bears on little beside the opening: hold it while you lay the next course"),
    "loose": marked("a part that nothing holds yet: glue or tape it"),
    "left out": marked("a place that no part fits: leave it open"),
}


def mass_kg(bond: Bond, parts: Mapping[str, Part]) -> float:
    """What one panel weighs by the parts' masses, in kilograms."""
    return sum(count * parts[name].mass_g for name, count in bond.parts.items() if name in parts) / 1000


def part_lines(bond: Bond, panels: int, looks: Mapping[str, Look], width_mm: float) -> list[Line]:
    """The parts list: how each part is drawn, how many one panel takes and how many all of them."""
    order = {look: number for number, look in enumerate(_KINDS)}
    counts = sorted(bond.parts.items(), key=lambda pair: (order.get(_kind(looks, pair[0]), len(order)), -pair[1], pair[0]))
    counts = [(name, count) for name, count in counts if count]
    titles = [
        Column(tr("part")),
        Column(tr("drawn as"), anchor="middle"),
        Column(tr("one panel"), anchor="end"),
        Column(tr("all {panels}", panels=panels), anchor="end"),
    ]
    cells = [[tr(name), _drawn_as(looks, name), str(count), str(count * panels)] for name, count in counts]
    total = sum(bond.parts.values())
    columns = sized(titles, cells, width_mm)
    return [
        heading(tr("Parts: {parts} in one panel", parts=total), width_mm),
        header_row(columns),
        *(_tight(columns, texts) for texts in cells),
    ]


def _tight(columns: Sequence[Column], cells: Sequence[str]) -> Line:
    """A row a little lower than other tables' rows, so that a full panel's list stays on its sheet."""
    width = sum(column.width_mm for column in columns)
    items = [moved(item, 0.0, -0.4) for item in row(columns, cells, is_ruled=False).items]
    return Line(_ROW_MM, (*items, Path(((0.0, _ROW_MM), (width, _ROW_MM)), _RULE)))


def _kind(looks: Mapping[str, Look], name: str) -> str:
    return looks[name].kind if name in looks else ""


def _drawn_as(looks: Mapping[str, Look], name: str) -> str:
    if name not in looks or looks[name].kind == "plug":
        return ""
    return looks[name].label


def slack_mm(kit: Kit) -> float:
    """By how much a panel may be too large or too small: half the fit, and never so much that a knob could be miscounted."""
    return min(kit.fit_mm / 2, kit.pitch_mm / 4, kit.plate_mm / 2)


def check_lines(bond: Bond, kit: Kit, width_mm: float) -> list[Line]:
    """The figures a finished panel is checked by, with the least and the most that pass, and the rule behind them."""
    rows = check_rows(bond, kit)
    limits = (tr("must be"), tr("go from"), tr("go to"))
    titles = [Column(tr("measure")), *(Column(name, anchor="end") for name in limits)]
    columns = sized(titles, rows, width_mm)
    slack = slack_mm(kit)
    rule = tr(
        "Go: within {slack}, half the shell's fit. Wider: the run does not close. Taller: a brick is not "
        "pressed home. Smaller: one is missing or of another make.",
        slack=metric_size(slack),
    )
    holes = tr("Holes, in knobs from the left: {holes}. Each must be clear.", holes=holes_words(bond))
    lines = [
        heading(tr("Check before it leaves the bench"), width_mm),
        header_row(columns),
        *(_tight(columns, texts) for texts in rows),
    ]
    return [*lines, gap(1.2), *paragraph(rule, width_mm), gap(1.0), *paragraph(holes, width_mm)]


def check_rows(bond: Bond, kit: Kit) -> list[list[str]]:
    """Name, figure, least and most of every check; counts leave no play. Always in millimetres: inches are too coarse."""
    slack = slack_mm(kit)
    spans = leg_spans(bond)
    sides = [f"{leg_name(bond, span.leg)}, " if bond.corner else "" for span in spans]
    courses = sum(layer.kind == "course" for layer in bond.layers)
    found = [
        [side + tr("knobs across"), str(span.width), str(span.width), str(span.width)]
        for side, span in zip(sides, spans, strict=True)
    ]
    found.append([tr("brick courses up"), str(courses), str(courses), str(courses)])
    sizes = [(side + tr("width,{unit}", unit=METRIC), span.width * kit.pitch_mm) for side, span in zip(sides, spans, strict=True)]
    height = max(layer.z_plates + layer.height_plates for layer in bond.layers) * kit.plate_mm
    sizes.append((tr("height without top knobs,{unit}", unit=METRIC), height))
    return [*found, *([name, f"{size:.1f}", f"{size - slack:.1f}", f"{size + slack:.1f}"] for name, size in sizes)]


def holes_words(bond: Bond) -> str:
    """Which courses have holes and after how many knobs from the left of each leg."""
    spans = leg_spans(bond)
    layers: defaultdict[tuple[tuple[int, int], ...], list[int]] = defaultdict(list)
    for number, layer in enumerate(bond.layers):
        if lines := hole_lines(layer):
            layers[lines].append(number)
    said = []
    for lines, numbers in layers.items():
        places = []
        for leg, group in groupby(lines, key=lambda line: line[0]):
            counts = both([str(spans[leg].knobs(line)) for _, line in group])
            places.append(f"{leg_name(bond, leg)} {counts}".strip())
        said.append(f"{layers_words(bond, numbers)}: {', '.join(places)}")
    return "; ".join(said) if said else tr("none")


def place_lines(marks: Sequence[str], turned: Sequence[str], width_mm: float) -> list[Line]:
    """Where the panels of a design go: their marks by wall and row, those that hang turned about by themselves."""
    straight = [mark for mark in marks if mark not in set(turned)]
    lines = [heading(trn("Where it goes: {n} panel", "Where it goes: {n} panels", len(marks)), width_mm)]
    lines += paragraph("; ".join(mark_groups(straight)), width_mm)
    if turned:
        said = tr("Turned about, its back to the room: {panels}", panels="; ".join(mark_groups(turned)))
        lines += [gap(1.0), *paragraph(said, width_mm)]
    return lines


def mark_groups(marks: Iterable[str]) -> list[str]:
    """Marks with wall and row named once: ``A-1-02, 04 to 08``."""
    found = []
    for front, group in groupby(marks, key=lambda mark: mark.rpartition("-")[0]):
        ends = [mark.rpartition("-")[2] for mark in group]
        found.append(f"{front}-{_ends_words(ends)}")
    return found


def _ends_words(ends: Sequence[str]) -> str:
    runs: list[list[str]] = []
    for end in ends:
        if runs and int(runs[-1][-1]) + 1 == int(end):
            runs[-1].append(end)
        else:
            runs.append([end])
    said = [tr("{first} to {last}", first=run[0], last=run[-1]) if len(run) > 2 else ", ".join(run) for run in runs]
    return ", ".join(said)


def weak_lines(bond: Bond, width_mm: float) -> list[Line]:
    """Where the bond is weaker than the rule, in a line for each kind; nothing where it is not."""
    layers: defaultdict[str, set[int]] = defaultdict(set)
    for fault in bond.faults:
        layers[fault.kind].add(fault.layer)
    if not layers:
        return []
    lines = heading_and_words(tr("Weaker here"), tr("press well, lift with both hands"), width_mm)
    for kind, numbers in layers.items():
        words = f"{_weak_layers(bond, sorted(numbers))}: {tr(FAULT_WORDS[kind])}"
        lines += paragraph(words, width_mm, has_bullet=True)
    return lines


def _weak_layers(bond: Bond, numbers: Sequence[int]) -> str:
    courses = [int(layer_name(bond, number)) for number in numbers if bond.layers[number].kind == "course"]
    others = [layer_name(bond, number) for number in numbers if bond.layers[number].kind != "course"]
    said = [courses_words(courses)] if courses else []
    return ", ".join([*said, *others])
