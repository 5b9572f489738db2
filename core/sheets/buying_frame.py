"""What the frame's plan adds to the buying list: boards by length, and which screw the panel screw is on which wall."""

from collections import defaultdict
from collections.abc import Iterator

from core.frame import FramePlan
from core.language import marked, tr
from core.room import Room, wall_letter
from core.sheets.flow import Line, heading, paragraph
from core.sheets.frame_hardware import as_sold
from core.sheets.listing import table
from core.units import format_length, in_units

_LISTED_ON = marked("Why this screw: hardware sheet. What is cut from which board: timber cut list.")


def from_the_frame(room: Room, frame: FramePlan, width: float) -> Iterator[Line]:
    """Boards to buy and screws by name and length; nothing where there is neither."""
    boards, screws = _boards(room, frame), _screws(frame)
    if boards:
        yield heading(tr("Boards to buy for the frame"), width)
        yield from table((tr("timber"), tr("length"), tr("boards"), "kg"), boards, width)
    if screws:
        yield heading(tr("The panel screw, spares not counted"), width)
        yield from table((tr("screw"), tr("walls"), tr("length"), tr("screws")), screws, width, texts=2)
        for warning in _warnings(room, frame):
            yield from paragraph(warning, width, 2.5)
    if boards or screws:
        yield from paragraph(tr(_LISTED_ON), width, 2.5)


def _boards(room: Room, frame: FramePlan) -> list[list[str]]:
    counts: defaultdict[float, int] = defaultdict(int)
    for cut in frame.cuts.plan.cuts:
        counts[cut.stock_mm] += cut.count
    return [
        [
            frame.cuts.size,
            format_length(length, room.display_units),
            f"{count}",
            f"{count * length / 1000 * frame.cuts.kg_per_m:.0f}",
        ]
        for length, count in sorted(counts.items())
    ]


def _screws(frame: FramePlan) -> list[list[str]]:
    walls: defaultdict[tuple[str, float], dict[int, int]] = defaultdict(dict)
    unheld: dict[int, int] = {}
    for wall in frame.walls:
        if wall.screws is None:
            continue
        chosen = wall.screws.chosen
        name = tr(chosen.screw.name) if chosen else tr("lengths by packing, see hardware sheet")
        for length, count in wall.screws.lengths.items():
            walls[name, length][wall.wall] = count
        if wall.screws.unheld or not wall.screws.lengths:
            unheld[wall.wall] = wall.screws.unheld or len(wall.points)
    found = [
        [name, _letters(counts), as_sold(length), f"{sum(counts.values())}"] for (name, length), counts in sorted(walls.items())
    ]
    return [*found, *([[tr("no screw of the list does"), _letters(unheld), "", f"{sum(unheld.values())}"]] if unheld else [])]


def _warnings(room: Room, frame: FramePlan) -> list[str]:
    """What a buyer must mind about the screws chosen, each once: some make plugs useless that are on the list."""
    chosen = [wall.screws.chosen for wall in frame.walls if wall.screws and wall.screws.chosen]
    said = (
        tr("Mind, {screw}: {warning}.", screw=tr(one.screw.name), warning=in_units(warning, room.display_units))
        for one in chosen
        for warning in one.warnings
    )
    return list(dict.fromkeys(said))


def _letters(walls: dict[int, int]) -> str:
    return ", ".join(wall_letter(wall) for wall in sorted(walls))
