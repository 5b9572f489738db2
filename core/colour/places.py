"""Where the legs of a panel lie on their walls."""

from dataclasses import dataclass

from core.setout.result import Panel, SetOut


@dataclass(frozen=True, slots=True)
class LegPlace:
    """One leg of a panel: its pitch 0 is the wall's pitch ``left``."""

    wall: int
    left: int
    length: int


def leg_places(setout: SetOut, panel: Panel) -> tuple[LegPlace, ...]:
    """The legs of a panel in the order of its bond; both count from the left, the right leg of a corner from the corner line."""
    walls = list(dict.fromkeys(face.wall for face in panel.faces))
    found = []
    for number, wall in enumerate(walls):
        faces = [face for face in panel.faces if face.wall == wall]
        left = 0 if number else min(face.left for face in faces)
        is_left_leg = len(walls) > 1 and not number
        right = setout.walls[wall].pitches if is_left_leg else max(face.right for face in faces)
        found.append(LegPlace(wall, left, right - left))
    return tuple(found)
