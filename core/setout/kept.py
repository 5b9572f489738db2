"""A bounded memory for results that are pure functions of their key; forgetting one changes nothing but the time taken."""

from collections import OrderedDict
from collections.abc import Callable, Hashable
from typing import TypeVar, cast

T = TypeVar("T")


class Kept:
    """Results by key; the longest unused go first when there are more than ``most``."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._held: OrderedDict[Hashable, object] = OrderedDict()

    def get(self, key: Hashable, make: Callable[[], T]) -> T:
        """The result kept under ``key``, made now if it is not there."""
        if key in self._held:
            self._held.move_to_end(key)
            return cast(T, self._held[key])
        made = make()
        self._held[key] = made
        if len(self._held) > self._most:
            self._held.popitem(last=False)
        return made
