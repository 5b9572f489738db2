"""A person at the program: looks where something is, moves the pointer there, clicks, types. Each step is a frame of the film."""

import os
import re
import subprocess
import time
from collections.abc import Sequence
from pathlib import Path

from tests.endtoend.walkthrough.display import Display
from tests.endtoend.walkthrough.program import Program, wait_for

Point = tuple[int, int]
STEPS_OF_A_DRAG = 12
STILL_S = 0.08
LEAST_PX = 4


class Person:
    """Everything done here is an event of the X server; the program's eye is asked only where to aim and what is seen."""

    def __init__(self, display: Display, program: Program, film: Path | None = None) -> None:
        self._display, self.program, self._film = display, program, film
        self._frames = 0
        self._front = 0
        wait_for("the window", lambda: self.ask("front_window"))
        self.attend()

    def ask(self, question: str, *wanted: object) -> object:
        return self.program.ask(question, *wanted)

    # Looking

    def see(self, words: str, kind: str = "", seconds: float = 30.0) -> Point:
        """Wait until words are on the screen; the middle of them."""
        return _middle(wait_for(f"“{words}” {kind}", lambda: self._boxes(words, kind), seconds)[0])

    def sees_no_more(self, words: str, seconds: float = 60.0) -> None:
        """Wait until words have gone."""
        wait_for(f"“{words}” gone", lambda: not self._boxes(words), seconds)

    def reads(self, pattern: str, seconds: float = 30.0) -> str:
        """Wait until some words in front match."""
        asked = re.compile(pattern)
        return str(wait_for(f"/{pattern}/", lambda: next((one for one in self.ask("texts") if asked.search(one)), None), seconds))

    def focus_on(self, name: str) -> None:
        """Wait until the keyboard goes there."""
        wait_for(f"focus on {name}, not {self.ask('focus')}", lambda: name in str(self.ask("focus")), 10)

    def front(self, title: str) -> None:
        """Wait until a window of that title is in front, and give it the keys as a desktop would."""
        try:
            wait_for(f"window {title!r}", lambda: title in (self.ask("front_window") or ["", ""])[1])
        except AssertionError as error:
            raise AssertionError(f"{error}; in front is {self.ask('front_window')}") from None
        self.attend()

    def attend(self) -> None:
        """Without a window manager nobody gives a new window the keyboard's focus: do what one would."""
        self.rest()
        told = self.ask("front_window")
        if told and told[0] and told[0] != self._front:
            self._front = told[0]
            self._play("windowfocus", "--sync", str(told[0]))
            wait_for(f"focus in {told[1]}", lambda: self.ask("focus") or not self.ask("front_window"), 5)

    def settle(self) -> None:
        """Until the set-out is worked out in full."""
        self.rest()
        wait_for("the set-out in full", lambda: self.ask("is_settled"))

    def rest(self) -> None:
        """Until what was done has been answered, and painted."""
        time.sleep(STILL_S)
        self.ask("focus")

    def film(self, what: str) -> None:
        """A frame of the whole screen, after everything has come to rest."""
        self._frames += 1
        if self._film is not None:
            self.rest()
            time.sleep(0.3)
            name = re.sub(r"[^a-z0-9]+", "-", what.lower()).strip("-")
            self._display.shoot(self._film / f"{self._frames:02}-{name}.png")

    # Doing

    def point(self, at: Point) -> None:
        self._play("mousemove", *map(str, at))

    def click(self, words: str, kind: str = "", *, button: int = 1) -> None:
        """Click on words."""
        self.click_at(self.see(words, kind), button=button)

    def click_at(self, at: Point, *, button: int = 1) -> None:
        self._play("mousemove", *map(str, at), "click", str(button))
        self.attend()

    def drag(self, start: Point, end: Point, *, give_up: bool = False) -> None:
        """Press, move in some steps, let go; or give it up by Escape before."""
        script = ["mousemove", *map(str, start), "mousedown", "1"]
        for step in range(1, STEPS_OF_A_DRAG + 1):
            share = step / STEPS_OF_A_DRAG
            place = [round(a + (b - a) * share) for a, b in zip(start, end, strict=True)]
            script += ["mousemove", *map(str, place), "sleep", "0.02"]
        script += [*(["key", "Escape"] if give_up else []), "mouseup", "1"]
        self._play(*script)
        self.rest()

    def scroll(self, at: Point, notches: int) -> None:
        """Turn the wheel, towards the hand where positive."""
        self._play("mousemove", *map(str, at), "click", "--repeat", str(abs(notches)), "5" if notches > 0 else "4")
        self.rest()

    def pick(self, among: str, words: str) -> None:
        """Click an item of a list, turning the wheel over the list's first item in sight until it is in sight, too."""
        over = self.see(among, "item")
        for _ in range(40):
            if self._boxes(words, "item"):
                break
            self.scroll(over, 1)
        self.click(words, "item")

    def key(self, *chords: str) -> None:
        """Press keys, one after another, each with its modifiers as in ``ctrl+z``."""
        self._play("key", "--delay", "30", *chords)
        self.attend()

    def last_click(self, words: str) -> None:
        """The click that ends the program: nobody answers after it."""
        self._play("mousemove", *map(str, self.see(words)), "click", "1")

    def last_key(self, chord: str) -> None:
        """The key that ends the program: nobody answers after it."""
        self._play("key", chord)

    def type(self, text: str) -> None:
        self._play("type", "--delay", "12", text)
        self.rest()

    def overtype(self, text: str) -> None:
        """Type in place of what stands in the line."""
        self.key("ctrl+a")
        self.type(text)

    def fill(self, field: str, text: str) -> None:
        """Click into a field, overtype it, Enter."""
        self.click_at(self.see(field, "line"))
        self.overtype(text)
        self.key("Return")

    def fill_cell(self, table: str, row: str | int, column: str, text: str) -> None:
        """Click a cell, type, Enter."""
        self.click_at(self.cell(table, row, column))
        self.type(text)
        self.key("Return")

    def cell(self, table: str, row: str | int, column: str) -> Point:
        found = wait_for(f"cell {row} {column} of {table}", lambda: self.ask("cell", table, row, column))
        return _middle(found[0][0])

    def choose(self, box: str, choice: str) -> None:
        """Open a box of choices and click one."""
        self.click_at(self.see(box, "box"))
        self.click(choice, "item")

    def menu(self, *path: str) -> None:
        """Open a menu by the mouse and click through it."""
        for words in path:
            self.click(words, "menu")

    def opening(self, name: str, across: float = 0.5, up: float = 0.5) -> Point:
        """A place on an opening, in parts of its width and height."""
        return _within(wait_for(f"opening {name}", lambda: self.ask("opening", name)), across, up)

    def panel(self, mark: str) -> Point:
        return _within(wait_for(f"panel {mark}", lambda: self.ask("panel", mark)), 0.5, 0.5)

    def _boxes(self, words: str, kind: str = "") -> list[Sequence[int]]:
        return [box for box, _kind in self.ask("words", words, kind) if min(box[2:]) >= LEAST_PX]

    def _play(self, *script: str) -> None:
        done = subprocess.run(
            ["xdotool", *script], env={**os.environ, "DISPLAY": self._display.name}, capture_output=True, text=True, check=False
        )
        assert done.returncode == 0, (script, done.stderr)


def _middle(box: Sequence[int]) -> Point:
    return _within(box, 0.5, 0.5)


def _within(box: Sequence[int], across: float, up: float) -> Point:
    left, top, wide, high = box
    return round(left + across * wide), round(top + (1 - up) * high)
