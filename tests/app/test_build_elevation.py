"""The crew's progress on the elevation: shown without colour, kept pictures kept, nothing lost in partial repaints."""

from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QImage, QPainter

from app.elevation.content import next_contents, wall_contents
from app.elevation.pictures import WallPictures
from app.elevation.progress_marks import paint_signs
from app.window import Window
from core.edits import move_opening
from core.edits.progress import mark_panels
from core.files import load_room
from core.progress import STATES, PanelState
from core.room import Room
from core.setout import sketch
from core.setout.result import SetOut

VIEW = QRect(0, 0, 1200, 500)


@pytest.fixture
def setout(demo_room_path: Path) -> SetOut:
    return sketch(load_room(demo_room_path))


def marked(setout: SetOut, marks: list[str], state: PanelState) -> Room:
    return mark_panels(setout, marks, state, {})


def sign(state: PanelState, size: int) -> QImage:
    image = QImage(size, size, QImage.Format.Format_Grayscale8)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    paint_signs(painter, state, [image.rect()])
    painter.end()
    return image


@pytest.mark.parametrize("size", [16, 37, 120])
def test_every_state_has_a_sign_of_its_own_in_black_and_white(size: int) -> None:
    """From memory: a sheet copied in black and white must still tell the states apart (small, whole-room and close views)."""
    pictures = [sign(state, size) for state in STATES]
    assert all(one != other for n, one in enumerate(pictures) for other in pictures[:n])


def test_marking_a_panel_changes_the_content_of_its_walls_only(setout: SetOut) -> None:
    contents = wall_contents(setout)
    corner = next(panel for panel in setout.panels if panel.kind == "corner" and {f.wall for f in panel.faces} == {0, 1})
    after = sketch(marked(setout, [corner.mark], "built"))
    now = next_contents(contents, setout, after)
    assert [one is other for one, other in zip(contents, now, strict=True)] == [False, False, True, True]
    assert {placed.state for placed in now[0].faces if placed.mark == corner.mark} == {"built"}
    assert now == wall_contents(after)


def test_a_drag_changes_no_state_and_leaves_other_walls_alone(setout: SetOut) -> None:
    hung = sketch(marked(setout, [panel.mark for panel in setout.panels[::2]], "hung"))
    contents = wall_contents(hung)
    dragged = sketch(move_opening(hung.room, "window", left_mm=1062.0))
    now = next_contents(contents, hung, dragged)
    assert now == wall_contents(dragged)
    assert now[2] is contents[2]


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("scale", [0.11, 0.6])
def test_a_sign_repainted_in_part_is_the_sign_painted_afresh(setout: SetOut, scale: float) -> None:
    def drawn(pictures: WallPictures, wall: int) -> QImage:
        image = QImage(VIEW.size(), QImage.Format.Format_RGB32)
        image.fill(0)
        painter = QPainter(image)
        pictures.draw(painter, contents[wall], scale, QPoint(-40, 30), VIEW)
        painter.end()
        return image

    contents, pictures = wall_contents(setout), WallPictures()
    drawn(pictures, 1)
    marks = [panel.mark for panel in setout.panels if panel.faces[-1].wall == 1]
    for number, state in enumerate(("built", "checked", "hung", "taken out", "hung")):
        before, setout = setout, sketch(marked(setout, marks[: -number or None], state))  # type: ignore[arg-type]
        contents = next_contents(contents, before, setout)
        assert drawn(pictures, 1) == drawn(WallPictures(), 1)


def test_only_walls_whose_states_changed_get_another_picture(window: Window) -> None:
    document = window.document
    document.work_out()
    window.elevation.grab()
    before = dict(window.elevation.pictures)
    top = len(document.setout.rows) - 1
    mark = next(panel.mark for panel in document.setout.panels if {f.wall for f in panel.faces} == {2} and panel.row == top)
    room = marked(document.setout, [mark], "hung")
    document.know(room)
    document.commit(room, "Mark")
    window.elevation.grab()
    after = dict(window.elevation.pictures)
    assert [after[wall] is before[wall] for wall in range(4)] == [True, True, False, True]
