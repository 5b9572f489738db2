"""Why a panel is the panel it is, and what it costs: its kind, its minutes by the rates, what is charged besides."""

from collections.abc import Sequence
from itertools import pairwise

from core.edits.pins import pins_for
from core.reasons.cuts import Cut, bounds_of, cuts_of, spread_of
from core.room import wall_letter
from core.setout.result import Panel, Ring, SetOut

KIT_KINDS = frozenset({"full", "half-height", "half-width", "quarter"})


def panel_words(setout: SetOut, panel: Panel) -> tuple[str, ...]:
    """Lines that say why a panel is as it is, how its minutes come about, and what it is charged besides."""
    return (kind_words(setout, panel), minutes_words(setout, panel), *charge_words(setout, panel), *_held_words(setout, panel))


def kind_words(setout: SetOut, panel: Panel) -> str:
    """What makes it this kind: ``shaped: the left edge and the sill of window cut into it``."""
    name = panel.kind.replace("-", " ") if panel.kind == "shaped-corner" else panel.kind
    if panel.kind in ("shaped", "shaped-corner"):
        return f"{name}: {_cut_words(cuts_of(setout, panel))}"
    if panel.kind in KIT_KINDS:
        return f"{name}: a panel of the kit, whole"
    if panel.kind == "corner":
        return f"{name}: {_corner_words(setout, panel)}"
    return f"{name}: {'; '.join(_closer_reasons(setout, panel))}"


def minutes_words(setout: SetOut, panel: Panel) -> str:
    """Build and handling by the rates: ``14 min: build 10 × 1.00 of a full panel, handling 4``."""
    rates, kit = setout.room.rates, setout.room.kit
    factor = factor_of(setout, panel)
    area = sum(area_of(face.outline) + sum(area_of(hole) for hole in face.holes) for face in panel.faces)
    share = area / (kit.full_width * kit.row_plates(kit.full_courses))
    times = "" if factor == 1 else f" × {factor:g} for its kind"
    build = f"build {rates.build_full_panel:g} × {share:.2f} of a full panel{times}"
    return f"{panel.minutes:.1f} min: {build}, handling {rates.handling:g}"


def charge_words(setout: SetOut, panel: Panel) -> tuple[str, ...]:
    """What set-out charges besides, each in a line of its own."""
    rates, kit = setout.room.rates, setout.room.kit
    lines = []
    design = next((one for one in setout.designs if one.name == panel.design), None)
    if design is not None and not design.in_kit:
        shared = f", shared by {design.count} panels" if design.count > 1 else ""
        lines.append(f"+ {rates.setup:g} min to set up its design once{shared}")
    walls = {face.wall for face in panel.faces}
    spreads = [spread_of(panel, wall) for wall in walls]
    if len(walls) == 1 and spreads[0].right - spreads[0].left < kit.half_width:
        lines.append(f"+ {rates.sliver:g} min as a sliver: narrower than a half-width panel ({kit.half_width} pitches)")
    if any(check.code == "weak-panel" and check.where == f"panel {panel.mark}" for check in setout.checks):
        lines.append(f"+ {rates.weak:g} min as weak: a part under 4 pitches wide, or fewer than 3 courses")
    missed = sum(mount.lands_on is None for face in panel.faces for mount in face.mounts)
    if missed:
        points = "1 point" if missed == 1 else f"{missed} points"
        lines.append(f"+ {missed * rates.blocking:g} min for {points} without timber, {rates.blocking:g} each")
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
        return "it is left with a stepped outline"
    return "; ".join(_one_cut(cut) for cut in cuts)


def _one_cut(cut: Cut) -> str:
    if len(cut.edges) == 4:
        return f"{cut.opening.id} is cut out of it"
    if not cut.edges:
        return f"{cut.opening.id} parts it"
    edges = _listed([f"the {edge}" for edge in cut.edges])
    return f"{edges} of {cut.opening.id} cut{'s' if len(cut.edges) == 1 else ''} into it"


def _corner_words(setout: SetOut, panel: Panel) -> str:
    walls = list(dict.fromkeys(face.wall for face in panel.faces))
    spreads = [spread_of(panel, wall) for wall in walls]
    legs = " and ".join(str(spread.right - spread.left) for spread in spreads)
    where = " and ".join(wall_letter(wall) for wall in walls)
    kit = setout.room.kit
    own = any(spread.right - spread.left not in kit.legs_pitches for spread in spreads)
    sizes = f"; kit legs are {_listed([str(leg) for leg in sorted(kit.legs_pitches)])}" if own else ""
    reasons = [f"it ties walls {where} together, with legs of {legs} pitches{sizes}"]
    return "; ".join([*reasons, *_height_reasons(setout, panel)])


def _closer_reasons(setout: SetOut, panel: Panel) -> list[str]:
    """Why neither its width nor its height is a kit panel's."""
    kit, reasons = setout.room.kit, _height_reasons(setout, panel)
    spread = spread_of(panel, panel.faces[0].wall)
    width = spread.right - spread.left
    if width not in kit.widths_pitches:
        run = _run_pitches(setout, panel)
        sizes = _listed([str(one) for one in sorted(kit.widths_pitches)])
        fills = _fills(run, kit.widths_pitches)
        why = "could be filled with them, yet set-out found this to cost less" if fills else "is no sum of them"
        reasons.append(f"{width} pitches wide; kit panels are {sizes}, and its run of {run} pitches {why}")
    return reasons or ["not one of the kit's sizes"]


def _height_reasons(setout: SetOut, panel: Panel) -> list[str]:
    kit, row = setout.room.kit, setout.rows[panel.row]
    bounds = [f"it ends {where} {opening.id}" for opening, where in bounds_of(setout, panel)]
    if bounds:
        return bounds
    if row.courses not in (kit.full_courses, kit.half_courses):
        return [f"its row closes the height with {row.courses} courses"]
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


def _held_words(setout: SetOut, panel: Panel) -> tuple[str, ...]:
    return ("pinned here by hand",) if set(pins_for(setout, panel)) <= set(setout.room.pins) else ()


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
