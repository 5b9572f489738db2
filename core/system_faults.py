"""Why a file could not be read or saved, as it stands within a sentence, and what to do about it."""

import errno

from core.language import marked, tr
from core.system_words import system_words

_REMEDIES = {
    **dict.fromkeys((errno.ENOSPC, errno.EDQUOT, errno.EFBIG), marked("free some space or save elsewhere")),
    **dict.fromkeys((errno.EROFS, errno.EACCES, errno.EPERM), marked("save in a folder that you may write to")),
    **dict.fromkeys((errno.ENOENT, errno.ENOTDIR), marked("its folder is gone, save in another")),
}


def why(error: Exception) -> str:
    """What went wrong, in one line; what is not translated begins with a small letter."""
    said = error.strerror if isinstance(error, OSError) and error.strerror else str(error).splitlines()[0]
    shown = system_words(error).splitlines()[0]
    return said[:1].lower() + said[1:] if shown == said else shown


def remedy(error: Exception) -> str:
    """What to do about it; nothing where nobody knows."""
    known = _REMEDIES.get(error.errno or 0) if isinstance(error, OSError) else None
    return tr(known) if known else ""
