"""What is cut and bought for the room's frame, in rows."""

from collections import Counter

from app.framing.facts import Fact
from app.framing.wall_facts import short
from core.frame import FramePlan
from core.frame.stock import Cut
from core.room import Room
from core.units import format_length, metric_size

CUT_TITLES = ("Member", "Length.", "How many.", "By wall")
BOARD_TITLES = ("Boards.", "Length.", "Left over.", "Cut into")
BOUGHT_TITLES = ("Timber", "")
_ALONG = "Lengths along the grain, from the set-out of each wall's members. Source: geometry."
_SOURCE = "column generation, P. C. Gilmore and R. E. Gomory, Operations Research 9, 1961"


def cut_facts(room: Room, plan: FramePlan) -> list[Fact]:
    """Everything to cut, longest first."""
    return [
        Fact(
            (group.name, short(group.length_mm, room.display_units), str(group.count), group.where),
            f"By wall: {group.where}. {_ALONG}",
        )
        for group in plan.cuts.groups
    ]


def board_facts(room: Room, plan: FramePlan) -> list[Fact]:
    """How each board is cut."""
    return [_board(room, plan, cut) for cut in plan.cuts.plan.cuts]


def _board(room: Room, plan: FramePlan, cut: Cut) -> Fact:
    units, kerf = room.display_units, plan.cuts.kerf_mm
    lengths = Counter(cut.pieces_mm)
    into = ", ".join(f"{many} × {short(mm, units)}" if many > 1 else short(mm, units) for mm, many in lengths.items())
    keep = "keep it" if cut.offcut_mm >= room.timberwork.least_offcut_mm else "scrap"
    how = (
        f"{into}. {cut.stock_mm:g} - {metric_size(sum(cut.pieces_mm))} of pieces - {len(cut.pieces_mm)} cuts of "
        f"{metric_size(kerf)}, not less than 0 = {metric_size(cut.offcut_mm)}: {keep}. Source: arithmetic."
    )
    return Fact((str(cut.count), short(cut.stock_mm, units), short(cut.offcut_mm, units), into), how)


def bought_facts(room: Room, plan: FramePlan) -> list[Fact]:
    """The whole of it: boards, metres, how sure that is the least, offcuts, mass."""
    cuts, units = plan.cuts, room.display_units
    boards = cuts.plan
    if not cuts.groups:
        return [Fact(("nothing to cut", ""), "Every frame stands and every screw finds timber.")]
    by_length: Counter[float] = Counter()
    for cut in boards.cuts:
        by_length[cut.stock_mm] += cut.count
    kept = [cut for cut in boards.cuts if cut.offcut_mm >= room.timberwork.least_offcut_mm]
    least = (
        f"proven: no plan buys less than {format_length(boards.at_least_mm, units)}"
        if boards.is_proven
        else f"within {100 * (1 - boards.at_least_mm / boards.bought_mm):.1f} % of the least there can be"
    )
    found = [Fact((f"{cuts.size} boards", str(boards.boards)), f"Least length bought, {least}. Source: {_SOURCE}.")]
    found += [
        Fact((f"  of {format_length(mm, units)}", str(many)), "Counted from the cutting plan.")
        for mm, many in sorted(by_length.items())
    ]
    return [
        *found,
        Fact(("bought in all", format_length(boards.bought_mm, units)), f"Sum of the boards; {least}. Source: {_SOURCE}."),
        Fact(("how sure", "the least" if boards.is_proven else least), f"{least[:1].upper()}{least[1:]}. Source: {_SOURCE}."),
        Fact(
            ("waste", f"{100 * boards.waste_share:.1f} %"),
            f"1 - {metric_size(boards.needed_mm)} in pieces / {metric_size(boards.bought_mm)} bought, "
            f"saw cuts included. Source: arithmetic.",
        ),
        Fact(
            ("offcuts to keep", str(sum(cut.count for cut in kept))),
            f"Those of {format_length(room.timberwork.least_offcut_mm, units)} or more; "
            f"the length is set beside. Source: common practice.",
        ),
        Fact(
            ("mass of the pieces", f"{cuts.kg:.0f} kg"),
            f"{boards.needed_mm / 1000:.1f} m × {cuts.kg_per_m:.2f} kg/m. Source: PS 20, weights.",
        ),
        *(
            [Fact(("too long for any board", str(len(boards.too_long_mm))), "Add a longer stock length.")]
            if boards.too_long_mm
            else []
        ),
    ]
