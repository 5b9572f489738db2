"""What the command line takes: its commands, and what each of them is given."""

import argparse
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import NoReturn

from core.errors import CoursewrightError


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        raise CoursewrightError(f"{message}; see {self.prog} --help")


def command_parser(commands_taken: Mapping[str, tuple[str, tuple[str, ...]]]) -> argparse.ArgumentParser:
    """A parser of commands, each with what it does in a line and what it takes."""
    parser = _Parser(
        prog="coursewright",
        usage="coursewright [ROOM] | setout ROOM [--json] | sheets ROOM --out DIR [--from-stock] | check ROOM | "
        "stock ROOM [--json] | advice ROOM | demo --out DIR | desktop-entry [--remove]",
        description="Plans rooms lined with screw-on panels of small interlocking bricks. "
        "Without a command it opens the window, on the demo room if no ROOM is given.",
    )
    parser.add_argument("--version", action=_Version, nargs=0, help="print the version")
    commands = parser.add_subparsers(metavar="COMMAND", dest="name", prog="coursewright")
    for name, (summary, takes) in commands_taken.items():
        command = commands.add_parser(name, help=summary, description=summary, allow_abbrev=False)
        if "room" in takes:
            command.add_argument("room", type=Path, metavar="ROOM", help="a room file (.room.json)")
        if "json" in takes:
            command.add_argument("--json", action="store_true", help="JSON instead of tables to read")
        if "from-stock" in takes:
            command.add_argument("--from-stock", action="store_true", help="lay what is still to build from the stock on hand")
        if "remove" in takes:
            command.add_argument("--remove", action="store_true", help="take the entry and its icon away again")
        if "out" in takes:
            command.add_argument(
                "--out", type=_given_path, metavar="DIR", required=True, help="folder to write to; made if missing"
            )
    return parser


def _given_path(text: str) -> Path:
    """An empty name, mostly a variable that was never set, would otherwise mean the current folder."""
    if not text.strip():
        raise argparse.ArgumentTypeError("found an empty name; give the folder to write to, . for this one")
    return Path(text)


class _Version(argparse.Action):
    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> None:
        # Costs some tens of milliseconds that no other command should pay.
        from importlib.metadata import PackageNotFoundError, version

        try:
            said = version("coursewright")
        except PackageNotFoundError:
            sys.stdout.write("coursewright, straight from its source\n")
        else:
            sys.stdout.write(f"coursewright {said}\n")
        parser.exit()
