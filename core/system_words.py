"""Why the system refused something, in the reader's language, and what to do about it: it says so in English or in that of the
machine.
"""

import errno

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

_REMEDIES = {
    **dict.fromkeys((errno.ENOSPC, errno.EDQUOT, errno.EFBIG), marked("free some space or save elsewhere")),
    **dict.fromkeys((errno.EROFS, errno.EACCES, errno.EPERM), marked("save in a folder that you may write to")),
    **dict.fromkeys((errno.ENOENT, errno.ENOTDIR), marked("its folder is gone, save in another")),
}


def system_words(error: Exception, *, in_sentence: bool = False) -> str:
    """The system's reason in one line, or the error's own words, or its kind where it says nothing.

    ``in_sentence`` begins what is not translated with a small letter.
    """
    said = error.strerror if isinstance(error, OSError) and error.strerror else str(error) or type(error).__name__
    said = said.splitlines()[0]
    shown = tr(said)
    return said[:1].lower() + said[1:] if in_sentence and shown == said else shown


def remedy(error: Exception) -> str:
    """What to do about a file that could not be saved; nothing where nobody knows."""
    known = _REMEDIES.get(error.errno or 0) if isinstance(error, OSError) else None
    return tr(known) if known else ""
