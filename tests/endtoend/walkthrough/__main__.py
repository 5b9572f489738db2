"""Films the walk: ``python -m tests.endtoend.walkthrough --film FOLDER`` writes a picture of the whole screen after each step."""

import argparse
import sys
import tempfile
from pathlib import Path

from tests.endtoend.walkthrough.display import Display
from tests.endtoend.walkthrough.guide import SECTIONS
from tests.endtoend.walkthrough.person import Person
from tests.endtoend.walkthrough.program import Program


def walk(base: Path, film: Path | None) -> tuple[int, str]:
    """The whole walk in an empty home under ``base``; the program's exit status and what it said on standard error."""
    display = Display()
    try:
        program = Program(display.name, base / "home")
        try:
            person = Person(display, program, film)
            for section in SECTIONS:
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
    folder = parser.parse_args().film
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix="coursewright-walk-") as made:
        status, errors = walk(Path(made), folder)
    sys.stderr.write(errors)
    sys.exit(status or bool(errors))
