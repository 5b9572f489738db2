"""Checks about the frame: what does not work, what to mind, and what is for others to judge."""

from collections import Counter
from collections.abc import Iterator
from math import ceil
from typing import TYPE_CHECKING

from core.frame.datum import datum_words
from core.frame.receptacles import FarStretch
from core.frame.remedies import misses_in_words
from core.frame.tolerance import root_sum_square, worst_case
from core.language import marked, tr
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
            tr(
                "{pieces} pieces are longer than any stock length ({stock:g} mm), the longest {longest:.1f} mm. "
                "Add a longer stock length.",
                pieces=len(cuts.plan.too_long_mm),
                stock=max(cuts.stock_mm),
                longest=longest,
            ),
        )
    thickness = room.timberwork.size.thickness_mm
    for wall in range(room.wall_count):
        if room.frame(wall).mode == "to_build" and abs(thickness - room.frame(wall).stud_mm) > 1.0:
            yield Check(
                "warning",
                "timber-size-differs",
                f"wall {wall_letter(wall)}",
                tr(
                    "Its studs are set out {stud:g} mm thick; {size} timber is {thickness:.1f} mm.",
                    stud=room.frame(wall).stud_mm,
                    size=cuts.size,
                    thickness=thickness,
                ),
            )
    for face in room.timberwork.faces:
        if face.wall >= room.wall_count:
            text = tr("timberwork.faces names wall {wall}; there is no such wall.", wall=face.wall)
            yield Check("error", "readings-no-wall", "room", text)


def _about_heights(setout: SetOut) -> Iterator[Check]:
    if words := datum_words(setout):
        yield Check(
            "note",
            "heights-from-ring",
            "room",
            tr("{datum} Measure sills, heads and rails from there.", datum=words),
        )


def _about_wall(setout: SetOut, frame: "WallFrame") -> Iterator[Check]:
    where = f"wall {wall_letter(frame.wall)}"
    yield from _about_members(setout, frame, where)
    yield from _about_misses(frame, where)
    if frame.screws and not frame.screws.chosen:
        wished = setout.room.timberwork.screw
        fitting = [v for v in frame.screws.verdicts if v.fits]
        if wished and fitting:
            names = {"chosen": _made(wished), "other": _made(fitting[0].screw.name)}
            text = tr("The screw chosen, {chosen}, does not do; {other} does.", **names)
            yield Check("error", "screw-unfit", where, text)
        elif frame.screws.lengths:
            text = (
                tr("Screws: no length suits some of its packing; sort them by packing as listed.")
                if frame.screws.unheld
                else tr("Screws: one length does not suit all of its packing; sort them by packing as listed.")
            )
            yield Check("warning", "screw-lengths", where, text)
        else:
            text = tr("No screw of the list does here; the hardware sheet says why for each.")
            yield Check("error", "no-screw-fits", where, text)
    tolerance, fit = setout.room.timberwork.panel_tolerance_mm, setout.room.kit.fit_mm
    faces = [face for panel in setout.panels for face in panel.faces if face.wall == frame.wall]
    across = max(Counter(mount.z_half_plates for face in faces for mount in face.mounts).values(), default=0) // 2
    if across and worst_case([tolerance] * across) > fit:
        worst, usual = worst_case([tolerance] * across), root_sum_square([tolerance] * across)
        yield Check(
            "note",
            "row-growth",
            where,
            tr(
                "{panels} panels in a row may grow by {worst} at worst, {usual} usually; {fit} of fit are left. "
                "Lay a row out dry first.",
                panels=across,
                worst=metric_size(worst, 1),
                usual=metric_size(usual, 2),
                fit=metric_size(fit),
            ),
        )


def _about_misses(frame: "WallFrame", where: str) -> Iterator[Check]:
    """One check for a wall with screws that find no timber, as grave as the gravest remedy."""
    misses = frame.backed.misses
    remedies = {miss.remedy for miss in misses}
    words = tr("{misses} The frame list says it for each.", misses=misses_in_words(len(frame.points), misses))
    if "none" in remedies:
        yield Check("error", "mount-not-held", where, words)
    elif "move" in remedies:
        yield Check("note", "mount-to-move", where, words)
    elif misses:
        yield Check("note", "mount-remedies", where, words)


_STRIP_OVER = marked(
    "The sole plate lies on a strip {strip:g} mm thick, over the top of the starter ring, so that screws meet it."
)
_STRIP_LEVEL = marked("The sole plate lies on a strip {strip:g} mm thick, level with the starter ring.")


def _about_members(setout: SetOut, frame: "WallFrame", where: str) -> Iterator[Check]:
    if frame.strip_mm:
        yield Check("note", "sole-strip", where, tr(_STRIP_OVER if frame.lift_mm else _STRIP_LEVEL, strip=frame.strip_mm))
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
                    tr("There is no room for a king stud on both sides; have a qualified person say how it is framed."),
                )


def _no_header(opening: Opening, top_mm: float, frame_mm: float) -> Check:
    """A door or window that leaves too little between itself and the top plate's underside, and the frame that would do."""
    left = top_mm - opening.head_mm
    return Check(
        "warning",
        "opening-meets-top-plate",
        f"opening {opening.id}",
        tr(
            _TOO_LITTLE if left > LEAST_PIECE_MM else _INTO_PLATE,
            left=abs(left),
            depth=HEADER_DEPTH_MM,
            frame=ceil(frame_mm),
        ),
    )


_TOO_LITTLE = marked(
    "{left:.0f} mm are left between it and the top plate, too little for a header {depth:g} mm deep. Build the frames up "
    "to {frame:d} mm (frame leaf, Timber, “Frames up to”), or lower the opening."
)
_INTO_PLATE = marked(
    "It reaches {left:.0f} mm into the top plate: there is no room for a header {depth:g} mm deep. Build the frames up "
    "to {frame:d} mm (frame leaf, Timber, “Frames up to”), or lower the opening."
)


def _about_openings(plan: "FramePlan") -> Iterator[Check]:
    for box in plan.boxes:
        if min(box.laps_mm) < 0:
            yield Check(
                "warning",
                "plate-too-small",
                f"opening {box.opening}",
                tr(
                    "The cover plate leaves {gap:.1f} mm of the hole in the panels open; use a larger plate.",
                    gap=-min(box.laps_mm),
                ),
            )
    for escape in plan.escapes:
        if escape.shortfalls:
            yield Check(
                "note",
                "escape-size",
                f"opening {escape.opening}",
                tr(
                    "Too small for an escape opening under IRC R310.2: {shortfalls}. Whether it must be one, and "
                    "whether it is, the local authority decides.",
                    shortfalls="; ".join(escape.shortfalls),
                ),
            )
    for stretch in plan.far_from_outlets:
        yield Check("note", "outlet-far", f"wall {stretch.wall}", _far_words(stretch))


_FAR = marked(
    "{length:.0f} mm of floor line lie over 1829 mm from an outlet, so outlets along unbroken wall are at most 3658 mm apart "
    "(NEC 210.52(A)(1)); ask a licensed electrician. Local code decides."
)
_FAR_BETWEEN = marked(
    "{length:.0f} mm of floor line between two outlets lie over 1829 mm from either: along unbroken wall these are {apart:.0f} "
    "mm apart, where at most 3658 mm follow from NEC 210.52(A)(1); ask a licensed electrician. Local code decides."
)


def _far_words(stretch: FarStretch) -> str:
    length = stretch.end_mm - stretch.begin_mm
    if stretch.apart_mm is None:
        return tr(_FAR, length=length)
    return tr(_FAR_BETWEEN, length=length, apart=stretch.apart_mm)


_MASS = marked(
    "The lining weighs {mass:.0f} kg, {per_m2:.1f} kg to the square metre. A qualified person judges the frame under it."
)
_MASS_GUESSED = marked(
    "The lining weighs {mass:.0f} kg (estimated: weigh the parts), {per_m2:.1f} kg to the square metre. A qualified person "
    "judges the frame under it."
)


def _about_loads(plan: "FramePlan") -> Iterator[Check]:
    loads = plan.loads
    yield Check(
        "note",
        "lining-mass",
        "room",
        tr(_MASS_GUESSED if loads.is_estimated else _MASS, mass=loads.total_kg, per_m2=loads.per_m2_kg),
    )
    if loads.panels_per_box:
        yield Check(
            "note",
            "lift-boxes",
            "room",
            tr(
                "Pack at most {panels} panels of the heaviest design to a box, and lift in pairs.",
                panels=loads.panels_per_box,
            ),
        )


def _made(screw: str) -> str:
    """A screw's name, whose millimetres are part of it."""
    return tr(screw).replace(" mm", METRIC)
