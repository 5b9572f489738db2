"""The other end of ``Aside``: a process without a window that works out one thing after another until nobody asks any more."""

import os
import pickle
import sys
from typing import IO

from app.assets import asset
from core.errors import CoursewrightError
from core.language import ENGLISH, speak

LENGTH_BYTES = 8
"""Before every message stands how long it is."""


def framed(message: object) -> bytes:
    """A message as it goes through the pipe."""
    data = pickle.dumps(message, protocol=pickle.HIGHEST_PROTOCOL)
    return len(data).to_bytes(LENGTH_BYTES, "little") + data


def unframed(data: bytes | bytearray) -> bytes | None:
    """The first whole message in what came, still pickled; None where it has not all come yet."""
    if len(data) < LENGTH_BYTES:
        return None
    end = LENGTH_BYTES + int.from_bytes(data[:LENGTH_BYTES], "little")
    return bytes(data[LENGTH_BYTES:end]) if len(data) >= end else None


def main(language: str = ENGLISH) -> None:
    """Answer requests on standard input, in the language of whoever asks, until it is closed."""
    if language != ENGLISH:
        speak(language, asset("languages"))
    replies = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    # Whatever a library prints must not end up in the middle of a reply.
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    while (request := _next(sys.stdin.buffer)) is not None:
        function, arguments = pickle.loads(request)
        try:
            reply = (True, function(*arguments))
        except CoursewrightError as error:
            reply = (False, str(error))
        replies.write(framed(reply))
        replies.flush()


def _next(requests: IO[bytes]) -> bytes | None:
    head = requests.read(LENGTH_BYTES)
    if len(head) < LENGTH_BYTES:
        return None
    return requests.read(int.from_bytes(head, "little"))


if __name__ == "__main__":
    main(*sys.argv[1:2])
