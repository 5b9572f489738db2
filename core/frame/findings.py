"""Checks about the frame: what does not work, what to mind, and what is for others to judge."""

from collections import Counter
from collections.abc import Iterator
from math import ceil
from typing import TYPE_CHECKING

from core.frame.datum import datum_words
from core.frame.remedies import misses_in_words
from core.frame.tolerance import root_sum_square, worst_case
from core.room import Opening, wall_letter
from core.setout.result import Check, SetOut
from core.setout.timber import HEADER_DEPTH_MM, LEAST_PIECE_MM
from core.units import METRIC, metric_size

if TYPE_CHECKING:
    from core.frame.plan import FramePlan, WallFrame


def about_frame(setout: SetOut, plan: "FramePlan") -> Iterator[Check]:
    """All checks about a frame plan, errors first."""
    found = [
        *_about_timber(setout, plan),
        *_about_heights(setout),
        *(check for frame in plan.walls for check in _about_wall(setout, frame)),
        *_about_openings(plan),
        *_about_loads(plan),
    ]
    order = {"error": 0, "warning": 1, "note": 2}
    yield from sorted(found, key=lambda check: order[check.level])


def _about_timber(setout: SetOut, plan: "FramePlan") -> Iterator[Check]:
    room, cuts = setout.room, plan.cuts
    if cuts.plan.too_long_mm:
        longest = max(cuts.plan.too_long_mm)
        yield Check(
            "error",
            "timber-too-long",
            "room",
            f"{len(cuts.plan.too_long_mm)} pieces are longer than any stock length ({max(cuts.stock_mm):g} mm), the longest "
            f"{longest:.1f} mm. Add a longer stock length.",
        )
    thickness = room.timberwork.size.thickness_mm
    for wall in range(room.wall_count):
        if room.frame(wall).mode == "to_build" and abs(thickness - room.frame(wall).stud_mm) > 1.0:
            yield Check(
                "warning",
                "timber-size-differs",
                f"wall {wall_letter(wall)}",
                f"Its studs are set out {room.frame(wall).stud_mm:g} mm thick; {cuts.size} timber is {thickness:.1f} mm.",
            )
    for face in room.timberwork.faces:
        if face.wall >= room.wall_count:
            yield Check("error", "readings-no-wall", "room", f"timberwork.faces names wall {face.wall}; there is no such wall.")


def _about_heights(setout: SetOut) -> Iterator[Check]:
    if words := datum_words(setout):
        yield Check(
            "note",
            "heights-from-ring",
            "room",
            f"{words} Measure sills, heads and rails from there.",
        )


def _about_wall(setout: SetOut, frame: "WallFrame") -> Iterator[Check]:
    where = f"wall {wall_letter(frame.wall)}"
    yield from _about_members(setout, frame, where)
    yield from _about_misses(frame, where)
    if frame.screws and not frame.screws.chosen:
        how = "one length does not suit all of its packing" if not frame.screws.unheld else "no length suits some of its packing"
        wished = setout.room.timberwork.screw
        fitting = [v for v in frame.screws.verdicts if v.fits]
        if wished and fitting:
            other = _made(fitting[0].screw.name)
            yield Check("error", "screw-unfit", where, f"The screw chosen, {_made(wished)}, does not do; {other} does.")
        elif frame.screws.lengths:
            yield Check("warning", "screw-lengths", where, f"Screws: {how}; sort them by packing as listed.")
        else:
            yield Check("error", "no-screw-fits", where, "No screw of the list does here; the hardware sheet says why for each.")
    tolerance, fit = setout.room.timberwork.panel_tolerance_mm, setout.room.kit.fit_mm
    across = max(Counter(round(point.z_mm, 1) for point in frame.points).values(), default=0) // 2
    if across and worst_case([tolerance] * across) > fit:
        worst, usual = worst_case([tolerance] * across), root_sum_square([tolerance] * across)
        yield Check(
            "note",
            "row-growth",
            where,
            f"{across} panels in a row may grow by {metric_size(worst, 1)} at worst, {metric_size(usual, 2)} usually; "
            f"{metric_size(fit)} of fit are left. "
            f"Lay a row out dry first.",
        )


def _about_misses(frame: "WallFrame", where: str) -> Iterator[Check]:
    """One check for a wall with screws that find no timber, as grave as the gravest remedy."""
    misses = frame.backed.misses
    remedies = {miss.remedy for miss in misses}
    words = f"{misses_in_words(len(frame.points), misses)} The frame list says it for each."
    if "none" in remedies:
        yield Check("error", "mount-not-held", where, words)
    elif "move" in remedies:
        yield Check("warning", "mount-to-move", where, words)
    elif misses:
        yield Check("note", "mount-remedies", where, words)


def _about_members(setout: SetOut, frame: "WallFrame", where: str) -> Iterator[Check]:
    if frame.strip_mm:
        why = "over the top of the starter ring, so that screws meet it" if frame.lift_mm else "level with the starter ring"
        yield Check("note", "sole-strip", where, f"The sole plate lies on a strip {frame.strip_mm:g} mm thick, {why}.")
    if not frame.is_to_build:
        return
    stud = setout.room.frame(frame.wall).stud_mm
    top = setout.room.frame_head_mm - stud
    for opening in setout.room.openings:
        if opening.wall == frame.wall and opening.kind in ("door", "window", "niche"):
            if opening.head_mm + HEADER_DEPTH_MM > top + 1e-6:
                yield _no_header(opening, top, opening.head_mm + HEADER_DEPTH_MM + stud)
            kings = [m for m in frame.members if m.name == "king stud"]
            beside = [m for m in kings if abs(m.timber.left_mm + m.timber.width_mm - opening.left_mm) < 100]
            beside += [m for m in kings if abs(m.timber.left_mm - opening.right_mm) < 100]
            if len(beside) < 2:
                yield Check(
                    "warning",
                    "opening-without-king",
                    f"opening {opening.id}",
                    "There is no room for a king stud on both sides; have a qualified person say how it is framed.",
                )


def _no_header(opening: Opening, top_mm: float, frame_mm: float) -> Check:
    """A door or window that leaves too little between itself and the top plate's underside, and the frame that would do."""
    left = top_mm - opening.head_mm
    said = (
        f"{left:.0f} mm are left between it and the top plate, too little"
        if left > LEAST_PIECE_MM
        else f"It reaches {-left:.0f} mm into the top plate: there is no room"
    )
    return Check(
        "warning",
        "opening-meets-top-plate",
        f"opening {opening.id}",
        f"{said} for a header {HEADER_DEPTH_MM:g} mm deep. Build the frames up to {ceil(frame_mm):d} mm (frame leaf, Timber, "
        f"“Frames up to”), or lower the opening.",
    )


def _about_openings(plan: "FramePlan") -> Iterator[Check]:
    for box in plan.boxes:
        if min(box.laps_mm) < 0:
            yield Check(
                "warning",
                "plate-too-small",
                f"opening {box.opening}",
                f"The cover plate leaves {-min(box.laps_mm):.1f} mm of the hole in the panels open; use a larger plate.",
            )
    for escape in plan.escapes:
        if escape.shortfalls:
            yield Check(
                "note",
                "escape-size",
                f"opening {escape.opening}",
                f"Too small for an escape opening under IRC R310.2: {'; '.join(escape.shortfalls)}. Whether it must be one, and "
                f"whether it is, the local authority decides.",
            )
    for stretch in plan.far_from_outlets:
        yield Check(
            "note",
            "outlet-far",
            f"wall {stretch.wall}",
            f"{stretch.end_mm - stretch.begin_mm:.0f} mm of floor line lie over 1829 mm from an outlet (NEC 210.52(A)); ask a "
            f"licensed electrician. Local code decides.",
        )


def _about_loads(plan: "FramePlan") -> Iterator[Check]:
    loads = plan.loads
    guess = " (estimated: weigh the parts)" if loads.is_estimated else ""
    yield Check(
        "note",
        "lining-mass",
        "room",
        f"The lining weighs {loads.total_kg:.0f} kg{guess}, {loads.per_m2_kg:.1f} kg to the square metre. A qualified person "
        f"judges the frame under it.",
    )
    if loads.panels_per_box:
        yield Check(
            "note",
            "lift-boxes",
            "room",
            f"Pack at most {loads.panels_per_box} panels of the heaviest design to a box, and lift in pairs.",
        )


def _made(screw: str) -> str:
    """A screw's name, whose millimetres are part of it."""
    return screw.replace(" mm", METRIC)
