"""Which panels of a set-out are not the very same as in the one before: a drag leaves most of a large room as it was."""

from collections.abc import Iterator

from core.setout.result import Panel

Panels = tuple[Panel, ...]


def changed_spans(before: Panels, now: Panels) -> tuple[Panels, Panels]:
    """The shortest span of either list outside which both hold the same objects; panels stand in order of their walls."""
    head = _same_at_start(iter(before), iter(now))
    tail = _same_at_start(reversed(before[head:]), reversed(now[head:]))
    return before[head : len(before) - tail], now[head : len(now) - tail]


def _same_at_start(one: Iterator[Panel], other: Iterator[Panel]) -> int:
    count = 0
    for a, b in zip(one, other, strict=False):
        if a is not b:
            break
        count += 1
    return count
