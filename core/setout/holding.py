"""What hangs already: panels that a set-out leaves in their places, as long as what is cut out there still suits them."""

from core.language import tr
from core.progress import PanelRecord
from core.room import wall_letter
from core.setout.bodies import Candidate, blocks_within
from core.setout.held import Held
from core.setout.layers import Block
from core.setout.naming import bears
from core.setout.problem import Problem
from core.setout.result import Row
from core.setout.wishes import Wish
from core.setout.workshop import Workshop


def held_in(problem: Problem, workshop: Workshop, row: Row) -> tuple[Held, ...]:
    """What is held in a row, by wall: panels that hang in it, and what a person pinned besides."""
    records = problem.hanging.get((row.z_plates, row.courses))
    if not records:
        return problem.held(row)
    wishes = [wish for record in records if still_suits(record, problem, workshop) for wish in _wishes(record, problem)]
    return problem.wishes.held(row, tuple(wishes))


def bars_stack(problem: Problem, bottom: int, courses: int) -> bool:
    """Whether a row would lie across panels that hang in another row."""
    kit = problem.room.kit
    top = bottom + kit.row_plates(courses)
    return any(
        (low, count) != (bottom, courses) and low < top and bottom < low + kit.row_plates(count) for low, count in problem.hanging
    )


def still_suits(record: PanelRecord, problem: Problem, workshop: Workshop) -> bool:
    """Whether a panel that hangs is what would be built for its place now."""
    candidate = _candidate(record, problem)
    return candidate is not None and any(bears(body.built_to, record.design) for body in workshop.bodies(candidate))


def _candidate(record: PanelRecord, problem: Problem) -> Candidate | None:
    """The candidate that a record's panel was, in the room as it is; None where the room has no such place."""
    assert record.row_bottom_plates is not None
    assert record.row_courses is not None
    kit = problem.room.kit
    row = Row(0, record.row_bottom_plates, record.row_courses, kit.row_plates(record.row_courses))
    walls = problem.shell.walls
    if any(span.wall >= len(walls) or span.right_pitches > walls[span.wall].pitches for span in record.spans):
        return None
    blocks, layers = problem.blocks(row), problem.layers(row)
    if len(record.spans) == 1:
        (span,) = record.spans
        width = span.right_pitches - span.left_pitches
        return Candidate(layers, width, blocks_within(blocks[span.wall], span.left_pitches, width), None)
    left, right = record.spans[0], record.spans[-1]
    if problem.before(right.wall) != left.wall or walls[right.wall].left == "free":
        return None
    leg = walls[left.wall].pitches - left.left_pitches
    end = walls[left.wall].pitches
    near = [Block(b.left - end, b.right - end, b.low, b.high) for b in blocks[left.wall]] + list(blocks[right.wall])
    width = leg + right.right_pitches
    return Candidate(layers, width, blocks_within(tuple(near), -leg, width), (walls[right.wall].left, leg))


def _wishes(record: PanelRecord, problem: Problem) -> list[Wish]:
    """What keeps a panel that hangs in its place."""
    text = tr("the panel {design} that hangs on wall {wall}", design=record.design, wall=wall_letter(record.wall))
    if len(record.spans) == 1:
        (span,) = record.spans
        return [Wish(span.wall, None, Held(spans=((span.left_pitches, span.right_pitches),)), text)]
    left, right = record.spans[0], record.spans[-1]
    leg = problem.pitches(left.wall) - left.left_pitches
    return [Wish(left.wall, None, Held(right_leg=leg), text), Wish(right.wall, None, Held(left_leg=right.right_pitches), text)]
