"""What a frame plan says about one wall, in rows: what misses and what helps, what is cut in between, packers, the drift."""

from collections.abc import Sequence

from app.framing.facts import Fact
from core.frame import WallFrame
from core.frame.misses import Miss
from core.frame.packers import on_two_lines
from core.frame.remedies import GRAVEST_FIRST, misses_in_words
from core.language import marked, tr, trc
from core.room import Units
from core.setout.result import SetOut
from core.units import format_length, in_units, metric_size

MISS_TITLES = (
    *(marked("Panel"), marked("Along."), marked("Up."), marked("Short by.")),
    *(marked("Nearest"), marked("Do this")),
)
BLOCK_TITLES = (marked("No"), marked("Cut length."), marked("Left end."), marked("Middle, up."), marked("Holds"))
MARK_TITLES = (marked("No"), marked("Left edge."), marked("Middle."), marked("To the right of the mark"))
PACKER_TITLES = (marked("Panel"), marked("Lower screws, from the left"), marked("Upper screws, from the left"))


def short(mm: float, units: Units) -> str:
    """A length without its unit where that is millimetres."""
    return format_length(mm, units, with_unit=False)


def summary(frame: WallFrame) -> str:
    """How many screws find no timber, and what helps them, in one line."""
    said = misses_in_words(len(frame.points), frame.backed.misses)
    if not frame.strip_mm:
        return said
    strip = tr("The sole plate lies on a strip {thickness:g} mm thick.", thickness=frame.strip_mm)
    return f"{said} {strip}"


def miss_facts(setout: SetOut, frame: WallFrame) -> list[Fact]:
    """A row for every screw that the frame alone does not hold, the gravest first."""
    ordered = sorted(frame.backed.misses, key=lambda m: (GRAVEST_FIRST.index(m.remedy), m.point.x_mm, m.point.z_mm))
    return [_miss_fact(setout, miss) for miss in ordered]


def _miss_fact(setout: SetOut, miss: Miss) -> Fact:
    units, edge, point = setout.room.display_units, setout.room.kit.mounts.edge_mm, miss.point
    nearest, away, how = trc("no timber", "none"), "", tr("No timber of the wall is wide enough to hold a screw")
    if miss.gap is not None:
        nearest, away = tr(miss.gap.member.member), short(miss.gap.distance_mm, units)
        how = tr(
            "From the screw to where the {timber} holds it: √({across:.1f}² + {up:.1f}²) = {distance}; "
            "a screw keeps {edge:g} mm from the timber's edge (2.5 diameters of a {screw} screw, from memory, NDS)",
            timber=nearest,
            across=abs(miss.gap.across_mm),
            up=abs(miss.gap.up_mm),
            distance=metric_size(miss.gap.distance_mm, 1),
            edge=edge,
            screw=metric_size(3.2),
        )
    words, how = in_units(miss.words, units), in_units(how, units)
    cells = (point.mark, short(point.x_mm, units), short(point.z_mm, units), away, nearest, words)
    begun = f"{words[:1].upper()}{words[1:]}"
    said = tr("{arithmetic}. {remedy}: common practice, no published source.", arithmetic=how, remedy=begun)
    return Fact(cells, said, f"panel {point.mark}")


def block_facts(setout: SetOut, frame: WallFrame) -> list[Fact]:
    """A row for every piece cut in between the uprights or fixed against one."""
    units, edge = setout.room.display_units, setout.room.kit.mounts.edge_mm
    found = []
    for number, block in enumerate(frame.backed.blocks, start=1):
        sizes = (short(mm, units) for mm in (block.length_mm, block.left_mm, block.middle_mm))
        marks = ", ".join(dict.fromkeys(point.mark for point in block.points))
        how = tr(
            "Holds {marks}. On edge, from upright to upright, as few as hold all points: each point keeps {edge:g} mm from its "
            "edges and {end:g} mm from its ends. Measure the gap before cutting: timber bends. "
            "Source: common practice, no published source.",
            marks=marks,
            edge=edge,
            end=2 * edge,
        )
        where = f"panel {block.points[0].mark}" if block.points else ""
        found.append(Fact((f"b{number}", *sizes, marks), in_units(how, units), where))
    how = tr(
        "Upright, tight against the stud beside it, 100 mm past the screws it holds; drill pilot holes. "
        "Source: common practice, no published source."
    )
    for piece in frame.backed.doubling:
        sizes = (short(mm, units) for mm in (piece.height_mm, piece.left_mm, piece.bottom_mm + piece.height_mm / 2))
        found.append(Fact((tr("upright"), *sizes, tr("screws near the stud's edge")), in_units(how, units)))
    return found


def mark_facts(setout: SetOut, frame: WallFrame) -> list[Fact]:
    """A row for every mark to strike on the plates of a frame to build; nothing where it stands."""
    units = setout.room.display_units
    how = tr(
        "Hook the tape at the left end of the plates and strike both together at every left edge, never measured from the stud "
        "before. Source: US Navy Builder manual NAVEDTRA 14044, fig. 1-40."
    )
    return [
        Fact(
            (
                ", ".join(map(str, mark.numbers)),
                short(mark.left_mm, units),
                short(mark.centre_mm, units),
                tr(" and ").join(tr(name) for name in mark.names),
            ),
            how,
        )
        for mark in frame.marks
    ]


def packer_facts(setout: SetOut, frame: WallFrame) -> list[Fact]:
    """A row for every panel: how thick the packer behind each screw must be, on its lower and its upper line."""
    units = setout.room.display_units
    found = []
    for mark, both in on_two_lines(frame.points, frame.packers.thickness_mm).items():
        lower, upper = (", ".join(short(one, units) for one in line) for line in both)
        found.append(
            Fact((mark, lower, upper), _packer_how(setout, frame, [one for line in both for one in line]), f"panel {mark}")
        )
    return found


def _packer_how(setout: SetOut, frame: WallFrame, thickness_mm: Sequence[float]) -> str:
    packing = setout.walls[frame.wall].packing_mm
    if frame.packers.method == "not measured":
        said = tr("The wall's packing everywhere, {packing:g} mm: its face was not read. Source: geometry.", packing=packing)
        return in_units(said, setout.room.display_units)
    face = next(face for face in setout.room.timberwork.faces if face.wall == frame.wall)
    forward = min(reading.depth_mm for reading in face.readings)
    added = f"- {forward:g} + {packing:g}"
    sums = "; ".join(f"{thick + forward - packing:.2f} {added} = {metric_size(thick)}" for thick in thickness_mm)
    return tr(
        "Depth there ({method}) - the most forward reading + the wall's packing: {sums}. Source: geometry.",
        method=tr(frame.packers.method),
        sums=sums,
    )
