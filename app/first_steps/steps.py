"""What the six steps are, in words, and which part of the window each is about."""

from dataclasses import dataclass
from typing import Literal

from core.language import marked

Name = Literal["drag", "board", "check", "room", "pack", "build"]


@dataclass(frozen=True, slots=True)
class Step:
    """One step: its short words on the brick, and what to do."""

    name: Name
    title: str
    text: str


STEPS = (
    Step(
        "drag",
        marked("Drag the window"),
        marked("Press on a window (W puts one in) and drag it along its wall. Once it is selected, the arrow keys move it, too."),
    ),
    Step(
        "board",
        marked("Watch the board"),
        marked("Move it on until a figure on the board changes: ▼ is fewer, ▲ is more, and fewer is better for all four."),
    ),
    Step(
        "check",
        marked("Click a check"),
        marked("Choose one of the checks, by a click or with Ctrl+4 and Enter: it takes you to its place on the walls."),
    ),
    Step(
        "room",
        marked("Sketch your own room"),
        marked("Ctrl+N begins a room of your own; Ctrl+K draws these walls anew. Ctrl+Z takes that back."),
    ),
    Step(
        "pack",
        marked("Print the pack"),
        marked("Ctrl+Shift+P writes every sheet and list into a folder; Ctrl+Shift+V only shows them."),
    ),
    Step(
        "build",
        marked("Track the build"),
        marked("Ctrl+7 turns to the leaf “Build”. Choose a panel there and press F: it steps on from “to build” to “built”."),
    ),
)
ALL_LAID = marked("The course is laid. Help has the keys (F1) and the cautions; docs/guide.md walks through a whole job.")
