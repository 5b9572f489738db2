"""How panels come out for something else, as a page to read, print or copy."""

from collections.abc import Callable, Sequence
from html import escape

from core.crew.swap import Insert, Screw, Swap
from core.room import wall_letter
from core.setout.result import SetOut, Timber
from core.units import format_length

Size = Callable[[float], str]
"""How a length in millimetres is written."""


def swap_html(setout: SetOut, found: Swap) -> str:
    """The page: cautions first, then the order, the space that opens, and every screw."""
    units = setout.room.display_units

    def size(mm: float) -> str:
        return format_length(mm, units)

    marks = ", ".join(step.mark for step in found.steps)
    parts = [
        f"<h2>{escape(setout.room.name)}: taking out {escape(marks)}</h2>",
        _list(found.notes),
        "<h3>Order, from the top down</h3>",
        _table(
            ("", "panel", "screws", "pull it off these, below", "these above stay on their own screws"),
            [
                (str(number), step.mark, str(step.screws), ", ".join(step.on), ", ".join(step.under))
                for number, step in enumerate(found.steps, start=1)
            ],
        ),
    ]
    for insert in found.inserts:
        parts += [f"<h3>The space on wall {wall_letter(insert.wall)}</h3>", *_space(insert, size)]
    parts += ["<h3>Screws</h3>", _table(("panel", "wall", "from the left", "above the floor", "in"), _screws(found.screws, size))]
    return "".join(parts)


def _space(insert: Insert, size: Size) -> list[str]:
    lines = [
        f"An insert of up to <b>{size(insert.width_mm)} wide, {size(insert.height_mm)} high, {size(insert.depth_mm)} deep</b> "
        "fits with play all round.",
        f"It begins {size(insert.left_mm)} from the wall's left corner and {size(insert.bottom_mm)} above the floor.",
    ]
    if not insert.is_rectangle:
        corners = "; ".join(f"{size(x)}, {size(z)}" for x, z in insert.outline_mm)
        lines.append(f"It is no rectangle. Its corners, from the left and above the floor: {corners}.")
    found = [f"<p>{line}</p>" for line in lines]
    if insert.timber:
        found.append("<p>Timber behind it:</p>")
        found.append(
            _table(("member", "from the left", "above the floor", "size"), [_timber(one, size) for one in insert.timber])
        )
    return found


def _timber(one: Timber, size: Size) -> tuple[str, ...]:
    left = f"{size(one.left_mm)} to {size(one.left_mm + one.width_mm)}"
    up = f"{size(one.bottom_mm)} to {size(one.bottom_mm + one.height_mm)}"
    return one.member, left, up, f"{size(one.width_mm)} × {size(one.height_mm)}"


def _screws(screws: Sequence[Screw], size: Size) -> list[tuple[str, ...]]:
    return [
        (screw.mark, wall_letter(screw.wall), size(screw.x_mm), size(screw.z_mm), screw.timber or "no timber known")
        for screw in screws
    ]


def _list(lines: Sequence[str]) -> str:
    return "<ul>" + "".join(f"<li>{escape(line)}</li>" for line in lines) + "</ul>"


def _table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    head = "".join(f"<th align='left'>{escape(text)}&nbsp;&nbsp;</th>" for text in heads)
    body = "".join("<tr>" + "".join(f"<td>{escape(cell)}&nbsp;&nbsp;</td>" for cell in row) + "</tr>" for row in rows)
    return f"<table cellspacing='3'><tr>{head}</tr>{body}</table>"
