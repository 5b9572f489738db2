"""The audit itself: a sound set-out passes, and every kind of damage is noticed."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from core.room import Opening, RegularFrame, Room
from core.setout import solve
from core.setout.result import Face, Panel, SetOut
from tests.reference.audit import audit

Damage = Callable[[SetOut], SetOut]


def room() -> Room:
    """A small room with a window and one standing frame."""
    window = Opening(id="window", kind="window", wall=1, left_mm=700, sill_mm=180, width_mm=500, height_mm=300)
    regular = RegularFrame(mode="regular", spacing_mm=406.4, first_centre_mm=19.0)
    bare = Room(name="den", corners_mm=((0, 0), (0, 2000), (2400, 2000), (2400, 0)), clad_height_mm=608.0, openings=(window,))
    return bare.model_copy(update={"frames": (regular, *(bare.frame(wall) for wall in range(1, 4)))})


@pytest.fixture(scope="module")
def sound() -> SetOut:
    return solve(room())


def _flat(setout: SetOut) -> int:
    """Place of a whole plain panel."""
    return next(i for i, panel in enumerate(setout.panels) if len(panel.faces) == 1 and panel.kind != "shaped")


def _with_panel(setout: SetOut, place: int, **changes: object) -> SetOut:
    panels = list(setout.panels)
    panels[place] = replace(panels[place], **changes)  # type: ignore[arg-type]
    return replace(setout, panels=tuple(panels))


def _shifted(face: Face, by: int) -> Face:
    return replace(face, outline=tuple((x + by, z) for x, z in face.outline))


def _split(setout: SetOut) -> SetOut:
    """One panel cut in two, one above the other: every cell still clad once, but no division gives it."""
    place = _flat(setout)
    panel = setout.panels[place]
    face = panel.faces[0]
    middle = face.bottom + 15
    low = ((face.left, face.bottom), (face.right, face.bottom), (face.right, middle), (face.left, middle))
    high = ((face.left, middle), (face.right, middle), (face.right, face.top), (face.left, face.top))
    parts = [
        replace(panel, mark=panel.mark + end, faces=(replace(face, outline=ring),)) for end, ring in (("1", low), ("2", high))
    ]
    return replace(setout, panels=(*setout.panels[:place], *parts, *setout.panels[place + 1 :]))


def _first(setout: SetOut) -> Panel:
    return setout.panels[_flat(setout)]


DAMAGES: dict[str, tuple[Damage, str]] = {
    "a panel lost": (lambda s: replace(s, panels=s.panels[1:]), "free cells bare"),
    "a panel twice": (lambda s: replace(s, panels=(*s.panels, s.panels[0])), "marks used twice"),
    "a face moved": (lambda s: _with_panel(s, _flat(s), faces=(_shifted(_first(s).faces[0], 1),)), "overlaps another"),
    "a panel split across": (_split, "one on the other"),
    "a wrong kind": (lambda s: _with_panel(s, _flat(s), kind="shaped"), "is called shaped"),
    "a wrong price": (lambda s: _with_panel(s, _flat(s), minutes=_first(s).minutes + 0.01), "its outline makes it"),
    "a strange mark": (lambda s: _with_panel(s, _flat(s), mark="Z-9-01"), "does not name its wall"),
    "a face of a corner lost": (
        lambda s: _with_panel(s, next(i for i, p in enumerate(s.panels) if len(p.faces) == 2), faces=_corner(s).faces[:1]),
        "free cells bare",
    ),
    "a screw moved": (
        lambda s: _with_panel(s, _flat(s), faces=(replace(_first(s).faces[0], mounts=_first(s).faces[0].mounts[1:]),)),
        "the rule puts them at",
    ),
    "an outline turned round": (
        lambda s: _with_panel(s, _flat(s), faces=(replace(_first(s).faces[0], outline=_first(s).faces[0].outline[::-1]),)),
        "anticlockwise",
    ),
    "a row raised": (lambda s: replace(s, rows=(replace(s.rows[0], z_plates=1), *s.rows[1:])), "does not stand on the row below"),
    "a row lost": (lambda s: replace(s, rows=s.rows[:-1]), "head gap"),
    "a wall shimmed more": (
        lambda s: replace(s, walls=(replace(s.walls[0], packing_mm=s.walls[0].packing_mm + 0.25), *s.walls[1:])),
        "off the grid",
    ),
    "a set-up forgotten": (lambda s: replace(s, minutes=replace(s.minutes, setup=s.minutes.setup + 12)), "minutes.setup"),
    "a blocking forgotten": (
        lambda s: replace(s, minutes=replace(s.minutes, blocking=s.minutes.blocking + 6)),
        "minutes.blocking",
    ),
    "no timber": (lambda s: replace(s, timber=()), "the listed timber says otherwise"),
    "a wrong tally": (lambda s: replace(s, tally=replace(s.tally, panels=1)), "tally"),
    "a design shared by force": (
        lambda s: _with_panel(s, _flat(s), design=_corner(s).design),
        "stands for 2 different outlines",
    ),
    "a design lost": (lambda s: replace(s, designs=s.designs[1:]), "does not count the panels"),
}


def _corner(setout: SetOut) -> Panel:
    return next(panel for panel in setout.panels if len(panel.faces) == 2)


def test_a_sound_set_out_has_no_faults(sound: SetOut) -> None:
    assert audit(sound) == []


@pytest.mark.parametrize("name", DAMAGES)
def test_damage_is_noticed(sound: SetOut, name: str) -> None:
    damage, words = DAMAGES[name]
    assert any(words in fault for fault in audit(damage(sound)))
