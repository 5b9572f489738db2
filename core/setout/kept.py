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

    def known(self, key: Hashable) -> object | None:
        """The result kept under ``key``; None if there is none."""
        # Keys are long, and every look into a dictionary hashes all of them.
        found = self._young.get(key)
        if found is None and (found := self._old.pop(key, None)) is not None:
            self._keep(key, found)
        return found

    def get(self, key: Hashable, make: Callable[[], T]) -> T:
        """The result kept under ``key``, made now if it is not there. No result is None."""
        found = self._young.get(key)
        if found is None:
            found = self.known(key)
            if found is None:
                found = make()
                self._keep(key, found)
        return cast(T, found)

    def put(self, key: Hashable, found: object) -> None:
        """Keep a result in place of what was kept under ``key``."""
        self._old.pop(key, None)
        self._keep(key, found)

    def everything(self) -> dict[Hashable, object]:
        """All results kept, by key."""
        return self._old | self._young

    def clear(self) -> None:
        """Forget everything."""
        self._old, self._young = {}, {}

    def _keep(self, key: Hashable, found: object) -> None:
        if len(self._young) >= self._half:
            self._old, self._young = self._young, {}
        self._young[key] = found
