"""Rules in words."""

from core.colour.wishes import panel_there
from core.colouring import BandRule, Colouring, PanelRule, PictureRule, RoomRule, Rule, WallRule
from core.language import tr
from core.room import wall_letter
from core.setout.result import SetOut
from core.units import format_length


def colour_words(colouring: Colouring, name: str) -> str:
    """A colour with its code: ``brick red (b)``."""
    return f"{tr(name)} ({colouring.colour(name).code})"


def rule_words(setout: SetOut, rule: Rule) -> str:
    """What a rule lays where, in a line."""
    room = setout.room
    if isinstance(rule, PictureRule):
        wall = wall_letter(rule.wall)
        if rule.way == "dithered":
            return tr("Picture {picture} on wall {wall}, dithered", picture=rule.name, wall=wall)
        return tr("Picture {picture} on wall {wall}, nearest colours", picture=rule.name, wall=wall)
    return f"{_where_words(setout, rule)}: {colour_words(room.colouring, rule.colour)}"


def _where_words(setout: SetOut, rule: RoomRule | WallRule | BandRule | PanelRule) -> str:
    if isinstance(rule, RoomRule):
        return tr("Whole room")
    if isinstance(rule, BandRule):
        low, high = (format_length(mm, setout.room.display_units) for mm in (rule.from_mm, rule.to_mm))
        band = tr("Band {low} to {high}", low=low, high=high)
        return f"{band}, {_walls_words(rule)}"
    if isinstance(rule, PanelRule):
        panel, wall = panel_there(setout, rule), wall_letter(rule.wall)
        mark = tr("Panel {panel}", panel=panel.mark) if panel else tr("A panel on wall {wall}", wall=wall)
        return f"{mark}, {_layers_words(rule.layers)}" if rule.layers else mark
    return tr("Wall {wall}", wall=wall_letter(rule.wall))


def _walls_words(rule: BandRule) -> str:
    if not rule.walls:
        return tr("all walls")
    letters = ", ".join(wall_letter(wall) for wall in rule.walls)
    return tr("wall {wall}", wall=letters) if len(rule.walls) == 1 else tr("walls {walls}", walls=letters)


def _layers_words(layers: tuple[int, ...]) -> str:
    if len(layers) == 1:
        return tr("course {course}", course=layers[0])
    if list(layers) == list(range(layers[0], layers[-1] + 1)):
        return tr("courses {first} to {last}", first=layers[0], last=layers[-1])
    return tr("courses {courses}", courses=", ".join(map(str, layers)))
