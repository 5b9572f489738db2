"""Where the panels of a wall meet: rows with the same joints share one dimension line."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from core.language import trc, trn
from core.setout.result import Face

Span = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Pattern:
    """The joints of some rows: their indices, and where panels begin and end, in millimetres from the shell's left end.

    A row may lack joints of its pattern where it has no panel: beside an opening they cannot be mistaken.
    """

    rows: tuple[int, ...]
    joints_mm: tuple[float, ...]

    @property
    def words(self) -> str:
        return rows_words(self.rows)


def patterns(faces: Iterable[tuple[int, Face]], pitch_mm: float) -> tuple[Pattern, ...]:
    """Every distinct pattern of joints among faces with their rows, that of most rows first, lower rows before higher."""
    spans: defaultdict[int, set[Span]] = defaultdict(set)
    for row, face in faces:
        spans[row].add((face.left, face.right))
    groups: dict[frozenset[int], list[int]] = {}
    edges = {row: frozenset(edge for span in found for edge in span) for row, found in spans.items()}
    for row in sorted(spans, key=lambda row: (-len(edges[row]), row)):
        host = next((joints for joints in groups if _serves(joints, edges[row], spans[row])), edges[row])
        groups.setdefault(host, []).append(row)
    made = [
        Pattern(tuple(sorted(alike)), tuple(edge * pitch_mm for edge in sorted(joints - {0}))) for joints, alike in groups.items()
    ]
    return tuple(sorted(made, key=lambda pattern: (-len(pattern.rows), pattern.rows)))


def _serves(joints: frozenset[int], edges: frozenset[int], spans: Iterable[Span]) -> bool:
    """Whether a line with those joints can dimension a row: it has all of the row's, and its others meet no panel there."""
    return edges <= joints and not any(left < joint < right for left, right in spans for joint in joints - edges)


def rows_words(rows: Sequence[int]) -> str:
    """Row indices as the crew counts them: ``row 7``, ``rows 1 to 3, 5, 6``."""
    spans: list[list[int]] = []
    for row in sorted(rows):
        if spans and spans[-1][1] == row - 1:
            spans[-1][1] = row
        else:
            spans.append([row, row])
    said = ", ".join(_span(first + 1, last + 1) for first, last in spans)
    return trn("row {rows}", "rows {rows}", len(rows), rows=said)


def _span(first: int, last: int) -> str:
    if first == last:
        return str(first)
    return f"{first}, {last}" if last == first + 1 else trc("rows", "{first} to {last}", first=first, last=last)
