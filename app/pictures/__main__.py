"""Takes the pictures: ``python -m app.pictures --out docs/pictures``, or only those named after it."""

import argparse
import os
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

SMALLEST_FILE = 0
"""Qt's “quality” of a PNG is how little it is packed."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Take pictures without a screen, with settings of their own."""
    parser = argparse.ArgumentParser(prog="python -m app.pictures", description="Takes the pictures of the pages in docs.")
    parser.add_argument("--out", type=Path, required=True, metavar="DIR", help="the folder they go to")
    parser.add_argument("names", nargs="*", metavar="NAME", help="which pictures; all where none is named")
    options = parser.parse_args(arguments)
    with tempfile.TemporaryDirectory(prefix="coursewright-pictures-") as home:
        os.environ.update(dict.fromkeys(("XDG_CONFIG_HOME", "XDG_STATE_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME"), home))
        os.environ["QT_QPA_PLATFORM"] = "offscreen"
        return take(options.names, options.out, Path(home))


def take(names: Sequence[str], out: Path, state_folder: Path) -> int:
    """Take the pictures of those names, all where there are none; the exit status."""
    # The platform and the settings' folder must be settled before anything of Qt is loaded.
    from PySide6.QtWidgets import QApplication

    from app.pictures.scenes import SCENES
    from app.pictures.studio import Studio

    unknown = [name for name in names if name not in SCENES]
    if unknown:
        sys.stderr.write(f"found {', '.join(unknown)}, should be among {', '.join(SCENES)}\n")
        return 2
    out.mkdir(parents=True, exist_ok=True)
    instance = QApplication.instance() or QApplication([])
    assert isinstance(instance, QApplication)
    studio = Studio(instance, state_folder)
    for name in names or SCENES:
        SCENES[name](studio).save(str(out / f"{name}.png"), None, SMALLEST_FILE)
        sys.stdout.write(f"{name}\n")
        sys.stdout.flush()
    studio.close()
    return 0


if __name__ == "__main__":
    sys.exit(main())
