"""Places of checks in words: ``where`` itself is a key (``room``, ``wall A``, ``opening door``, ``panel B-3-07``) and stays."""

from core.language import tr


def place_words(where: str) -> str:
    """A check's place in the reader's language, as it stands within a sentence."""
    kind, _, name = where.partition(" ")
    if kind == "wall":
        return tr("wall {wall}", wall=name)
    if kind == "opening":
        return tr("opening {opening}", opening=name)
    if kind == "panel":
        return tr("panel {panel}", panel=name)
    return tr("room") if where == "room" else where


def place_heading(where: str) -> str:
    """A check's place by itself: ``Wall B``."""
    words = place_words(where)
    return words[:1].upper() + words[1:]
