"""Why the system refused something, in the reader's language: it says so in English or in that of the machine."""

from core.language import marked, tr

USUAL = (
    marked("No such file or directory"),
    marked("Permission denied"),
    marked("Operation not permitted"),
    marked("No space left on device"),
    marked("Disk quota exceeded"),
    marked("File too large"),
    marked("File exists"),
    marked("File name too long"),
    marked("Is a directory"),
    marked("Not a directory"),
    marked("Read-only file system"),
    marked("Input/output error"),
    marked("Device or resource busy"),
    marked("Bad file descriptor"),
    marked("Too many levels of symbolic links"),
)
"""What reading and writing files usually fails for, as the GNU C library words it; anything else stays as the system says it."""


def system_words(error: Exception, *, in_sentence: bool = False) -> str:
    """The system's reason, or the error's own words where it gives none; ``in_sentence`` begins it with a small letter."""
    said = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    shown = tr(said)
    return said.lower() if in_sentence and shown == said else shown
