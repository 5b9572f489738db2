"""What is remembered of the first steps from one start to the next."""

from collections.abc import Iterable

from PySide6.QtCore import QSettings

LEFT, DONE = "first_steps/left", "first_steps/done"


def is_wanted() -> bool:
    """Whether nobody has left them yet."""
    return str(QSettings().value(LEFT)) != "yes"


def leave() -> None:
    """They come back only when somebody asks for them."""
    QSettings().setValue(LEFT, "yes")


def done_before() -> tuple[str, ...]:
    """The steps done so far. Settings that somebody has damaged count as none."""
    said = QSettings().value(DONE)
    listed = [said] if isinstance(said, str) else said if isinstance(said, list) else []
    return tuple(one for one in listed if isinstance(one, str))


def keep_done(names: Iterable[str]) -> None:
    """Remember which steps are done."""
    QSettings().setValue(DONE, list(names))
