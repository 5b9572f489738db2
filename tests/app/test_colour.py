"""Colours in the window: rules laid, put in order and taken back, pictures tried and laid, all of it shown on the walls."""

from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtWidgets import QListWidget, QPushButton, QStyle, QStyleOptionButton
from pytestqt.qtbot import QtBot

from app.colour.leaf import ColourLeaf
from app.colour.picture_file import PictureError, read_picture
from app.colour.rule_words import rule_words
from app.colour.tint import _patches, ink_on
from app.theme import contrast
from app.window import Window
from core.colour import ANY, wishes_of
from core.colour.wishes import stack_layers
from core.colouring import DEFAULT_COLOURS, BandRule, PanelRule, PictureRule, RoomRule, WallRule
from core.edits.colouring import add_rule, change_colour
from core.files import load_room
from core.setout import solve

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def leaf(window: Window, qtbot: QtBot) -> ColourLeaf:
    """The colour leaf of a window whose set-out is worked out."""
    window.document.work_out()
    qtbot.keyClick(window, Qt.Key.Key_9, Qt.KeyboardModifier.ControlModifier)
    found = window.leaves.turn_to(window.colouring)
    assert isinstance(found, ColourLeaf)
    return found


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A picture: black above, white below."""
    image = QImage(30, 20, QImage.Format.Format_RGB32)
    image.fill(QColor("white"))
    for x in range(30):
        for y in range(10):
            image.setPixelColor(x, y, QColor("black"))
    path = tmp_path / "flag.png"
    assert image.save(str(path))
    return path


def choose(qtbot: QtBot, listed: QListWidget, text: str) -> None:
    item = next(listed.item(row) for row in range(listed.count()) if listed.item(row).text().startswith(text))
    listed.scrollToItem(item)
    place = listed.visualItemRect(item)
    qtbot.mouseClick(listed.viewport(), LEFT, pos=QPoint(place.left() + 90, place.center().y()))
    assert listed.currentItem() is item


def click(qtbot: QtBot, button: QPushButton) -> None:
    qtbot.mouseClick(button, LEFT)


def shown_colour(window: Window, wall: int, x_mm: float, z_mm: float) -> QColor:
    """The pixel the person sees there."""
    place = window.elevation.wall_to_screen(wall, x_mm, z_mm).toPoint()
    return window.elevation.grab().toImage().pixelColor(place)


def test_a_wall_is_laid_in_the_colour_in_hand_and_shown(window: Window, leaf: ColourLeaf, qtbot: QtBot) -> None:
    choose(qtbot, leaf.palette_card.colours, "brick red")
    click(qtbot, leaf.laying.wall)
    assert window.document.room.colouring.rules == (WallRule(kind="wall", colour="brick red", wall=0),)
    red = window.document.room.colouring.colour("brick red")
    assert shown_colour(window, 0, 1030.0, 900.0) == QColor(red.srgb)
    assert shown_colour(window, 2, 1030.0, 900.0) != QColor(red.srgb)
    window.undo.trigger()
    assert window.document.room.colouring.is_plain
    assert shown_colour(window, 0, 1030.0, 900.0) != QColor(red.srgb)


def test_a_panel_clicked_on_the_wall_is_laid_and_so_are_its_courses(window: Window, leaf: ColourLeaf, qtbot: QtBot) -> None:
    panel = next(p for p in window.document.setout.panels if p.kind == "full" and p.faces[0].wall == 2)
    face = panel.faces[0]
    middle = (window.document.setout.walls[2].start_mm + (face.left + face.right) * 4.0, (face.bottom + face.top) * 1.6)
    assert not leaf.laying.panel.isEnabled()
    qtbot.mouseClick(window.elevation, LEFT, pos=window.elevation.wall_to_screen(2, *middle).toPoint())
    assert leaf.laying.panel.text() == f"Panel {panel.mark}"
    choose(qtbot, leaf.palette_card.colours, "moss")
    click(qtbot, leaf.laying.panel)
    leaf.laying.first.setValue(6)
    leaf.laying.last.setValue(4)
    choose(qtbot, leaf.palette_card.colours, "sand")
    click(qtbot, leaf.laying.courses)
    place = {"wall": 2, "bottom_plates": face.bottom, "left_pitches": face.left}
    assert window.document.room.colouring.rules == (
        PanelRule(kind="panel", colour="moss", **place),
        PanelRule(kind="panel", colour="sand", layers=(4, 5, 6), **place),
    )
    assert leaf.rules.rules.item(0).text() == f"Panel {panel.mark}, courses 4 to 6: sand (s)"


def test_a_band_is_laid_as_typed_and_nonsense_is_refused(window: Window, leaf: ColourLeaf, qtbot: QtBot) -> None:
    qtbot.keyClicks(leaf.laying.low, "high")
    click(qtbot, leaf.laying.band)
    assert leaf.laying.fault.isVisible()
    leaf.laying.low.clear()
    qtbot.keyClicks(leaf.laying.low, "900")
    qtbot.keyClicks(leaf.laying.high, "850 mm")
    click(qtbot, leaf.laying.band)
    assert "must end above where it begins" in leaf.laying.fault.text()
    assert window.document.room.colouring.is_plain
    leaf.laying.high.clear()
    qtbot.keyClicks(leaf.laying.high, "95 cm")
    leaf.laying.one_wall.click()
    click(qtbot, leaf.laying.band)
    assert not leaf.laying.fault.isVisible()
    name = leaf.palette_card.colour
    band = BandRule(kind="band", colour=str(name), from_mm=900.0, to_mm=950.0, walls=(0,))
    assert window.document.room.colouring.rules == (band,)


def test_rules_are_reordered_and_removed(window: Window, leaf: ColourLeaf, qtbot: QtBot) -> None:
    for name in ("moss", "plum"):
        choose(qtbot, leaf.palette_card.colours, name)
        click(qtbot, leaf.laying.room)
    plum = QColor(window.document.room.colouring.colour("plum").srgb)
    assert shown_colour(window, 0, 1030.0, 900.0) == plum
    choose(qtbot, leaf.rules.rules, "Whole room: moss")
    click(qtbot, leaf.rules.up)
    assert [leaf.rules.rules.item(row).text() for row in (0, 1)] == ["Whole room: moss (m)", "Whole room: plum (p)"]
    assert shown_colour(window, 0, 1030.0, 900.0) != plum
    assert leaf.rules.rules.currentRow() == 0
    click(qtbot, leaf.rules.up)
    click(qtbot, leaf.rules.remove)
    assert window.document.room.colouring.rules == (RoomRule(kind="room", colour="plum"),)
    for _ in range(4):
        window.undo.trigger()
    assert window.document.room.colouring.is_plain


def test_a_colour_that_is_not_stocked_cannot_be_laid(window: Window, leaf: ColourLeaf, qtbot: QtBot) -> None:
    item = next(leaf.palette_card.colours.item(row) for row in range(20) if "plum" in leaf.palette_card.colours.item(row).text())
    item.setCheckState(Qt.CheckState.Unchecked)
    assert not window.document.room.colouring.colour("plum").is_stocked
    choose(qtbot, leaf.palette_card.colours, "plum")
    click(qtbot, leaf.laying.room)
    assert "'plum' is not stocked" in leaf.laying.fault.text()
    assert not window.document.room.colouring.rules


def test_a_colour_in_use_stays_stocked_and_its_tick_comes_back(window: Window, leaf: ColourLeaf, qtbot: QtBot) -> None:
    choose(qtbot, leaf.palette_card.colours, "moss")
    click(qtbot, leaf.laying.room)
    leaf.palette_card.colours.currentItem().setCheckState(Qt.CheckState.Unchecked)
    assert "'moss' is not stocked" in leaf.palette_card.fault.text()
    item = next(i for row in range(20) if (i := leaf.palette_card.colours.item(row)).text() == "moss (m)")
    assert item.checkState() == Qt.CheckState.Checked
    assert window.document.room.colouring.colour("moss").is_stocked


def test_a_colour_of_ones_own_is_added_and_removed(window: Window, leaf: ColourLeaf, qtbot: QtBot) -> None:
    qtbot.keyClicks(leaf.palette_card.name, "mustard")
    click(qtbot, leaf.palette_card.add)
    assert leaf.palette_card.fault.isVisible()
    qtbot.keyClicks(leaf.palette_card.srgb, "C9A227")
    click(qtbot, leaf.palette_card.add)
    assert leaf.palette_card.colour == "mustard"
    assert window.document.room.colouring.colour("mustard").srgb == "#c9a227"
    click(qtbot, leaf.palette_card.remove)
    assert window.document.room.colouring.colours == DEFAULT_COLOURS


def test_a_picture_is_tried_before_it_is_laid(window: Window, leaf: ColourLeaf, file: Path, qtbot: QtBot) -> None:
    window.document.set_wall(2)
    leaf.picture._ask = lambda _parent: file
    click(qtbot, leaf.picture.choose)
    colouring = window.document.room.colouring
    assert colouring.is_plain
    white, black = (QColor(colouring.colour(name).srgb) for name in ("white", "black"))
    assert shown_colour(window, 2, 1030.0, 500.0) == white
    assert shown_colour(window, 2, 1030.0, 1500.0) == black
    click(qtbot, leaf.picture.give_up)
    assert shown_colour(window, 2, 1030.0, 500.0) != white
    click(qtbot, leaf.picture.choose)
    qtbot.keyClicks(leaf.picture.left.line, "1 m")
    leaf.picture.left.line.selectAll()
    qtbot.keyClicks(leaf.picture.left.line, "1500 mm")
    qtbot.keyClick(leaf.picture.left.line, Qt.Key.Key_Return)
    click(qtbot, leaf.picture.lay)
    (rule,) = window.document.room.colouring.rules
    assert isinstance(rule, PictureRule)
    assert (rule.wall, rule.left_mm, rule.name) == (2, 1500.0, "flag.png")
    assert shown_colour(window, 2, 1030.0, 500.0) != white
    assert shown_colour(window, 2, 2500.0, 500.0) == white
    window.undo.trigger()
    assert window.document.room.colouring.is_plain
    assert shown_colour(window, 2, 2500.0, 500.0) != white


def test_a_laid_picture_is_moved(window: Window, leaf: ColourLeaf, file: Path, qtbot: QtBot) -> None:
    leaf.picture.take_file(file)
    click(qtbot, leaf.picture.lay)
    choose(qtbot, leaf.rules.rules, "Picture flag.png")
    leaf.picture.bottom.line.selectAll()
    qtbot.keyClicks(leaf.picture.bottom.line, "250 mm")
    qtbot.keyClick(leaf.picture.bottom.line, Qt.Key.Key_Return)
    click(qtbot, leaf.picture.lay)
    (rule,) = window.document.room.colouring.rules
    assert isinstance(rule, PictureRule)
    assert rule.bottom_mm == 250.0


def test_nothing_is_lost_by_a_file_that_is_no_picture(window: Window, leaf: ColourLeaf, tmp_path: Path) -> None:
    room = window.document.room
    for name, data, words in (
        ("notes.png", b"hello", "is no picture this program can read"),
        ("broken.png", b"\x89PNG\r\n\x1a\n" + b"\0" * 40, "broken.png"),
        ("empty.jpg", b"", "is no picture"),
    ):
        path = tmp_path / name
        path.write_bytes(data)
        leaf.picture.take_file(path)
        assert words in leaf.picture.fault.text()
        assert leaf.picture.fault.isVisible()
    leaf.picture.take_file(tmp_path / "missing.png")
    assert "cannot be opened" in leaf.picture.fault.text()
    assert window.document.room is room
    assert not leaf.picture.lay.isVisible()


def test_a_picture_is_kept_no_finer_than_a_room_may_keep_it(tmp_path: Path) -> None:
    image = QImage(2400, 400, QImage.Format.Format_ARGB32)
    image.fill(Qt.GlobalColor.transparent)
    image.save(str(tmp_path / "wide.png"))
    cells = read_picture(tmp_path / "wide.png")
    assert (cells.columns, cells.lines) == (400, 66)
    assert set(cells.srgb) == {"/"}, "what one sees through is white"


def test_too_many_pixels_are_refused_before_they_are_read(tmp_path: Path) -> None:
    header = b"P5\n20000 20000\n255\n"
    (tmp_path / "vast.pgm").write_bytes(header)
    with pytest.raises(PictureError, match="400 million pixels"):
        read_picture(tmp_path / "vast.pgm")


def test_counts_by_colour_come_when_nothing_else_happens(leaf: ColourLeaf, qtbot: QtBot) -> None:
    choose(qtbot, leaf.palette_card.colours, "moss")
    click(qtbot, leaf.laying.wall)
    qtbot.waitUntil(lambda: "parts in panels: any colour" in leaf.rules.outcome.text(), timeout=30_000)
    assert "moss" in leaf.rules.outcome.text()


def test_the_key_switches_between_kinds_and_colours(window: Window, qtbot: QtBot) -> None:
    window.document.commit_edit(lambda room: add_rule(room, RoomRule(kind="room", colour="fir")), "Lay fir")
    fir = QColor(window.document.room.colouring.colour("fir").srgb)
    assert shown_colour(window, 0, 1030.0, 900.0) != fir
    qtbot.keyClick(window, Qt.Key.Key_C)
    assert shown_colour(window, 0, 1030.0, 900.0) == fir
    qtbot.keyClick(window, Qt.Key.Key_C)
    assert shown_colour(window, 0, 1030.0, 900.0) != fir


def test_a_colour_shown_otherwise_is_painted_anew(window: Window) -> None:
    window.document.commit_edit(lambda room: add_rule(room, RoomRule(kind="room", colour="fir")), "Lay fir")
    window.colours.show_them(True)
    window.document.commit_edit(lambda room: change_colour(room, "fir", srgb="#123456"), "Show fir otherwise")
    assert shown_colour(window, 0, 1030.0, 900.0) == QColor("#123456")


def test_another_room_is_shown_in_its_own_colours(window: Window, demo_room_path: Path) -> None:
    window.colours.show_them(True)
    room = add_rule(load_room(demo_room_path), RoomRule(kind="room", colour="honey"))
    window.document.replace(room, None)
    assert shown_colour(window, 0, 1030.0, 900.0) == QColor(room.colouring.colour("honey").srgb)


@pytest.mark.parametrize("colour", DEFAULT_COLOURS, ids=lambda colour: colour.name)
def test_codes_can_be_read_on_their_colours(colour: object) -> None:
    """WCAG 2.1, success criterion 1.4.3: text needs a contrast of at least 4.5."""
    srgb = colour.srgb  # type: ignore[attr-defined]
    assert contrast(ink_on(srgb), srgb) >= 4.5


def test_patches_cover_every_wished_cell_once(demo_room_path: Path) -> None:
    room = load_room(demo_room_path)
    room = add_rule(room, BandRule(kind="band", colour="moss", from_mm=50, to_mm=700))
    room = add_rule(room, PanelRule(kind="panel", colour="sand", wall=0, bottom_plates=0, left_pitches=0))
    wishes = wishes_of(solve(room))
    cells = wishes.walls[0]
    high = max(row.z_plates + row.height_plates for row in wishes.setout.rows)
    patches = _patches(wishes, cells, (0, 0, cells.shape[1], high))
    area = sum((p.box[2] - p.box[0]) * (p.box[3] - p.box[1]) for p in patches)
    wanted = sum(
        int((cells[number] != ANY).sum()) * height
        for number, height in enumerate(layer.height_plates for layer in stack_layers(wishes.setout))
    )
    assert area == wanted


def test_rules_are_said_in_words(demo_room_path: Path) -> None:
    setout = solve(load_room(demo_room_path))
    words = {
        BandRule(kind="band", colour="moss", from_mm=0, to_mm=100): "Band 0 mm to 100 mm, all walls: moss (m)",
        BandRule(kind="band", colour="moss", from_mm=0, to_mm=100, walls=(0, 2)): "Band 0 mm to 100 mm, walls A, C: moss (m)",
        WallRule(kind="wall", colour="slate", wall=1): "Wall B: slate (e)",
        PanelRule(kind="panel", colour="moss", wall=3, bottom_plates=1, left_pitches=1, layers=(1, 3)): (
            "A panel on wall D, courses 1, 3: moss (m)"
        ),
    }
    for rule, said in words.items():
        assert rule_words(setout, rule) == said


def test_typing_in_the_list_finds_a_colour_and_adds_no_opening(leaf: ColourLeaf, window: Window, qtbot: QtBot) -> None:
    """“moss” begins with a letter that nothing else takes; the second one would put in an outlet."""
    before = window.document.room
    listed = leaf.palette_card.colours
    listed.setFocus()
    for letter in (Qt.Key.Key_M, Qt.Key.Key_O):
        qtbot.keyClick(listed, letter)
    assert window.document.room is before
    assert leaf.palette_card.colour == "moss"


def test_the_words_of_a_box_to_tick_stay_in_place_when_the_keyboard_comes_to_it(leaf: ColourLeaf) -> None:
    box, option = leaf.rules.show_colours, QStyleOptionButton()
    box.initStyleOption(option)
    option.state &= ~QStyle.StateFlag.State_HasFocus
    without = box.style().subElementRect(QStyle.SubElement.SE_CheckBoxContents, option, box)
    option.state |= QStyle.StateFlag.State_HasFocus
    assert box.style().subElementRect(QStyle.SubElement.SE_CheckBoxContents, option, box) == without
