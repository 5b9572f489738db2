"""The panel schedule: which panel hangs where, as a table to read and as CSV for a spreadsheet."""

import csv
import io
from collections.abc import Iterable, Sequence
from itertools import groupby

from core.language import marked, tr
from core.room import wall_letter
from core.setout.metric import x_mm, z_mm
from core.setout.result import Face, Panel, SetOut
from core.units import format_length

CSV_COLUMNS = (
    marked("mark"),
    marked("design"),
    marked("kind"),
    marked("row"),
    marked("wall"),
    marked("left_mm"),
    marked("right_mm"),
    marked("bottom_mm"),
    marked("top_mm"),
    marked("second_wall"),
    marked("second_left_mm"),
    marked("second_right_mm"),
    marked("mounting_points"),
    marked("mounting_points_without_timber"),
    marked("minutes"),
)
_WALL_HEADS = (marked("wall"), marked("length"), marked("pitches"), marked("shell starts at"), marked("packing"))
_ROW_HEADS = (marked("row"), marked("from"), marked("height"), marked("brick courses"))
_RUN_HEADS = (marked("wall-row"), marked("marks"), marked("count"), marked("design"), marked("kind"))
_DESIGN_HEADS = (marked("design"), marked("kind"), marked("count"), marked("built from"))
_TERMS = (
    ("build", marked("build")),
    ("handling", marked("handling")),
    ("setup", marked("set-up")),
    ("sliver", marked("slivers")),
    ("weak", marked("weak panels")),
    ("blocking", marked("points without timber")),
)


def panels_csv(setout: SetOut) -> str:
    """One line per panel, by wall, then row, then place along it; a corner panel names its second wall too."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(map(tr, CSV_COLUMNS))
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
        tr(panel.kind),
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
        tr("{room}: set-out", room=setout.room.name),
        table_text(tr("Walls"), tuple(map(tr, _WALL_HEADS)), _wall_lines(setout)),
        table_text(tr("Rows, from the floor"), tuple(map(tr, _ROW_HEADS)), _row_lines(setout)),
        table_text(tr("Panels, left to right as seen from inside"), tuple(map(tr, _RUN_HEADS)), _runs(setout)),
        summary_text(setout),
    ]
    return "\n\n".join(parts) + "\n"


def summary_text(setout: SetOut) -> str:
    """What to build and how long it takes: the designs with their counts, and the crew minutes."""
    designs = [
        (design.name, tr(design.kind), str(design.count), tr("kit") if design.in_kit else tr("own sheet"))
        for design in setout.designs
    ]
    tally = setout.tally
    total = tr(
        "{panels} panels of {designs} designs, {own} of them not in the kit",
        panels=tally.panels,
        designs=len(designs),
        own=tally.designs_not_in_kit,
    )
    table = table_text(tr("Designs to build"), tuple(map(tr, _DESIGN_HEADS)), designs)
    return f"{table}\n\n{total}\n{_minutes_line(setout)}"


def _minutes_line(setout: SetOut) -> str:
    minutes = setout.minutes
    terms = ", ".join(f"{tr(name)} {getattr(minutes, term):.0f}" for term, name in _TERMS if getattr(minutes, term))
    return tr(
        "{minutes:.0f} crew minutes ({hours:.1f} hours): {terms}", minutes=minutes.total, hours=minutes.total / 60, terms=terms
    )


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
        marks = first if len(panels) == 1 else tr("{first} to {last}", first=first, last=last)
        lines.append((band, marks, str(len(panels)), design, tr(panels[0].kind)))
    return lines


def _band(panel: Panel) -> str:
    return panel.mark.rpartition("-")[0]


def table_text(title: str, heads: Sequence[str], lines: Iterable[Sequence[str]]) -> str:
    """A table to read on a terminal, under its title."""
    table: list[Sequence[str]] = [heads, *lines]
    widths = [max(len(line[column]) for line in table) for column in range(len(heads))]
    rows = ["  ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True)).rstrip() for line in table]
    return "\n".join([title, *(f"  {row}" for row in rows)])
