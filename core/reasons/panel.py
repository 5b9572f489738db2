"""Why a panel is the panel it is, and what it costs: its kind, its minutes by the rates, what is charged besides."""

from collections.abc import Mapping, Sequence
from itertools import pairwise

from core.edits.pins import pins_for
from core.language import marked, tr, trn
from core.reasons.cuts import Cut, Edge, bounds_of, cuts_of, spread_of
from core.room import wall_letter
from core.setout.result import Panel, Ring, SetOut
from core.sheets.wording import KIND_NAMES, both

_EDGES: Mapping[Edge, str] = {
    "left edge": marked("the left edge"),
    "right edge": marked("the right edge"),
    "sill": marked("the sill"),
    "head": marked("the head"),
}
KIT_KINDS = frozenset({"full", "half-height", "half-width", "quarter"})


def panel_words(setout: SetOut, panel: Panel) -> tuple[str, ...]:
    """Lines that say why a panel is as it is, how its minutes come about, and what it is charged besides."""
    return (kind_words(setout, panel), minutes_words(setout, panel), *charge_words(setout, panel))


def kind_words(setout: SetOut, panel: Panel) -> str:
    """What makes it this kind: ``shaped: the left edge and the sill of window cut into it``."""
    kind = tr(KIND_NAMES[panel.kind])
    if panel.kind in ("shaped", "shaped-corner"):
        return f"{kind}: {_cut_words(cuts_of(setout, panel))}"
    if panel.kind in KIT_KINDS:
        return tr("{kind}: a panel of the kit, whole", kind=kind)
    if panel.kind == "corner":
        return f"{kind}: {_corner_words(setout, panel)}"
    return f"{kind}: {'; '.join(_closer_reasons(setout, panel))}"


def minutes_words(setout: SetOut, panel: Panel) -> str:
    """Build and handling by the rates: ``14 min: build 10 × 1.00 of a full panel, handling 4``."""
    rates, kit = setout.room.rates, setout.room.kit
    factor = factor_of(setout, panel)
    area = sum(area_of(face.outline) + sum(area_of(hole) for hole in face.holes) for face in panel.faces)
    share = area / (kit.full_width * kit.row_plates(kit.full_courses))
    given = {"minutes": panel.minutes, "rate": rates.build_full_panel, "share": share, "handling": rates.handling}
    if factor == 1:
        return tr("{minutes:.1f} min: build {rate:g} × {share:.2f} of a full panel, handling {handling:g}", **given)
    return tr(
        "{minutes:.1f} min: build {rate:g} × {share:.2f} of a full panel × {factor:g} for its kind, handling {handling:g}",
        factor=factor,
        **given,
    )


def charge_words(setout: SetOut, panel: Panel) -> tuple[str, ...]:
    """What set-out charges besides, each in a line of its own."""
    rates, kit = setout.room.rates, setout.room.kit
    lines = []
    design = next((one for one in setout.designs if one.name == panel.design), None)
    if design is not None and not design.in_kit:
        if design.count > 1:
            lines.append(
                tr(
                    "+ {rate:g} min to set up its design once, shared by {panels} panels",
                    rate=rates.setup,
                    panels=design.count,
                )
            )
        else:
            lines.append(tr("+ {rate:g} min to set up its design once", rate=rates.setup))
    walls = {face.wall for face in panel.faces}
    spreads = [spread_of(panel, wall) for wall in walls]
    if len(walls) == 1 and spreads[0].right - spreads[0].left < kit.half_width:
        lines.append(
            tr(
                "+ {rate:g} min as a sliver: narrower than a half-width panel ({pitches} pitches)",
                rate=rates.sliver,
                pitches=kit.half_width,
            )
        )
    if any(check.code == "weak-panel" and check.where == f"panel {panel.mark}" for check in setout.checks):
        lines.append(tr("+ {rate:g} min as weak: a part under 4 pitches wide, or fewer than 3 courses", rate=rates.weak))
    missed = sum(mount.lands_on is None for face in panel.faces for mount in face.mounts)
    if missed:
        lines.append(
            trn(
                "+ {total:g} min for {n} point without timber, {rate:g} each",
                "+ {total:g} min for {n} points without timber, {rate:g} each",
                missed,
                total=missed * rates.blocking,
                rate=rates.blocking,
            )
        )
    return tuple(lines)


def factor_of(setout: SetOut, panel: Panel) -> float:
    """By how much longer than a plain panel of its size it takes to build."""
    rates = setout.room.rates
    factors = {"shaped": rates.shaped_factor, "corner": rates.corner_factor, "shaped-corner": rates.shaped_corner_factor}
    return factors.get(panel.kind, rates.plain_factor)


def area_of(ring: Ring) -> float:
    """The area a ring goes round in pitch-plates, negative where it runs clockwise."""
    return sum(x0 * z1 - x1 * z0 for (x0, z0), (x1, z1) in pairwise((*ring, ring[0]))) / 2


def _cut_words(cuts: Sequence[Cut]) -> str:
    if not cuts:
        return tr("it is left with a stepped outline")
    return "; ".join(_one_cut(cut) for cut in cuts)


def _one_cut(cut: Cut) -> str:
    if len(cut.edges) == 4:
        return tr("{opening} is cut out of it", opening=cut.opening.id)
    if not cut.edges:
        return tr("{opening} parts it", opening=cut.opening.id)
    # Named first: of a count with a text within, the extractor would take only the first form.
    edges = _listed([tr(_EDGES[edge]) for edge in cut.edges])
    count, opening = len(cut.edges), cut.opening.id
    return trn("{edges} of {opening} cuts into it", "{edges} of {opening} cut into it", count, edges=edges, opening=opening)


def _corner_words(setout: SetOut, panel: Panel) -> str:
    walls = list(dict.fromkeys(face.wall for face in panel.faces))
    spreads = [spread_of(panel, wall) for wall in walls]
    legs = both([str(spread.right - spread.left) for spread in spreads])
    where = both([wall_letter(wall) for wall in walls])
    kit = setout.room.kit
    reasons = [tr("it ties walls {walls} together, with legs of {legs} pitches", walls=where, legs=legs)]
    if any(spread.right - spread.left not in kit.legs_pitches for spread in spreads):
        reasons.append(tr("kit legs are {legs}", legs=_listed([str(leg) for leg in sorted(kit.legs_pitches)])))
    return "; ".join([*reasons, *_height_reasons(setout, panel)])


_FILLS = marked(
    "{width} pitches wide; kit panels are {sizes}, and its run of {run} pitches could be filled with them, "
    "yet set-out found this to cost less"
)
_NO_SUM = marked("{width} pitches wide; kit panels are {sizes}, and its run of {run} pitches is no sum of them")


def _closer_reasons(setout: SetOut, panel: Panel) -> list[str]:
    """Why neither its width nor its height is a kit panel's."""
    kit, reasons = setout.room.kit, _height_reasons(setout, panel)
    spread = spread_of(panel, panel.faces[0].wall)
    width = spread.right - spread.left
    if width not in kit.widths_pitches:
        run = _run_pitches(setout, panel)
        sizes = _listed([str(one) for one in sorted(kit.widths_pitches)])
        fills = _fills(run, kit.widths_pitches)
        reasons.append(tr(_FILLS if fills else _NO_SUM, width=width, sizes=sizes, run=run))
    return reasons or [tr("not one of the kit's sizes")]


def _height_reasons(setout: SetOut, panel: Panel) -> list[str]:
    kit, row = setout.room.kit, setout.rows[panel.row]
    bounds = [
        tr("it ends under {opening}", opening=opening.id)
        if where == "under"
        else tr("it ends over {opening}", opening=opening.id)
        for opening, where in bounds_of(setout, panel)
    ]
    if bounds:
        return bounds
    if row.courses not in (kit.full_courses, kit.half_courses):
        return [tr("its row closes the height with {courses} courses", courses=row.courses)]
    return []


def _run_pitches(setout: SetOut, panel: Panel) -> int:
    """How long the unbroken run of plain panels is in which it stands, in pitches."""
    wall = panel.faces[0].wall
    spread = spread_of(panel, wall)
    plain = [
        spread_of(other, wall)
        for other in setout.panels
        if other.row == panel.row and {face.wall for face in other.faces} == {wall} and other.kind in (*KIT_KINDS, "closer")
    ]
    level = [other for other in plain if (other.bottom, other.top) == (spread.bottom, spread.top)]
    left, right = spread.left, spread.right
    ends = {other.right: other.left for other in level}
    starts = {other.left: other.right for other in level}
    while left in ends:
        left = ends[left]
    while right in starts:
        right = starts[right]
    return right - left


def _fills(run: int, widths: Sequence[int]) -> bool:
    """Whether kit widths add up to a run."""
    reached = {0}
    for length in range(1, run + 1):
        if any(length - width in reached for width in widths):
            reached.add(length)
    return run in reached


def pin_words(setout: SetOut, panel: Panel) -> tuple[str, ...]:
    """That a panel is pinned where it is; nothing where it is not."""
    return (tr("pinned here by hand"),) if set(pins_for(setout, panel)) <= set(setout.room.pins) else ()


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else both([", ".join(words[:-1]), words[-1]])
