"""The panel schedule: which panel hangs where, as a table to read and as CSV for a spreadsheet."""

import csv
import io
from collections.abc import Iterable, Sequence
from itertools import groupby

from core.room import wall_letter
from core.setout.metric import x_mm, z_mm
from core.setout.result import Face, Panel, SetOut
from core.units import format_length

CSV_COLUMNS = (
    "mark",
    "design",
    "kind",
    "row",
    "wall",
    "left_mm",
    "right_mm",
    "bottom_mm",
    "top_mm",
    "second_wall",
    "second_left_mm",
    "second_right_mm",
    "mounting_points",
    "mounting_points_without_timber",
    "minutes",
)


def panels_csv(setout: SetOut) -> str:
    """One line per panel, by wall, then row, then place along it; a corner panel names its second wall too."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(CSV_COLUMNS)
    writer.writerows(_csv_line(setout, panel) for panel in setout.panels)
    return text.getvalue()


def _csv_line(setout: SetOut, panel: Panel) -> list[str | int | float]:
    first, *others = (_leg(setout, faces) for faces in _by_wall(panel))
    second = others[0] if others else ("", "", "")
    kit = setout.room.kit
    landings = [mount.lands_on for face in panel.faces for mount in face.mounts]
    return [
        panel.mark,
        panel.design,
        panel.kind,
        panel.row + 1,
        *first,
        z_mm(kit, min(face.bottom for face in panel.faces)),
        z_mm(kit, max(face.top for face in panel.faces)),
        *second,
        len(landings),
        landings.count(None),
        round(panel.minutes, 2),
    ]


def _by_wall(panel: Panel) -> list[list[Face]]:
    """A panel's faces, those on one wall together: an opening at a corner may part a leg into several."""
    walls = dict.fromkeys(face.wall for face in panel.faces)
    return [[face for face in panel.faces if face.wall == wall] for wall in walls]


def _leg(setout: SetOut, faces: list[Face]) -> tuple[str, float, float]:
    """Wall letter, left and right end in millimetres."""
    wall = faces[0].wall
    left, right = min(face.left for face in faces), max(face.right for face in faces)
    return wall_letter(wall), x_mm(setout, wall, left), x_mm(setout, wall, right)


def schedule_text(setout: SetOut) -> str:
    """The whole schedule to read: walls, rows, what hangs in each row of each wall, designs and totals."""
    parts = [
        f"{setout.room.name}: set-out",
        table_text("Walls", ("wall", "length", "pitches", "shell starts at", "packing"), _wall_lines(setout)),
        table_text("Rows, from the floor", ("row", "from", "height", "brick courses"), _row_lines(setout)),
        table_text("Panels, left to right as seen from inside", ("wall-row", "marks", "count", "design", "kind"), _runs(setout)),
        summary_text(setout),
    ]
    return "\n\n".join(parts) + "\n"


def summary_text(setout: SetOut) -> str:
    """What to build and how long it takes: the designs with their counts, and the crew minutes."""
    designs = [
        (design.name, design.kind, str(design.count), "kit" if design.in_kit else "own sheet") for design in setout.designs
    ]
    tally = setout.tally
    total = f"{tally.panels} panels of {len(designs)} designs, {tally.designs_not_in_kit} of them not in the kit"
    return "\n\n".join(
        [table_text("Designs to build", ("design", "kind", "count", "built from"), designs), f"{total}\n{_minutes_line(setout)}"]
    )


def _minutes_line(setout: SetOut) -> str:
    minutes = setout.minutes
    terms = ", ".join(
        f"{name} {getattr(minutes, term):.0f}"
        for term, name in (
            ("build", "build"),
            ("handling", "handling"),
            ("setup", "set-up"),
            ("sliver", "slivers"),
            ("weak", "weak panels"),
            ("blocking", "points without timber"),
        )
        if getattr(minutes, term)
    )
    return f"{minutes.total:.0f} crew minutes ({minutes.total / 60:.1f} hours): {terms}"


def _wall_lines(setout: SetOut) -> list[tuple[str, ...]]:
    units = setout.room.display_units
    return [
        (
            wall_letter(wall.wall),
            format_length(wall.length_mm, units),
            str(wall.pitches),
            format_length(wall.start_mm, units),
            format_length(wall.packing_mm, units),
        )
        for wall in setout.walls
    ]


def _row_lines(setout: SetOut) -> list[tuple[str, ...]]:
    kit, units = setout.room.kit, setout.room.display_units
    return [
        (
            str(row.index + 1),
            format_length(z_mm(kit, row.z_plates), units),
            format_length(z_mm(kit, row.height_plates), units),
            str(row.courses),
        )
        for row in setout.rows
    ]


def _runs(setout: SetOut) -> list[tuple[str, ...]]:
    """Neighbours of one design in one row share a line: their marks, how many, and what they are."""
    lines: list[tuple[str, ...]] = []
    for (band, design), run in groupby(setout.panels, key=lambda panel: (_band(panel), panel.design)):
        panels = list(run)
        first, last = (panel.mark.rpartition("-")[2] for panel in (panels[0], panels[-1]))
        marks = first if len(panels) == 1 else f"{first} to {last}"
        lines.append((band, marks, str(len(panels)), design, panels[0].kind))
    return lines


def _band(panel: Panel) -> str:
    return panel.mark.rpartition("-")[0]


def table_text(title: str, heads: Sequence[str], lines: Iterable[Sequence[str]]) -> str:
    """A table to read on a terminal, under its title."""
    table: list[Sequence[str]] = [heads, *lines]
    widths = [max(len(line[column]) for line in table) for column in range(len(heads))]
    rows = ["  ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True)).rstrip() for line in table]
    return "\n".join([title, *(f"  {row}" for row in rows)])
