"""Edits of what is laid in which colour: the colours there are, and the rules in their order."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from core.colouring import BandRule, BrickColour, Colouring, PanelRule, PictureRule, RoomRule, Rule
from core.edits.revise import build, revise, tidy_mm
from core.errors import RoomError
from core.language import tr
from core.room import Room, wall_letter
from core.setout.result import Panel

if TYPE_CHECKING:
    from core.edits.renumber import NewPlace

_CODE_LETTERS = "abcdefghjkmnpqrstuvwxyz"
"""Without i, l and o, which read like one and nought beside a length."""


def set_rest(room: Room, name: str | None) -> Room:
    """The room with a colour for everything no rule speaks of; None where it may be any. Raises RoomError for one not stocked."""
    return _with(room, rest=name)


def add_rule(room: Room, rule: Rule) -> Room:
    """The room with a rule over all others. Raises RoomError for a wall there is not, or a colour that is not stocked."""
    return add_rules(room, (rule,))


def add_rules(room: Room, rules: Sequence[Rule]) -> Room:
    """The room with rules over all others, the last of them on top; all or none. Raises RoomError as ``add_rule`` does."""
    for rule in rules:
        _check_walls(room, rule)
    return _with(room, rules=(*room.colouring.rules, *rules))


def change_rule(room: Room, number: int, /, **values: Any) -> Room:
    """The room with some of a rule's values changed. Raises RoomError."""
    rules = list(room.colouring.rules)
    rules[number] = revise(_rule(room, number), **values)
    _check_walls(room, rules[number])
    return _with(room, rules=tuple(rules))


def remove_rule(room: Room, number: int) -> Room:
    """The room without a rule. Raises RoomError where there is none of that number."""
    _rule(room, number)
    rules = room.colouring.rules
    return _with(room, rules=(*rules[:number], *rules[number + 1 :]))


def move_rule(room: Room, number: int, to: int) -> Room:
    """The room with a rule in another place of the order; a place past either end is the end. Raises RoomError."""
    rules = list(room.colouring.rules)
    rule = _rule(room, number)
    del rules[number]
    rules.insert(max(0, min(to, len(rules))), rule)
    return _with(room, rules=tuple(rules))


def panel_rule(panel: Panel, colour: str, layers: tuple[int, ...] = ()) -> PanelRule:
    """A rule for a panel where it stands now, or for some of its layers counted from 1 at its bottom."""
    first = panel.faces[0]
    place = {"wall": first.wall, "bottom_plates": first.bottom, "left_pitches": first.left}
    return build(PanelRule, kind="panel", colour=colour, layers=layers, **place)


def lay_panels(room: Room, panels: Sequence[Panel], colour: str) -> Room:
    """The room with a colour laid over whole panels where they stand now, in place of what was laid over them whole before.

    Raises RoomError for a colour that is not stocked.
    """
    laid = tuple(panel_rule(panel, colour) for panel in panels)
    places = {_place(rule) for rule in laid}
    kept = tuple(r for r in room.colouring.rules if not (isinstance(r, PanelRule) and not r.layers and _place(r) in places))
    return _with(room, rules=(*kept, *laid))


def own_colour(room: Room, panel: Panel) -> str | None:
    """The colour last laid over a whole panel by a rule of its own; None where there is no such rule."""
    place = _place(panel_rule(panel, room.colouring.colours[0].name))
    own = [r.colour for r in room.colouring.rules if isinstance(r, PanelRule) and not r.layers and _place(r) == place]
    return own[-1] if own else None


def _place(rule: PanelRule) -> tuple[int, int, int]:
    return rule.wall, rule.bottom_plates, rule.left_pitches


def add_colour(room: Room, name: str, srgb: str, code: str | None = None) -> Room:
    """The room with one colour more, lettered by ``code`` or by letters of its name that are free. Raises RoomError."""
    colours = room.colouring.colours
    name = name.strip()
    taken = {colour.code for colour in colours}
    colour = build(BrickColour, name=name, code=code or _free_code(name, taken), srgb=srgb.lower())
    return _with(room, colours=(*colours, colour))


def change_colour(room: Room, name: str, /, **values: Any) -> Room:
    """The room with a colour renamed, lettered, shown or stocked otherwise; rules follow a new name. Raises RoomError."""
    before = _colour(room, name)
    after = revise(before, **values)
    colours = tuple(after if colour.name == name else colour for colour in room.colouring.colours)
    rules = tuple(
        revise(rule, colour=after.name) if not isinstance(rule, PictureRule) and rule.colour == name else rule
        for rule in room.colouring.rules
    )
    rest = after.name if room.colouring.rest == name else room.colouring.rest
    return _with(room, colours=colours, rules=rules, rest=rest)


def remove_colour(room: Room, name: str) -> Room:
    """The room with one colour less. Raises RoomError where a rule asks for it, or it is the last."""
    _colour(room, name)
    return _with(room, colours=tuple(colour for colour in room.colouring.colours if colour.name != name))


def followed_colouring(room: Room, new_place: "NewPlace") -> Colouring:
    """The colouring after a change of plan: rules go with their walls, and those whose wall is gone go too."""
    moved = [_followed(room, rule, new_place) for rule in room.colouring.rules]
    return revise(room.colouring, rules=tuple(rule for rule in moved if rule is not None))


def _followed(room: Room, rule: Rule, new_place: "NewPlace") -> Rule | None:
    if isinstance(rule, RoomRule):
        return rule
    if isinstance(rule, BandRule):
        there = [new_place(wall, 0.0) for wall in rule.walls if wall < room.wall_count]
        walls = tuple(dict.fromkeys(place[0] for place in there if place is not None))
        return revise(rule, walls=walls) if walls or not rule.walls else None
    at_mm = 0.0
    if isinstance(rule, PanelRule):
        at_mm = rule.left_pitches * room.kit.pitch_mm
    elif isinstance(rule, PictureRule) and rule.wall < room.wall_count:
        at_mm = min(max(rule.left_mm, 0.0), room.wall_length_mm(rule.wall))
    place = new_place(rule.wall, at_mm) if rule.wall < room.wall_count else None
    if place is None:
        return None
    if isinstance(rule, PictureRule):
        return revise(rule, wall=place[0], left_mm=tidy_mm(rule.left_mm + place[1] - at_mm))
    if isinstance(rule, PanelRule):
        shift = round((place[1] - at_mm) / room.kit.pitch_mm)
        return revise(rule, wall=place[0], left_pitches=max(0, rule.left_pitches + shift))
    return revise(rule, wall=place[0])


def _with(room: Room, **values: Any) -> Room:
    return revise(room, colouring=revise(room.colouring, **values))


def _rule(room: Room, number: int) -> Rule:
    rules = room.colouring.rules
    if not 0 <= number < len(rules):
        raise RoomError(tr("rule {number} does not exist; there are {count}", number=number + 1, count=len(rules)))
    return rules[number]


def _colour(room: Room, name: str) -> BrickColour:
    try:
        return room.colouring.colour(name)
    except KeyError:
        raise RoomError(tr("colour {name!r} is not in the list of colours; add it first", name=name)) from None


def _check_walls(room: Room, rule: Rule) -> None:
    walls = rule.walls if isinstance(rule, BandRule) else () if isinstance(rule, RoomRule) else (rule.wall,)
    for wall in walls:
        if wall >= room.wall_count:
            last = wall_letter(room.wall_count - 1)
            raise RoomError(tr("wall {wall} does not exist; the room has walls A to {last}", wall=wall_letter(wall), last=last))


def _free_code(name: str, taken: set[str]) -> str:
    """The first letter of the name that is free, else two letters beginning with its first."""
    own = [letter for letter in name.lower() if letter in _CODE_LETTERS] or ["x"]
    pairs = [first + second for first in (own[0], *_CODE_LETTERS) for second in (*own[1:], *_CODE_LETTERS)]
    free: list[str] = [code for code in (*own, *pairs) if code not in taken]
    return free[0]
