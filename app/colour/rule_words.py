"""Rules in words."""

from core.colour.wishes import panel_there
from core.colouring import BandRule, Colouring, PanelRule, PictureRule, RoomRule, Rule
from core.room import wall_letter
from core.setout.result import SetOut
from core.units import format_length


def colour_words(colouring: Colouring, name: str) -> str:
    """A colour with its code: ``brick red (b)``."""
    return f"{name} ({colouring.colour(name).code})"


def rule_words(setout: SetOut, rule: Rule) -> str:
    """What a rule lays where, in a line."""
    room = setout.room
    if isinstance(rule, PictureRule):
        how = "dithered" if rule.way == "dithered" else "nearest colours"
        return f"Picture {rule.name} on wall {wall_letter(rule.wall)}, {how}"
    colour = colour_words(room.colouring, rule.colour)
    if isinstance(rule, RoomRule):
        return f"Whole room: {colour}"
    if isinstance(rule, BandRule):
        low, high = (format_length(mm, room.display_units) for mm in (rule.from_mm, rule.to_mm))
        return f"Band {low} to {high}, {_walls_words(rule)}: {colour}"
    if isinstance(rule, PanelRule):
        panel = panel_there(setout, rule)
        mark = f"Panel {panel.mark}" if panel else f"A panel on wall {wall_letter(rule.wall)}"
        return f"{mark}{_layers_words(rule.layers)}: {colour}"
    return f"Wall {wall_letter(rule.wall)}: {colour}"


def _walls_words(rule: BandRule) -> str:
    if not rule.walls:
        return "all walls"
    letters = ", ".join(wall_letter(wall) for wall in rule.walls)
    return f"wall {letters}" if len(rule.walls) == 1 else f"walls {letters}"


def _layers_words(layers: tuple[int, ...]) -> str:
    if not layers:
        return ""
    if len(layers) == 1:
        return f", course {layers[0]}"
    is_run = list(layers) == list(range(layers[0], layers[-1] + 1))
    return f", courses {layers[0]} to {layers[-1]}" if is_run else f", courses {', '.join(map(str, layers))}"
