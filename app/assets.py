"""Where the files shipped with the program are: the demo room, icons, kit data."""

from pathlib import Path

from core.errors import CoursewrightError
from core.language import tr


def asset(name: str) -> Path:
    """The path of a shipped file, in a checkout as in an installed wheel; raises CoursewrightError if it is missing."""
    here = Path(__file__).resolve().parent
    for folder in (here.parent / "assets", here / "assets"):
        if (folder / name).exists():
            return folder / name
    raise CoursewrightError(tr("assets/{file} is missing from this installation; install Coursewright again", file=name))
