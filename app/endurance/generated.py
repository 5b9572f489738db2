"""Sets generated rooms out, and has every set-out audited by the independent checker of the tests."""

import random
import traceback
from importlib import import_module

from app.endurance.outcome import Outcome
from core.errors import CoursewrightError
from core.kit import Kit
from core.setout import sketch, solve

SHOWN_FAULTS = 10


def try_generated_rooms(rooms: int, seed: int) -> Outcome:
    """Set out so many rooms; each set-out, the sketch of every fourth included, must pass the audit."""
    generate, audit = import_module("tests.generate"), import_module("tests.reference.audit").audit
    tiny, small = generate.TINY_KIT, generate.SMALL_KIT
    recipes: list[dict[str, object]] = [
        *[{"kit": tiny, "most_pitches": 60}, {"kit": tiny, "standing": True, "most_openings": 8}, {"kit": tiny}] * 2,
        *[{"kit": small, "standing": True}, {"kit": small, "most_rows": 4}, {"kit": small, "most_openings": 12}],
        {"kit": Kit(), "most_pitches": 160, "standing": True},
    ]
    faults, refused, panels = list[str](), 0, 0
    for number in range(rooms):
        recipe = recipes[number % len(recipes)]
        name = f"room {seed * 1_000_000 + number}"
        try:
            room = generate.make_room(random.Random(seed * 1_000_000 + number).randint, **recipe)
            setout = solve(room)
            found = audit(setout) + (audit(sketch(room)) if number % 4 == 0 else [])
            panels += setout.tally.panels
        except CoursewrightError as error:
            refused += 1
            found = [] if str(error).isprintable() else [f"the message is not one printable line: {error!s:.200}"]
        except Exception:
            found = [traceback.format_exc(limit=-2).replace("\n", " | ")]
        faults += [f"{name}: {fault}" for fault in found]
    besides = f"{panels:,} panels audited; {refused} refused in one line"
    return Outcome("generated rooms set out and audited", rooms, tuple(faults[:SHOWN_FAULTS]), besides)
