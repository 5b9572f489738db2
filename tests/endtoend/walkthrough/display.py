"""A virtual screen of our own, and pictures of all of it with the pointer as it looks."""

import os
import subprocess
import tempfile
from pathlib import Path

import numpy as np
from PIL import Image

WIDE_PX, HIGH_PX = 1600, 900
SMALLEST_FILE = 6
"""How hard zlib tries; nine takes thrice as long for some per cent."""


class Display:
    """An X server without a window manager; its framebuffer lies in a file."""

    def __init__(self, wide_px: int = WIDE_PX, high_px: int = HIGH_PX) -> None:
        self._folder = tempfile.TemporaryDirectory(prefix="coursewright-screen-")
        reading, writing = os.pipe()
        screen = ["-screen", "0", f"{wide_px}x{high_px}x24", "-fbdir", self._folder.name]
        self._server = subprocess.Popen(
            ["Xvfb", "-displayfd", str(writing), *screen, "-nolisten", "tcp", "-noreset"],
            pass_fds=(writing,),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        os.close(writing)
        with os.fdopen(reading) as told:
            number = told.readline().strip()
        if not number:
            raise RuntimeError("Xvfb did not start")
        self.name = f":{number}"

    def shoot(self, path: Path) -> None:
        """Write what is on the screen as PNG."""
        Image.fromarray(self.pixels()).save(path, compress_level=SMALLEST_FILE)

    def pixels(self) -> np.ndarray:
        """Rows of red, green and blue. The file is an X window dump: 25 numbers, a name, a colour map, then the rows."""
        data = (Path(self._folder.name) / "Xvfb_screen0").read_bytes()
        head = np.frombuffer(data, ">u4", 25)
        header, wide, high, line, colours = (int(head[at]) for at in (0, 4, 5, 12, 19))
        rows = np.frombuffer(data, np.uint8, high * line, header + colours * 12).reshape(high, line // 4, 4)
        return np.ascontiguousarray(rows[:, :wide, 2::-1])

    def close(self) -> None:
        self._server.terminate()
        self._server.wait(10)
        self._folder.cleanup()
