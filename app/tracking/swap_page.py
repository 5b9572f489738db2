"""How panels come out for something else: one page, written for the screen and the printer or as plain text."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from html import escape
from itertools import chain, repeat

from core.crew.swap import Insert, Screw, Swap
from core.language import tr, trc
from core.room import wall_letter
from core.setout.result import SetOut, Timber
from core.units import format_length

Size = Callable[[float], str]
"""How a length in millimetres is written."""
Rows = tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Section:
    """A heading, some lines, and a table whose first row names its columns."""

    title: str
    lines: tuple[str, ...] = ()
    table: Rows = ()


def swap_sections(setout: SetOut, found: Swap) -> tuple[Section, ...]:
    """The page: cautions first, then the order, the spaces that open, and every screw."""
    units = setout.room.display_units

    def size(mm: float) -> str:
        return format_length(mm, units)

    marks = ", ".join(step.mark for step in found.steps)
    return (
        Section(tr("{room}: taking out {marks}", room=setout.room.name, marks=marks), found.notes),
        Section(tr("Order, from the top down"), table=_order(found)),
        *(Section(_space_title(one), _space(one, size), _timber(one, size)) for one in found.inserts),
        Section(tr("Screws"), table=_screws(found.screws, size)),
    )


def _space_title(insert: Insert) -> str:
    return tr("The space on wall {wall}", wall=wall_letter(insert.wall))


def _order(found: Swap) -> Rows:
    heads = ("", tr("panel"), tr("screws"), tr("pull it off these, below"), tr("these above stay on their own screws"))
    steps = enumerate(found.steps, start=1)
    return (
        heads,
        *((f"{number}", step.mark, f"{step.screws}", ", ".join(step.on), ", ".join(step.under)) for number, step in steps),
    )


def _space(insert: Insert, size: Size) -> tuple[str, ...]:
    lines = [
        tr(
            "An insert of up to {width} wide, {height} high, {depth} deep fits with play all round.",
            width=size(insert.width_mm),
            height=size(insert.height_mm),
            depth=size(insert.depth_mm),
        ),
        tr(
            "The space begins {left} from the wall's left corner and {bottom} above the floor.",
            left=size(insert.left_mm),
            bottom=size(insert.bottom_mm),
        ),
    ]
    if not insert.is_rectangle:
        corners = "; ".join(f"{size(x)}, {size(z)}" for x, z in insert.outline_mm)
        lines.append(tr("It is no rectangle. Its corners, from the left and above the floor: {corners}.", corners=corners))
    lines.append(tr("Timber behind it:") if insert.timber else tr("No timber is known behind it."))
    return tuple(lines)


def _timber(insert: Insert, size: Size) -> Rows:
    if not insert.timber:
        return ()
    return ((tr("member"), tr("from the left"), tr("above the floor")), *(_member(one, size) for one in insert.timber))


def _member(one: Timber, size: Size) -> tuple[str, ...]:
    return tr(one.member), _from_to(one.left_mm, one.width_mm, size), _from_to(one.bottom_mm, one.height_mm, size)


def _from_to(begin_mm: float, extent_mm: float, size: Size) -> str:
    return tr("{begin} to {end}", begin=size(begin_mm), end=size(begin_mm + extent_mm))


def _screws(screws: Sequence[Screw], size: Size) -> Rows:
    place = tr("from the left"), tr("above the floor")
    heads = (tr("panel"), tr("wall"), *place, trc("the timber a screw is in", "in"))
    return (heads, *((s.mark, wall_letter(s.wall), size(s.x_mm), size(s.z_mm), _held_by(s)) for s in screws))


def _held_by(screw: Screw) -> str:
    return tr(screw.timber) if screw.timber else tr("no timber known")


def page_html(sections: Sequence[Section]) -> str:
    """The page with headings and tables."""
    return "".join(_section_html(section, "h2" if number == 0 else "h3") for number, section in enumerate(sections))


def _section_html(section: Section, head: str) -> str:
    lines = "".join(f"<p>{escape(line)}</p>" for line in section.lines)
    rows = [
        "<tr>" + "".join(f"<{cell} align='left'>{escape(text)}</{cell}>" for text in row) + "</tr>"
        for row, cell in zip(section.table, chain(("th",), repeat("td")), strict=False)
    ]
    table = f"<table cellspacing='0' cellpadding='4'>{''.join(rows)}</table>" if rows else ""
    return f"<{head}>{escape(section.title)}</{head}>{lines}{table}"


def page_text(sections: Sequence[Section]) -> str:
    """The page as plain text, columns padded with blanks."""
    return "\n".join(line.rstrip() for section in sections for line in _section_text(section)).rstrip() + "\n"


def _section_text(section: Section) -> Iterator[str]:
    yield section.title
    yield from section.lines
    widths = [max(len(text) for text in column) for column in zip(*section.table, strict=True)]
    for row in section.table:
        yield "  ".join(text.ljust(wide) for text, wide in zip(row, widths, strict=True))
    yield ""
