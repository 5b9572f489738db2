"""What is cut and bought for the room's frame, in rows."""

from collections import Counter

from app.framing.facts import Fact
from app.framing.wall_facts import short
from core.frame import FramePlan
from core.frame.stock import Cut
from core.language import marked, tr
from core.room import Room
from core.units import format_length, metric_size

CUT_TITLES = (marked("Member"), marked("Length."), marked("How many."), marked("By wall"))
BOARD_TITLES = (marked("Boards."), marked("Length."), marked("Left over."), marked("Cut into"))
BOUGHT_TITLES = (marked("Timber"), "")
_SOURCE = marked("column generation, P. C. Gilmore and R. E. Gomory, Operations Research 9, 1961")


def cut_facts(room: Room, plan: FramePlan) -> list[Fact]:
    """Everything to cut, longest first."""
    return [
        Fact(
            (tr(group.name), short(group.length_mm, room.display_units), str(group.count), group.where),
            tr(
                "By wall: {walls}. Lengths along the grain, from the set-out of each wall's members. Source: geometry.",
                walls=group.where,
            ),
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
    keep = tr("keep it") if cut.offcut_mm >= room.timberwork.least_offcut_mm else tr("scrap")
    how = tr(
        "{into}. {board:g} - {pieces} of pieces - {cuts} cuts of {kerf}, not less than 0 = {offcut}: {keep}. Source: arithmetic.",
        into=into,
        board=cut.stock_mm,
        pieces=metric_size(sum(cut.pieces_mm)),
        cuts=len(cut.pieces_mm),
        kerf=metric_size(kerf),
        offcut=metric_size(cut.offcut_mm),
        keep=keep,
    )
    return Fact((str(cut.count), short(cut.stock_mm, units), short(cut.offcut_mm, units), into), how)


def bought_facts(room: Room, plan: FramePlan) -> list[Fact]:
    """The whole of it: boards, metres, how sure that is the least, offcuts, mass."""
    if not plan.cuts.groups:
        return [Fact((tr("nothing to cut"), ""), tr("Every frame stands and every screw finds timber."))]
    return [*_lengths_bought(room, plan), *_leavings(room, plan)]


def _lengths_bought(room: Room, plan: FramePlan) -> list[Fact]:
    """Boards by their length, their sum, and how sure it is that no less would do."""
    cuts, units, source = plan.cuts, room.display_units, tr(_SOURCE)
    boards = cuts.plan
    by_length: Counter[float] = Counter()
    for cut in boards.cuts:
        by_length[cut.stock_mm] += cut.count
    if boards.is_proven:
        least = tr("proven: no plan buys less than {length}", length=format_length(boards.at_least_mm, units))
    else:
        gap = 100 * (1 - boards.at_least_mm / boards.bought_mm)
        least = tr("within {percent:.1f} % of the least there can be", percent=gap)
    how = tr("Least length bought, {proof}. Source: {source}.", proof=least, source=source)
    found = [Fact((tr("{size} boards", size=cuts.size), str(boards.boards)), how)]
    for mm, many in sorted(by_length.items()):
        length = tr("  of {length}", length=format_length(mm, units))
        found.append(Fact((length, str(many)), tr("Counted from the cutting plan.")))
    whole = tr("Sum of the boards; {proof}. Source: {source}.", proof=least, source=source)
    begun = least[:1].upper() + least[1:]
    sure = tr("{proof}. Source: {source}.", proof=begun, source=source)
    return [
        *found,
        Fact((tr("bought in all"), format_length(boards.bought_mm, units)), whole),
        Fact((tr("how sure"), tr("the least") if boards.is_proven else least), sure),
    ]


def _leavings(room: Room, plan: FramePlan) -> list[Fact]:
    """What is lost, what is worth keeping, what the pieces weigh, and what no board is long enough for."""
    cuts, boards, least_mm = plan.cuts, plan.cuts.plan, room.timberwork.least_offcut_mm
    kept = sum(cut.count for cut in boards.cuts if cut.offcut_mm >= least_mm)
    waste = tr(
        "1 - {pieces} in pieces / {boards} bought, saw cuts included. Source: arithmetic.",
        pieces=metric_size(boards.needed_mm),
        boards=metric_size(boards.bought_mm),
    )
    worth = tr(
        "Those of {length} or more; the length is set beside. Source: common practice.",
        length=format_length(least_mm, room.display_units),
    )
    mass = tr("{metres:.1f} m × {mass:.2f} kg/m. Source: PS 20, weights.", metres=boards.needed_mm / 1000, mass=cuts.kg_per_m)
    found = [
        Fact((tr("waste"), f"{100 * boards.waste_share:.1f} %"), waste),
        Fact((tr("offcuts to keep"), str(kept)), worth),
        Fact((tr("mass of the pieces"), f"{cuts.kg:.0f} kg"), mass),
    ]
    if boards.too_long_mm:
        found.append(Fact((tr("too long for any board"), str(len(boards.too_long_mm))), tr("Add a longer stock length.")))
    return found
