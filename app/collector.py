"""Python's garbage collector kept out of the way: a collection in the middle of a drag takes longer than a frame."""

import gc

from app.document import Document
from core.setout.result import SetOut


def calm_collector(document: Document) -> None:
    """Let the collector look over what is long since loaded no more, and over nothing while a gesture runs.

    Steps of a gesture leave no cycles behind, so that nothing is lost by waiting for its end.
    """
    gc.freeze()
    gc.set_threshold(20_000, 20, 100)

    def follow(_setout: SetOut) -> None:
        if document.gesture_base is not None:
            gc.disable()
        else:
            gc.enable()

    document.changed.connect(follow)
