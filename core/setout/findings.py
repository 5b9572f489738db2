"""Checks: what a set-out says about its room, worst first."""

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterator, Sequence

from core.language import tr, trn
from core.room import Opening, wall_letter
from core.setout.assembly import Assembly
from core.setout.holding import still_suits
from core.setout.layers import blocked_pitches
from core.setout.mounting import LEAST_POINTS
from core.setout.problem import Problem
from core.setout.result import Check, Panel, Reveal, Row
from core.setout.rows import stacking_of, stacks_up
from core.setout.standing import Standing
from core.setout.workshop import Workshop

LEVELS = {"error": 0, "warning": 1, "note": 2}


def findings(problem: Problem, workshop: Workshop, rows: tuple[Row, ...], assembly: Assembly) -> tuple[Check, ...]:
    """All checks raised, errors first."""
    found = [
        *_about_rows(problem, rows),
        *_about_pins(problem, rows),
        *_about_hanging(problem, workshop, rows),
        *_about_walls(problem, assembly),
        *_about_panels(assembly),
        *_about_openings(problem),
        *_standing_notes(problem),
    ]
    return tuple(sorted(found, key=lambda check: LEVELS[check.level]))


def reveals_of(problem: Problem, rows: tuple[Row, ...]) -> tuple[Reveal, ...]:
    """Frame left showing around every opening, for the trim to cover."""
    plate = problem.room.kit.plate_mm
    edges = sorted({(row.z_plates + edge) * plate for row in rows for edge in problem.layers(row).edges} | {0.0})
    return tuple(_reveal(problem, edges, opening) for opening in problem.room.openings)


def _reveal(problem: Problem, edges: Sequence[float], opening: Opening) -> Reveal:
    """``edges`` are the heights of all layers in millimetres, from the floor up."""
    kit, shell = problem.room.kit, problem.shell.walls[opening.wall]
    left, right = blocked_pitches(problem.room, problem.shell, opening)
    below = bisect_right(edges, opening.sill_mm + 1e-6)
    above = bisect_left(edges, opening.head_mm - 1e-6)
    return Reveal(
        opening.id,
        left_mm=max(0.0, opening.left_mm - shell.start_mm - left * kit.pitch_mm),
        right_mm=max(0.0, shell.start_mm + right * kit.pitch_mm - opening.right_mm),
        sill_mm=opening.sill_mm - (edges[below - 1] if below else 0.0),
        head_mm=edges[above] - opening.head_mm if above < len(edges) else 0.0,
    )


def _about_rows(problem: Problem, rows: tuple[Row, ...]) -> Iterator[Check]:
    room = problem.room
    stacking = stacking_of(room.kit, room.clad_height_mm)
    if not rows:
        low = room.kit.row_plates(room.kit.least_closing_courses) * room.kit.plate_mm
        yield Check(
            "error",
            "no-row-stack",
            "room",
            tr(
                "No stack of rows ends within {head_gap:g} mm under the clad height of {lining:g} mm; the lowest "
                "lining is {low:g} mm high. Change the clad height, or allow a larger head gap.",
                head_gap=room.kit.head_gap_mm,
                lining=room.clad_height_mm,
                low=low,
            ),
        )
        return
    top = rows[-1].z_plates + rows[-1].height_plates
    gap = room.clad_height_mm - top * room.kit.plate_mm
    assert stacking.least_plates <= top <= stacking.most_plates
    yield Check("note", "head-gap", "room", tr("{gap:.1f} mm stay open under the clad height; trim covers them.", gap=gap))


def _about_pins(problem: Problem, rows: tuple[Row, ...]) -> Iterator[Check]:
    room, stacking = problem.room, stacking_of(problem.room.kit, problem.room.clad_height_mm)
    for pin in room.pins:
        if pin.kind == "rows" and not stacks_up(stacking, pin.courses):
            height = sum(room.kit.row_plates(count) for count in pin.courses) * room.kit.plate_mm
            yield Check(
                "error",
                "pin-refused",
                "room",
                tr(
                    "The pinned rows make {height:.1f} mm; a stack must end at most {head_gap:g} mm under {lining:g} "
                    "mm and may hold one closing row. They are left out: pin other rows, or none.",
                    height=height,
                    head_gap=room.kit.head_gap_mm,
                    lining=room.clad_height_mm,
                ),
            )
    refused = dict.fromkeys(problem.wishes.refused)
    if problem.wishes.wanted:
        refused |= dict.fromkeys(refused for row in rows for refused in problem.wishes.contradictions(row))
    for wish, why in refused:
        where = f"wall {wall_letter(wish.wall)}" if wish.wall < room.wall_count else "room"
        yield Check(
            "error",
            "pin-refused",
            where,
            tr(
                "{wish}: {why}. It is left out: move it or remove it.",
                wish=wish.text[0].upper() + wish.text[1:],
                why=why,
            ),
        )


def _about_hanging(problem: Problem, workshop: Workshop, rows: tuple[Row, ...]) -> Iterator[Check]:
    """Panels that hang but have no place any more."""
    if not problem.room.progress.panels:
        return
    stacked_here = {(row.z_plates, row.courses) for row in rows}
    down: Counter[int] = Counter()
    for place, records in problem.hanging.items():
        for record in records:
            if record.state == "hung" and (place not in stacked_here or not still_suits(record, problem, workshop)):
                down[record.wall] += 1
    for wall, count in sorted(down.items()):
        where = f"wall {wall_letter(wall)}" if wall < problem.room.wall_count else "room"
        yield Check(
            "warning",
            "hung-comes-down",
            where,
            trn(
                "{n} panel that hangs here must come down: an opening, a row or a wall was changed. "
                "Undo the change if that was not meant.",
                "{n} panels that hang here must come down: an opening, a row or a wall was changed. "
                "Undo the change if that was not meant.",
                count,
            ),
        )


def _about_walls(problem: Problem, assembly: Assembly) -> Iterator[Check]:
    bare: Counter[int] = Counter()
    for wall_row in assembly.wall_rows:
        if wall_row.bare_mounts:
            bare.update(m.wall for p in wall_row.panels for f in p.faces for m in f.mounts if m.lands_on is None)
    for wall in problem.shell.walls:
        where = f"wall {wall_letter(wall.wall)}"
        if bare[wall.wall]:
            yield Check(
                "warning",
                "mount-no-timber",
                where,
                tr("{points} mounting points have no timber behind them: see frame leaf and frame list.", points=bare[wall.wall]),
            )
        off = problem.shell.corners[wall.wall].off_square_degrees
        if off > 0.01:
            yield Check(
                "note", "out-of-square", where, tr("The corner at its left end is {off:.2f} degrees off square.", off=off)
            )
        if wall.left == "free":
            yield Check(
                "note",
                "free-end",
                where,
                tr("The corner at its left end is not square: panels stop there with a plain end; trim it."),
            )


def _about_panels(assembly: Assembly) -> Iterator[Check]:
    for wall_row in assembly.wall_rows:
        for panel, standing in wall_row.doubtful:
            yield from _about_panel(panel, standing)


def _about_panel(panel: Panel, standing: Standing) -> Iterator[Check]:
    body, where, points = standing.body, f"panel {panel.mark}", standing.mounts
    if body.weak:
        yield Check(
            "warning",
            "weak-panel",
            where,
            tr(
                "A part under 4 pitches wide, or fewer than 3 courses: it will not hold together well. Move or "
                "resize the opening beside it, or leave the place to trim."
            ),
        )
    if points < LEAST_POINTS:
        yield Check(
            "warning",
            "few-mounts",
            where,
            tr("Only one mounting point fit on this panel; it needs two, or another way to be held.")
            if points
            else tr("No mounting point fit on this panel; it needs two, or another way to be held."),
        )
    elif not body.mounts_clear:
        yield Check(
            "note",
            "mount-near-cut-out",
            where,
            tr("Its mounting points stand nearer to a cut-out than usual; no room elsewhere."),
        )


def _about_openings(problem: Problem) -> Iterator[Check]:
    for opening in problem.room.openings:
        where = f"opening {opening.id}"
        if opening.kind in ("outlet", "switch"):
            yield Check(
                "note",
                "box-extension",
                where,
                tr(
                    "The lining is combustible: the electrical box must come flush with its face. Power off; work "
                    "for a licensed electrician; local code decides."
                ),
            )
        beyond = _beyond_lining_mm(problem, opening)
        if beyond > 0:
            yield Check(
                "warning",
                "opening-past-lining",
                where,
                tr(
                    "{beyond:.1f} mm of it lie beyond the lining, which stops short of the corner; move the opening, "
                    "or trim there.",
                    beyond=beyond,
                ),
            )
        hidden = _hidden_by_next_wall_mm(problem, opening)
        if hidden > 0:
            yield Check(
                "warning",
                "opening-behind-lining",
                where,
                tr(
                    "The lining of the wall next to it covers {hidden:.1f} mm of this opening; move it away from the corner.",
                    hidden=hidden,
                ),
            )


def _hidden_by_next_wall_mm(problem: Problem, opening: Opening) -> float:
    """How far the neighbouring walls' lining, at an inside corner, stands in front of an opening."""
    room, shell = problem.room, problem.shell.walls[opening.wall]
    thick = room.kit.thickness_pitches * room.kit.pitch_mm
    hidden = 0.0
    if shell.left == "inside":
        hidden = max(hidden, shell.start_mm + thick - opening.left_mm)
    if shell.right == "inside":
        end = shell.start_mm + shell.pitches * room.kit.pitch_mm
        hidden = max(hidden, opening.right_mm - (end - thick))
    return hidden


def _beyond_lining_mm(problem: Problem, opening: Opening) -> float:
    """How far an opening reaches past the lining's plain end beside a corner that is not square."""
    kit, shell = problem.room.kit, problem.shell.walls[opening.wall]
    left = shell.start_mm - opening.left_mm if shell.left == "free" else 0.0
    right = opening.right_mm - shell.start_mm - shell.pitches * kit.pitch_mm if shell.right == "free" else 0.0
    return max(left, right)


def _standing_notes(problem: Problem) -> Iterator[Check]:
    yield Check(
        "note",
        "fire-not-assessed",
        "room",
        tr("Fire behaviour is not assessed. Brick plastic is combustible; an interior lining must meet the local fire code."),
    )
    if any(o.kind in ("window", "door") for o in problem.room.openings):
        yield Check(
            "note",
            "escape-not-assessed",
            "room",
            tr("Escape windows and doors must stay clear and open fully; not assessed here."),
        )
