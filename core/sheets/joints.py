"""Where the panels of a wall meet: rows with the same joints share one dimension line."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from core.setout.result import Face


@dataclass(frozen=True, slots=True)
class Pattern:
    """The joints of some rows: their indices, and where panels begin and end, in millimetres from the shell's left end."""

    rows: tuple[int, ...]
    joints_mm: tuple[float, ...]

    @property
    def words(self) -> str:
        return rows_words(self.rows)


def patterns(faces: Iterable[tuple[int, Face]], pitch_mm: float) -> tuple[Pattern, ...]:
    """Every distinct pattern of joints among faces with their rows, that of most rows first, lower rows before higher."""
    edges: defaultdict[int, set[int]] = defaultdict(set)
    for row, face in faces:
        edges[row] |= {face.left, face.right}
    rows: defaultdict[tuple[float, ...], list[int]] = defaultdict(list)
    for row, found in sorted(edges.items()):
        rows[tuple(edge * pitch_mm for edge in sorted(found - {0}))].append(row)
    made = [Pattern(tuple(alike), joints) for joints, alike in rows.items()]
    return tuple(sorted(made, key=lambda pattern: (-len(pattern.rows), pattern.rows)))


def rows_words(rows: Sequence[int]) -> str:
    """Row indices as the crew counts them: ``row 7``, ``rows 1 to 3, 5, 6``."""
    spans: list[list[int]] = []
    for row in sorted(rows):
        if spans and spans[-1][1] == row - 1:
            spans[-1][1] = row
        else:
            spans.append([row, row])
    return f"{'row' if len(rows) == 1 else 'rows'} {', '.join(_span(first + 1, last + 1) for first, last in spans)}"


def _span(first: int, last: int) -> str:
    if first == last:
        return str(first)
    return f"{first}, {last}" if last == first + 1 else f"{first} to {last}"
