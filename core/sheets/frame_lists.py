"""The frame in lists: what to mark off a tape, what to cut from which board, which screws lack timber, which screw to drive."""

from collections import Counter
from collections.abc import Container, Iterator, Sequence

from core.drawing import Box
from core.frame import FramePlan, WallFrame
from core.frame.cutlist import CutList
from core.frame.members import Member
from core.frame.packers import on_two_lines
from core.language import marked, tr, trn
from core.room import Units, wall_letter
from core.setout.result import SetOut
from core.sheets.draft import Draft, drawing_box, papers
from core.sheets.flow import Column, Line, gap, heading, paragraph, sized
from core.sheets.listing import list_drafts, rows_under
from core.sheets.wording import both, lengths_in
from core.units import SIXTEENTH_INCH_MM, format_length, in_units


def _box(setout: SetOut) -> Box:
    return drawing_box(papers(setout.room.display_units)[0], has_foot=False)


def _mm(setout: SetOut, mm: float) -> str:
    return format_length(mm, setout.room.display_units, with_unit=False)


def table(titles: Sequence[str], rows: Sequence[Sequence[str]], width: float, *, numbers: Container[int] = ()) -> Iterator[Line]:
    """A table with its heads; the columns at ``numbers`` stand to the right."""
    columns = [Column(title, anchor="end" if place in numbers else "start") for place, title in enumerate(titles)]
    yield from rows_under(sized(columns, rows, width), rows)


def wall_list(setout: SetOut, frame: WallFrame) -> list[Draft]:
    """One wall: marks off a tape, members to cut, blocking, and every screw that needs something done."""
    width = _box(setout).width
    letter = wall_letter(frame.wall)
    lines: list[Line] = []
    if frame.marks:
        lines += [heading(tr("Wall {wall}: marks off a tape", wall=letter), width), *_words(tr(_TAPE), width)]
        heads: tuple[str, ...] = (tr("no"), tr("left edge"), tr("middle"), tr("to the right of the mark"))
        lines += table(heads, _tape_rows(setout, frame), width, numbers=(1, 2))
        heads = (tr("no"), tr("member"), tr("length"), tr("stands at"), tr("height"))
        lines.append(heading(tr("Members to cut"), width))
        lines += table(heads, _member_rows(setout, frame.members), width, numbers=(2, 3, 4))
    if frame.backed.blocks or frame.backed.doubling:
        lines += [heading(tr("Wall {wall}: cut in between the uprights", wall=letter), width), *_words(tr(_CUT_IN), width)]
        heads = ("", tr("cut length"), tr("left end"), tr("middle, height"), tr("holds screws"))
        lines += table(heads, _block_rows(setout, frame), width, numbers=(1, 2, 3))
    if frame.backed.misses:
        lines += [
            heading(tr("Wall {wall}: screws the frame alone does not hold", wall=letter), width),
            *_words(tr(_MISSES), width),
        ]
        heads = (tr("panel"), tr("across"), tr("up"), tr("short by"), tr("nearest"), tr("do this"))
        lines += table(heads, _miss_rows(setout, frame), width, numbers=(1, 2, 3))
    if len(set(frame.packers.thickness_mm)) > 1:
        lines += [
            heading(tr("Wall {wall}: packers", wall=letter), width),
            *_words(tr("Face read: {method}.", method=tr(frame.packers.method)), width),
        ]
        heads = (tr("panel"), tr("lower screws, from the left"), tr("upper screws, from the left"))
        lines += table(heads, _packer_rows(setout, frame), width)
    if not lines:
        return []
    lines = [*_words(lengths_in(setout.room.display_units), width), *lines]
    title = tr("Frame list of wall {wall}", wall=letter)
    return list_drafts(setout, f"frame-{letter}-list", title, marked("frame list"), lines)


_TAPE = marked(
    "Hook the tape at the left end of the plates, inside face of the frame's left corner. Strike both plates together at every "
    "left edge; the timber goes to the right of its line. Measure from the end every time, never from the stud before."
)
_CUT_IN = marked("Fixed before panels go up. Measure each gap before cutting: timber bends.")
_MISSES = marked(
    "Across and up: where the panel's design has the hole. Short by: from there to the nearest place where the screw would keep "
    "its distance from the timber's edge. Own design: the panel has a sheet of its own that draws the hole where it goes."
)


def _words(text: str, width: float) -> list[Line]:
    return [*paragraph(text, width), gap(1.5)]


def _tape_rows(setout: SetOut, frame: WallFrame) -> list[list[str]]:
    return [
        [
            ", ".join(map(str, mark.numbers)),
            _mm(setout, mark.left_mm),
            _mm(setout, mark.centre_mm),
            both([tr(name) for name in mark.names]),
        ]
        for mark in frame.marks
    ]


def _member_rows(setout: SetOut, members: Sequence[Member]) -> list[list[str]]:
    return [
        [
            str(m.number),
            tr(m.name) + (f" × {m.plies}" if m.plies > 1 else ""),
            _mm(setout, m.length_mm),
            _mm(setout, m.timber.left_mm),
            _mm(setout, m.timber.bottom_mm),
        ]
        for m in members
    ]


def _block_rows(setout: SetOut, frame: WallFrame) -> list[list[str]]:
    rows = [
        [
            f"b{number}",
            _mm(setout, b.length_mm),
            _mm(setout, b.left_mm),
            _mm(setout, b.middle_mm),
            ", ".join(dict.fromkeys(p.mark for p in b.points)),
        ]
        for number, b in enumerate(frame.backed.blocks, start=1)
    ]
    for t in frame.backed.doubling:
        near = (
            m.point for m in frame.backed.misses if m.remedy == "doubling" and abs(m.point.x_mm - t.left_mm - t.width_mm / 2) < 60
        )
        held = [p.mark for p in near if t.bottom_mm <= p.z_mm <= t.bottom_mm + t.height_mm]
        inside = trn(
            "{n} screw; upright, tight against the stud beside it",
            "{n} screws; upright, tight against the stud beside it",
            len(held),
        )
        rows.append(
            [tr("upright"), _mm(setout, t.height_mm), _mm(setout, t.left_mm), _mm(setout, t.bottom_mm + t.height_mm / 2), inside]
        )
    return rows


def _miss_rows(setout: SetOut, frame: WallFrame) -> list[list[str]]:
    rows = []
    for miss in frame.backed.misses:
        gap_mm, nearest = (_short(setout, miss.gap.distance_mm), tr(miss.gap.member.member)) if miss.gap else ("", tr("none"))
        words = in_units(miss.words, setout.room.display_units)
        rows.append([miss.point.mark, _mm(setout, miss.point.x_mm), _mm(setout, miss.point.z_mm), gap_mm, nearest, words])
    return rows


def _short(setout: SetOut, mm: float) -> str:
    """By how much a screw misses: never nothing, for it does miss."""
    is_us = setout.room.display_units == "ft-in"
    return _mm(setout, max(mm, SIXTEENTH_INCH_MM if is_us else 0.1))


def _packer_rows(setout: SetOut, frame: WallFrame) -> list[list[str]]:
    """A row for every panel: its packers on each height, from the left."""
    lines = on_two_lines(frame.points, frame.packers.thickness_mm)
    return [[mark, *(", ".join(_mm(setout, one) for one in line) for line in both)] for mark, both in lines.items()]


def timber_list(setout: SetOut, plan: FramePlan) -> list[Draft]:
    """The room's cut list and how its boards are cut; nothing where no timber is cut."""
    cuts, width = plan.cuts, _box(setout).width
    if not cuts.groups:
        return []
    write = setout.room.display_units
    said = f"{_boards_words(cuts, write)} {lengths_in(write)}"
    boards = Counter({cut.stock_mm: 0 for cut in cuts.plan.cuts})
    for cut in cuts.plan.cuts:
        boards[cut.stock_mm] += cut.count
    buy = ", ".join(f"{count} × {format_length(length, write)}" for length, count in sorted(boards.items(), reverse=True))
    keep = setout.room.timberwork.least_offcut_mm
    kept = [f"{cut.count} × {format_length(cut.offcut_mm, write)}" for cut in cuts.plan.cuts if cut.offcut_mm >= keep]
    offcuts = tr("Offcuts to keep: {lengths}.", lengths=", ".join(kept)) if kept else tr("Offcuts to keep: none long enough.")
    lines = [heading(tr("Timber to buy"), width), *_words(f"{buy}. {said} {offcuts}", width)]
    heads = (tr("member"), tr("length"), tr("how many"), tr("for walls"))
    lines += [heading(tr("Cut list"), width), *table(heads, _group_rows(setout, plan), width, numbers=(1, 2))]
    heads = (tr("boards"), tr("of"), tr("cut, in this order"), tr("left of each"))
    lines += [heading(tr("Boards"), width), *table(heads, _board_rows(setout, plan), width, numbers=(1, 3))]
    return list_drafts(setout, "timber", tr("Timber cut list"), marked("cut list"), lines)


def _boards_words(cuts: CutList, units: Units) -> str:
    bought, least = format_length(cuts.plan.bought_mm, units), format_length(cuts.plan.at_least_mm, units)
    boards = {"size": cuts.size, "boards": cuts.plan.boards, "bought": bought, "least": least}
    if cuts.plan.is_proven:
        said = tr(
            "{size} timber, {boards} boards, {bought} in all; no plan needs less than {least} (so this is the least).", **boards
        )
    else:
        said = tr("{size} timber, {boards} boards, {bought} in all; no plan needs less than {least}.", **boards)
    rest = tr(
        "Saw cut {kerf}. Pieces {mass:.0f} kg. Measure the room again before cutting.",
        kerf=format_length(cuts.kerf_mm, units),
        mass=cuts.kg,
    )
    return f"{said} {rest}"


def _group_rows(setout: SetOut, plan: FramePlan) -> list[list[str]]:
    return [[tr(g.name), _mm(setout, g.length_mm), str(g.count), g.where] for g in plan.cuts.groups]


def _board_rows(setout: SetOut, plan: FramePlan) -> list[list[str]]:
    rows = []
    for cut in plan.cuts.plan.cuts:
        counts = Counter(cut.pieces_mm)
        words = " + ".join(
            f"{many} × {_mm(setout, length)}" if many > 1 else _mm(setout, length) for length, many in counts.items()
        )
        rows.append([f"{cut.count} ×", _mm(setout, cut.stock_mm), words, _mm(setout, cut.offcut_mm)])
    return rows
