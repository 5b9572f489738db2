"""Why the system could not read or write a file, in the reader's language, and what to do about it."""

import errno

from core.language import ENGLISH, marked, spoken, tr

_REMEDIES = {
    **dict.fromkeys((errno.ENOSPC, errno.EDQUOT, errno.EFBIG), marked("free some space or save elsewhere")),
    **dict.fromkeys((errno.EROFS, errno.EACCES, errno.EPERM), marked("save in a folder that you may write to")),
    **dict.fromkeys((errno.ENOENT, errno.ENOTDIR), marked("its folder is gone, save in another")),
}


def system_words(error: OSError) -> str:
    """What the system says, as it says it in English."""
    said = error.strerror or str(error)
    return said if spoken() == ENGLISH else tr(_in_a_sentence(said))


def why(error: Exception) -> str:
    """What went wrong, as it stands within a sentence."""
    said = error.strerror if isinstance(error, OSError) and error.strerror else str(error).splitlines()[0]
    return tr(_in_a_sentence(said))


def remedy(error: Exception) -> str:
    """What to do about it; nothing where nobody knows."""
    known = _REMEDIES.get(error.errno or 0) if isinstance(error, OSError) else None
    return tr(known) if known else ""


def _in_a_sentence(text: str) -> str:
    return text[:1].lower() + text[1:]
