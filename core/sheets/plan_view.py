"""Draws the room from above on a sheet: walls, lining, openings, and labels that keep clear of each other."""

from dataclasses import dataclass
from itertools import product

from core.drawing import Box, Circle, Item, Path, Pen, Text, item_box
from core.drawing.items import Point
from core.drawing.scale import Scale
from core.language import tr
from core.room import Opening, wall_letter
from core.setout.metric import x_mm
from core.setout.result import SetOut
from core.sheets.elevation_openings import opening_words
from core.sheets.elevation_panels import led_label
from core.sheets.placing import Placer, around, stacked
from core.units import format_length, gap_words

_FRAME, _SHELL, _JOINT = Pen(0.7), Pen(0.25), Pen(0.18)
_CORNER_GREY = 0.55


@dataclass(frozen=True, slots=True)
class PlanView:
    """Room plan coordinates on the sheet: y up in the room, down on paper."""

    scale: Scale
    left_mm: float
    top_mm: float
    at: Point
    setout: SetOut

    def point(self, plan: Point) -> Point:
        return self.at[0] + (plan[0] - self.left_mm) / self.scale.factor, self.at[1] + (self.top_mm - plan[1]) / self.scale.factor

    def on_wall(self, wall: int, along_mm: float, inward_mm: float) -> Point:
        """A place by a wall on the sheet, ``inward_mm`` into the room from the frame."""
        (x0, y0), (x1, y1) = self.setout.room.wall_ends_mm(wall)
        length = self.setout.room.wall_length_mm(wall)
        dx, dy = (x1 - x0) / length, (y1 - y0) / length
        return self.point((x0 + dx * along_mm + dy * inward_mm, y0 + dy * along_mm - dx * inward_mm))

    def strip(self, wall: int, from_mm: float, to_mm: float, near_mm: float, far_mm: float) -> tuple[Point, ...]:
        """A strip along a wall, between two distances from the frame."""
        ends = ((from_mm, near_mm), (to_mm, near_mm), (to_mm, far_mm), (from_mm, far_mm))
        return tuple(self.on_wall(wall, along, inward) for along, inward in ends)


def room_drawing(view: PlanView, area: Box) -> list[Item]:
    """The room with its labels, all of them inside the area."""
    setout = view.setout
    placer = Placer(area)
    corners = tuple(view.point(corner) for corner in setout.room.corners_mm)
    _claim_outline(view, placer)
    items: list[Item] = [Path(corners, _FRAME, closed=True), *_shell(view)]
    labels: list[Item] = []
    for opening in setout.room.openings:
        items += _opening(view, opening)
    for shell in setout.walls:
        labels += _looking(view, shell.wall, placer)
    for shell in setout.walls:
        labels += _length(view, shell.wall, placer)
    for opening in setout.room.openings:
        labels += _named(view, opening, placer)
    return [*items, *labels]


def _claim_outline(view: PlanView, placer: Placer) -> None:
    """Keeps labels off the walls: small boxes all along them, so that slanting walls block no more than they cover."""
    for wall in range(view.setout.room.wall_count):
        length = view.setout.room.wall_length_mm(wall)
        step = 2.0 * view.scale.factor
        for i in range(int(length / step) + 1):
            x, y = view.on_wall(wall, min(i * step, length), 0.0)
            placer.claim(Box(x - 1.2, y - 1.2, x + 1.2, y + 1.2))


def _shell(view: PlanView) -> list[Item]:
    """The brick lining, the joints of its lowest row, and that row's corner panels filled dark."""
    setout, kit = view.setout, view.setout.room.kit
    thick = kit.thickness_pitches * kit.pitch_mm
    items: list[Item] = []
    for panel in setout.panels:
        if panel.row != 0:
            continue
        for face in panel.faces:
            near = setout.walls[face.wall].packing_mm
            ends = x_mm(setout, face.wall, face.left), x_mm(setout, face.wall, face.right)
            fill = _CORNER_GREY if len(panel.faces) > 1 else 1.0
            items.append(Path(view.strip(face.wall, *ends, near, near + thick), _JOINT, closed=True, fill=fill))
    return items


def _opening(view: PlanView, opening: Opening) -> list[Item]:
    """A gap where one can walk or look through; a short heavy bar where something sits in the lining."""
    setout = view.setout
    kit, packing = setout.room.kit, setout.walls[opening.wall].packing_mm
    face = packing + kit.thickness_pitches * kit.pitch_mm
    if opening.kind not in ("door", "window"):
        return [Path(view.strip(opening.wall, opening.left_mm, opening.right_mm, 0.0, face), None, closed=True, fill=0.0)]
    out = -1.2 * view.scale.factor
    edge = face + 0.4 * view.scale.factor
    gap = Path(view.strip(opening.wall, opening.left_mm, opening.right_mm, out, edge), None, closed=True, fill=1.0)
    jambs = [
        Path((view.on_wall(opening.wall, x, out), view.on_wall(opening.wall, x, edge)), _SHELL)
        for x in (opening.left_mm, opening.right_mm)
    ]
    panes = () if opening.kind == "door" else (0.0, face)
    glass = [
        Path((view.on_wall(opening.wall, opening.left_mm, inward), view.on_wall(opening.wall, opening.right_mm, inward)), _SHELL)
        for inward in panes
    ]
    return [gap, *jambs, *glass]


def _looking(view: PlanView, wall: int, placer: Placer) -> list[Item]:
    """The wall's letter in a ring inside the room, with an arrow towards the wall."""
    middle, factor = view.setout.room.wall_length_mm(wall) / 2, view.scale.factor
    letter = wall_letter(wall)
    radius, height = (3.6, 3.5) if len(letter) == 1 else (4.6, 2.5)
    for away, along in product((11.0, 9.0, 14.0, 18.0, 24.0, 30.0), (0.0, 6.0, -6.0, 12.0, -12.0)):
        x, y = view.on_wall(wall, middle + along * factor, away * factor)
        ring = Circle((x, y), radius, _SHELL, fill=1.0)
        if placer.is_free(item_box(ring)):
            tip = tuple(
                view.on_wall(wall, middle + (along + side) * factor, (away - far) * factor)
                for side, far in ((-2.2, radius), (2.2, radius), (0.0, radius + 3.0))
            )
            arrow = Path(tip, None, closed=True, fill=0.0)
            placer.claim(item_box(ring), is_text=True)
            placer.claim(item_box(arrow), is_text=True)
            return [arrow, ring, Text((x, y + height / 2), letter, height, "middle")]
    return []


def _length(view: PlanView, wall: int, placer: Placer) -> list[Item]:
    """The frame length and the packing, outside the room by the wall's middle; inside where outside is taken."""
    setout, units = view.setout, view.setout.room.display_units
    shell = setout.walls[wall]
    lines = (format_length(shell.length_mm, units), tr("packing {gap}", gap=gap_words(shell.packing_mm, units)))
    x0, y0 = view.on_wall(wall, 0.0, 0.0)
    x1, y1 = view.on_wall(wall, shell.length_mm, 0.0)
    turn = 90 if abs(x1 - x0) < abs(y1 - y0) * 0.2 else 0
    factor = view.scale.factor
    spots = (
        view.on_wall(wall, shell.length_mm / 2 + along * factor, away * factor)
        for away in (-6.0, -9.0, -13.0, -18.0, 20.0, 26.0)
        for along in (0.0, 12.0, -12.0, 24.0, -24.0)
    )
    found = placer.first_free(stacked(spot, lines, 2.5, turn_degrees=turn) for spot in spots)
    return list(found or ())


def _named(view: PlanView, opening: Opening, placer: Placer) -> list[Item]:
    """Name and size of an opening beside it, with a leader."""
    x, y = view.on_wall(opening.wall, (opening.left_mm + opening.right_mm) / 2, 0.0)
    spots = around(Box(x, y, x, y), 40.0)
    found = placer.first_led((stacked(spot, opening_words(view.setout, opening), 2.5) for spot in spots), (x, y))
    return [*led_label(found, (x, y)), *found] if found else []
