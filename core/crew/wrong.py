"""What a panel that came out wrong can still serve as."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from core.crew.standing import standing
from core.progress import WrongPanel
from core.setout.result import Panel, SetOut

_RECTANGLES = frozenset({"full", "half-height", "half-width", "quarter", "closer", "corner"})


@dataclass(frozen=True, slots=True)
class Size:
    """A plain or corner panel's size: widths of its legs, courses, and which way its corner turns."""

    widths_pitches: tuple[int, ...]
    courses: int
    is_outside_corner: bool


@dataclass(frozen=True, slots=True)
class Use:
    """A design a wrong panel can stand in for: ``courses_off`` its top courses come off first, then plate and cap go on again."""

    design: str
    courses_off: int
    marks: tuple[str, ...]


def uses_of(setout: SetOut, wrong: WrongPanel) -> tuple[Use, ...]:
    """What the panel can serve as, panels still to build only; as it is first, then those that need fewest courses taken off."""
    states = standing(setout).by_mark
    open_panels = [panel for panel in setout.panels if states[panel.mark] == "to build"]
    marks: defaultdict[tuple[int, str], list[str]] = defaultdict(list)
    for panel, size in _sizes(setout, open_panels):
        same = (size.widths_pitches, size.is_outside_corner) == (wrong.widths_pitches, wrong.is_outside_corner)
        if same and size.courses <= wrong.courses:
            marks[wrong.courses - size.courses, panel.design].append(panel.mark)
    return tuple(Use(design, off, tuple(found)) for (off, design), found in sorted(marks.items()))


def _sizes(setout: SetOut, panels: Iterable[Panel]) -> Iterable[tuple[Panel, Size]]:
    """The panels that are rectangles with their plate and cap course, with their sizes."""
    for panel in panels:
        size = size_of(setout, panel)
        if size is not None:
            yield panel, size


def size_of(setout: SetOut, panel: Panel) -> Size | None:
    """A rectangular panel's size; None for shaped ones and those cut off below their row's plate and cap course."""
    row = setout.rows[panel.row]
    top = row.z_plates + row.height_plates
    if panel.kind not in _RECTANGLES or any(face.top != top for face in panel.faces):
        return None
    first = panel.faces[0]
    courses, rest = divmod(first.top - first.bottom - 2, setout.room.kit.plates_per_course)
    if rest or courses < 1:
        return None
    is_outside = len(panel.faces) > 1 and setout.walls[first.wall].right == "outside"
    return Size(tuple(face.right - face.left for face in panel.faces), courses, is_outside)
