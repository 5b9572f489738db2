"""A bounded memory for results that are pure functions of their key; forgetting one changes nothing but the time taken."""

from collections.abc import Callable, Hashable
from typing import TypeVar, cast

T = TypeVar("T")


class Kept:
    """Results by key, at most ``most`` of them.

    They are kept in two generations: what is asked for moves to the young one, and when that has grown to half the limit
    it becomes the old one, whose unasked-for results are forgotten. That is nearly as good as forgetting the longest unused
    first, and much quicker to look up.
    """

    def __init__(self, most: int) -> None:
        self._half = max(1, most // 2)
        self._young: dict[Hashable, object] = {}
        self._old: dict[Hashable, object] = {}

    def allow(self, most: int) -> None:
        """Raise the limit to ``most``, if it is lower."""
        self._half = max(self._half, most // 2)

    def __len__(self) -> int:
        return len(self._young) + len(self._old)

    def __contains__(self, key: Hashable) -> bool:
        """Whether a result is kept under ``key``; asking does not keep it any longer."""
        return key in self._young or key in self._old

    def get(self, key: Hashable, make: Callable[[], T]) -> T:
        """The result kept under ``key``, made now if it is not there."""
        if key in self._young:
            return cast(T, self._young[key])
        found = self._old.pop(key) if key in self._old else make()
        if len(self._young) >= self._half:
            self._old, self._young = self._young, {}
        self._young[key] = found
        return cast(T, found)
