"""Which colour is wished for every pitch of every layer on every wall: the rules laid one over the other."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from core.bond.shape import PanelShape, shape_of
from core.colour.picture import Spans, picks_of
from core.colour.places import leg_places
from core.colouring import BandRule, Colouring, PanelRule, PictureRule, RoomRule, Rule, WallRule
from core.setout.metric import x_mm, z_mm
from core.setout.result import Panel, SetOut

Cells = NDArray[np.int16]
"""Colours by their number in the room's list, ``ANY`` where none is wished; shape (layers of the row stack, pitches)."""
ANY = -1


@dataclass(frozen=True, slots=True)
class StackLayer:
    """A layer of the row stack: the same on every wall."""

    z_plates: int
    height_plates: int


def stack_layers(setout: SetOut) -> tuple[StackLayer, ...]:
    """The layers of all rows from the floor: courses, plate course, cap course."""
    found = []
    for row in setout.rows:
        z = row.z_plates
        for height in (*[setout.room.kit.plates_per_course] * row.courses, 1, 1):
            found.append(StackLayer(z, height))
            z += height
    return tuple(found)


@dataclass(frozen=True)
class Wishes:
    """The wished colours of a set-out. ``idle`` are the rules, by number, that colour nothing that stands."""

    setout: SetOut
    walls: Mapping[int, Cells]
    idle: tuple[int, ...]

    @property
    def names(self) -> tuple[str, ...]:
        """The colours by number."""
        return tuple(colour.name for colour in self.setout.room.colouring.colours)

    @cached_property
    def layers(self) -> tuple[StackLayer, ...]:
        """The layers that the cells' lines stand for."""
        return stack_layers(self.setout)

    @cached_property
    def layer_at(self) -> dict[int, int]:
        """The number of the layer that begins at a plate line."""
        return {layer.z_plates: number for number, layer in enumerate(self.layers)}

    def of(self, panel: Panel, shape: PanelShape) -> tuple[tuple[Cells, ...], ...]:
        """A panel's wishes by leg and by layer from its bottom, pitch by pitch from the leg's left end; openings included."""
        bottom = min(face.bottom for face in panel.faces)
        numbers = [self.layer_at[bottom + layer.z_plates] for layer in shape.layers]
        return tuple(
            tuple(self.walls[place.wall][number, place.left : place.left + place.length] for number in numbers)
            for place in leg_places(self.setout, panel)
        )


def wishes_of(setout: SetOut) -> Wishes:
    """The wished colours of every wall."""
    return _Reader(setout).wishes()


class _Reader:
    """Lays the rules of one room over one another."""

    def __init__(self, setout: SetOut) -> None:
        self._setout = setout
        self._colouring: Colouring = setout.room.colouring
        self._layers = stack_layers(setout)
        self._number = {colour.name: number for number, colour in enumerate(self._colouring.colours)}
        rest = ANY if self._colouring.rest is None else self._number[self._colouring.rest]
        self._walls = {shell.wall: np.full((len(self._layers), shell.pitches), rest, dtype=np.int16) for shell in setout.walls}

    def wishes(self) -> Wishes:
        """Every rule in order."""
        idle = tuple(number for number, rule in enumerate(self._colouring.rules) if not self._lay(rule))
        return Wishes(self._setout, self._walls, idle)

    def _lay(self, rule: Rule) -> bool:
        """Lay a rule over those before; False where it reaches nothing."""
        if isinstance(rule, PictureRule):
            return self._picture(rule)
        colour = self._number[rule.colour]
        if isinstance(rule, PanelRule):
            return self._panel(rule, colour)
        walls = _walls_of(rule, tuple(self._walls))
        layers = [number for number in range(len(self._layers)) if _is_in_band(rule, self._middle_mm(number))]
        for wall in walls:
            self._walls[wall][layers, :] = colour
        return bool(walls and layers)

    def _middle_mm(self, number: int) -> float:
        layer = self._layers[number]
        return z_mm(self._setout.room.kit, layer.z_plates + layer.height_plates / 2)

    def _panel(self, rule: PanelRule, colour: int) -> bool:
        panel = panel_there(self._setout, rule)
        if panel is None:
            return False
        at = {layer.z_plates: number for number, layer in enumerate(self._layers)}
        bottom = min(face.bottom for face in panel.faces)
        reached = False
        for number, layer in enumerate(shape_of(self._setout, panel).layers):
            if rule.layers and number + 1 not in rule.layers:
                continue
            reached = True
            for place, runs in zip(leg_places(self._setout, panel), layer.runs, strict=True):
                for left, right in runs:
                    self._walls[place.wall][at[bottom + layer.z_plates], place.left + left : place.left + right] = colour
        return reached

    def _picture(self, rule: PictureRule) -> bool:
        """The picture over this wall and, where it is wider than what is left of it, those to the right."""
        stocked = self._colouring.stocked
        down = self._spans_down(rule)
        columns = self._columns(rule)
        if not down or not columns:
            return False
        across: Spans = tuple(span for _, _, span in columns)
        picks = picks_of(rule, across, tuple(down.values()), tuple(colour.srgb for colour in stocked))
        numbers = np.array([self._number[colour.name] for colour in stocked], dtype=np.int16)[picks]
        rows = np.array(list(down))
        for column, (wall, pitch, _) in enumerate(columns):
            self._walls[wall][rows, pitch] = numbers[:, column]
        return True

    def _spans_down(self, rule: PictureRule) -> dict[int, tuple[float, float]]:
        """The part of the picture's height over each layer whose middle it covers, topmost first."""
        top_mm = rule.bottom_mm + rule.height_mm
        found = {}
        for number in reversed(range(len(self._layers))):
            layer, kit = self._layers[number], self._setout.room.kit
            low, high = z_mm(kit, layer.z_plates), z_mm(kit, layer.z_plates + layer.height_plates)
            if rule.bottom_mm <= (low + high) / 2 < top_mm:
                found[number] = ((top_mm - high) / rule.height_mm, (top_mm - low) / rule.height_mm)
        return found

    def _columns(self, rule: PictureRule) -> list[tuple[int, int, tuple[float, float]]]:
        """Wall, pitch and the part of the picture's width over it, of each pitch whose middle it covers, once round the room."""
        room, pitch_mm = self._setout.room, self._setout.room.kit.pitch_mm
        found: list[tuple[int, int, tuple[float, float]]] = []
        begins_mm = -rule.left_mm
        for step in range(room.wall_count if rule.wall < room.wall_count else 0):
            wall = (rule.wall + step) % room.wall_count
            for pitch in range(self._setout.walls[wall].pitches):
                left_mm = begins_mm + x_mm(self._setout, wall, pitch)
                if 0 <= left_mm + pitch_mm / 2 < rule.width_mm:
                    found.append((wall, pitch, (left_mm / rule.width_mm, (left_mm + pitch_mm) / rule.width_mm)))
            begins_mm += room.wall_length_mm(wall)
        return found


def panel_there(setout: SetOut, rule: PanelRule) -> Panel | None:
    """The panel a rule speaks of; None where none begins there any more."""
    place = (rule.wall, rule.bottom_plates, rule.left_pitches)
    for panel in setout.panels:
        first = panel.faces[0]
        if (first.wall, first.bottom, first.left) == place:
            return panel
    return None


def _walls_of(rule: RoomRule | WallRule | BandRule, walls: tuple[int, ...]) -> tuple[int, ...]:
    if isinstance(rule, RoomRule):
        return walls
    named = (rule.wall,) if isinstance(rule, WallRule) else rule.walls
    if isinstance(rule, BandRule) and not named:
        return walls
    return tuple(wall for wall in walls if wall in named)


def _is_in_band(rule: RoomRule | WallRule | BandRule, middle_mm: float) -> bool:
    return not isinstance(rule, BandRule) or rule.from_mm <= middle_mm < rule.to_mm
