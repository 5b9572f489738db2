"""Films the walk: ``python -m tests.endtoend.walkthrough --film FOLDER`` writes a picture of the whole screen after each step."""

import argparse
import sys
import tempfile
from pathlib import Path

from tests.endtoend.walkthrough import astray, guide
from tests.endtoend.walkthrough.display import Display
from tests.endtoend.walkthrough.person import Person
from tests.endtoend.walkthrough.program import Program

WALKS = {"guide": guide.SECTIONS, "astray": astray.SECTIONS}


def walk(base: Path, film: Path | None = None, name: str = "guide") -> tuple[int, str]:
    """A whole walk in an empty home under ``base``; the program's exit status and what it said on standard error."""
    display = Display()
    try:
        program = Program(display.name, base / "home")
        try:
            person = Person(display, program, film)
            for section in WALKS[name]:
                try:
                    section(person)
                except BaseException:
                    person.film(f"stuck at {section.__name__}")
                    raise
            return program.end(), program.errors
        finally:
            program.kill()
    finally:
        display.close()


if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="python -m tests.endtoend.walkthrough", description="Films the guide's walk.")
    parser.add_argument("--film", type=Path, required=True, metavar="DIR", help="the folder the pictures go to")
    parser.add_argument("--walk", choices=WALKS, default="guide", help="as the guide says, or gone astray")
    options = parser.parse_args()
    options.film.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix="coursewright-walk-") as made:
        status, errors = walk(Path(made), options.film, options.walk)
    sys.stderr.write(errors)
    sys.exit(status or bool(errors))
