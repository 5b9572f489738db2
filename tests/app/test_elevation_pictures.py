"""A wall's kept picture: repainted in part it must look as if painted afresh."""

from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QRect
from PySide6.QtGui import QImage, QPainter

from app.elevation.content import WallContent, next_contents, wall_contents
from app.elevation.pictures import WallPictures
from core.edits import move_opening, resize_opening
from core.room import Room
from core.setout import sketch

VIEW = QRect(0, 0, 1200, 500)


def drawn(pictures: WallPictures, content: WallContent, scale: float, ratio: float) -> QImage:
    """The wall as a view shows it."""
    image = QImage(VIEW.size() * ratio, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(ratio)
    image.fill(0)
    painter = QPainter(image)
    pictures.draw(painter, content, scale, QPoint(-40, 30), VIEW)
    painter.end()
    return image


def rooms_of_a_drag(room: Room) -> list[Room]:
    """A window goes sideways by less and by more than a pitch, up over a row, is widened, and leaves the wall and comes back."""
    return [
        move_opening(room, "window", left_mm=1062.0),
        move_opening(room, "window", left_mm=1100.0),
        move_opening(room, "window", sill_mm=700.0),
        move_opening(room, "window", wall=2),
        move_opening(room, "window", left_mm=1300.0),
        resize_opening(room, "window", width_mm=700.0),
        room,
    ]


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("ratio", [1.0, 2.0])
@pytest.mark.parametrize("scale", [0.11, 0.4, 1.1])
def test_a_picture_repainted_in_part_is_the_picture_painted_afresh(demo_room_path: Path, scale: float, ratio: float) -> None:
    setout = sketch(Room.model_validate_json(demo_room_path.read_text()))
    contents, pictures = wall_contents(setout), WallPictures()
    for room in [setout.room, *rooms_of_a_drag(setout.room)]:
        before, setout = setout, sketch(room)
        contents = next_contents(contents, before, setout)
        assert contents == wall_contents(setout)
        for content in contents:
            assert drawn(pictures, content, scale, ratio) == drawn(WallPictures(), content, scale, ratio)


@pytest.mark.usefixtures("qapp")
def test_a_wall_that_stays_as_it_is_keeps_its_content_and_its_picture(demo_room_path: Path) -> None:
    setout = sketch(Room.model_validate_json(demo_room_path.read_text()))
    moved = sketch(move_opening(setout.room, "window", left_mm=1062.0))
    before, pictures = wall_contents(setout), WallPictures()
    now = next_contents(before, setout, moved)
    still = [wall for wall, content in enumerate(now) if content is before[wall]]
    assert still
    for content in before:
        drawn(pictures, content, 0.2, 1.0)
    kept = dict(pictures.kept)
    for content in now:
        drawn(pictures, content, 0.2, 1.0)
    assert [wall for wall, picture in pictures.kept.items() if picture is kept[wall]] == still
