"""What the command line takes: its commands, and what each of them is given."""

import argparse
import re
import sys
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any, NoReturn

from core.errors import CoursewrightError
from core.language import marked, tr

HEADINGS = (marked("positional arguments"), marked("options"))
"""What argparse writes over the parts of its help."""
FAULTS = (
    marked("the following arguments are required: {names}"),
    marked("unrecognized arguments: {names}"),
    marked("argument {name}: expected one argument"),
    marked("argument {name}: ignored explicit argument {found}"),
    marked("argument {name}: invalid choice: {found} (choose from {choices})"),
    marked("argument {name}: {fault}"),
)
"""What argparse says of the arguments that can be wrong here, the first that fits; it says so in English only."""


class _Help(argparse.HelpFormatter):
    """Help with headings in the reader's language."""

    def start_section(self, heading: str | None) -> None:
        super().start_section(tr(heading) if heading else heading)

    def add_usage(
        self,
        usage: str | None,
        actions: Iterable[argparse.Action],
        groups: Iterable[argparse._MutuallyExclusiveGroup],
        prefix: str | None = None,
    ) -> None:
        super().add_usage(usage, actions, groups, tr("usage: ") if prefix is None else prefix)


class _Parser(argparse.ArgumentParser):
    """Says in the reader's language what argparse says of itself."""

    def __init__(self, **named: Any) -> None:
        super().__init__(add_help=False, formatter_class=_Help, **named)
        self.add_argument("-h", "--help", action="help", help=tr("show this help message and exit"))

    def error(self, message: str) -> NoReturn:
        raise CoursewrightError(tr("{fault}; see {command} --help", fault=said_by_argparse(message), command=self.prog))


def command_parser(commands_taken: Mapping[str, tuple[str, tuple[str, ...]]]) -> argparse.ArgumentParser:
    """A parser of commands, each with what it does in a line and what it takes."""
    parser = _Parser(
        prog="coursewright",
        usage=tr(
            "coursewright [ROOM] | setout ROOM [--json] | sheets ROOM --out DIR [--from-stock] | check ROOM | "
            "stock ROOM [--json] | advice ROOM | demo --out DIR | desktop-entry [--remove]"
        ),
        description=tr(
            "Plans rooms lined with screw-on panels of small interlocking bricks. "
            "Without a command it opens the window, on the demo room if no ROOM is given."
        ),
    )
    parser.add_argument("--version", action=_Version, nargs=0, help=tr("print the version"))
    commands = parser.add_subparsers(metavar=tr("COMMAND"), dest="name", prog="coursewright")
    for name, (summary, takes) in commands_taken.items():
        command = commands.add_parser(name, help=tr(summary), description=tr(summary), allow_abbrev=False)
        if "room" in takes:
            command.add_argument("room", type=Path, metavar=tr("ROOM"), help=tr("a room file (.room.json)"))
        if "json" in takes:
            command.add_argument("--json", action="store_true", help=tr("JSON instead of tables to read"))
        if "from-stock" in takes:
            said = tr("lay what is still to build from the stock on hand")
            command.add_argument("--from-stock", action="store_true", help=said)
        if "remove" in takes:
            command.add_argument("--remove", action="store_true", help=tr("take the entry and its icon away again"))
        if "out" in takes:
            said = tr("folder to write to; made if missing")
            command.add_argument("--out", type=_given_path, metavar=tr("DIR"), required=True, help=said)
    return parser


def said_by_argparse(message: str) -> str:
    """A fault in the reader's language; as argparse words it where it words it in a way of its own."""
    for fault in FAULTS:
        pattern = re.sub(r"\\{(\w+)\\}", r"(?P<\1>.+)", re.escape(fault))
        if found := re.fullmatch(pattern, message):
            return tr(fault, **found.groupdict())
    return message


def _given_path(text: str) -> Path:
    """An empty name, mostly a variable that was never set, would otherwise mean the current folder."""
    if not text.strip():
        raise argparse.ArgumentTypeError(tr("found an empty name; give the folder to write to, . for this one"))
    return Path(text)


class _Version(argparse.Action):
    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> None:
        # Costs some tens of milliseconds that no other command should pay.
        from importlib.metadata import PackageNotFoundError, version

        try:
            said = version("coursewright")
        except PackageNotFoundError:
            sys.stdout.write(tr("coursewright, straight from its source") + "\n")
        else:
            sys.stdout.write(f"coursewright {said}\n")
        parser.exit()
