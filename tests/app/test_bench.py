"""The bench view by mouse and keyboard: real events, and the document and the page tell what came of them."""

from collections import Counter
from collections.abc import Callable
from datetime import date

import pytest
from PySide6.QtCore import QSizeF, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.bench.dialog import MAKING_SHEET, BenchDialog
from app.bench.job import BenchJob
from app.bench.pages import BenchPage, strips_of
from app.bench.sheet import sheets_of_panel
from app.document import Document
from app.printing import Preview
from app.window import Window
from core.buying import in_panels
from core.crew.standing import standing
from core.frame import as_hung
from core.laying import FromStock, bond_from_stock
from core.room import Room
from core.setout import solve
from core.setout.metric import face_box_mm
from core.setout.result import Panel
from core.sheets import sheets_for
from core.whole_job import WholeJob
from tests.app.answers import Answers
from tests.core.colour.pictures import coloured, ramp
from tests.core.laying.stocked import square, takes, with_boxes
from tests.core.laying.test_from_stock import AMPLE


def panel_of(document: Document, design: str) -> Panel:
    """A panel of the design that is still to build."""
    setout = document.work_out()
    states = standing(setout).by_mark
    return next(panel for panel in setout.panels if panel.design == design and states[panel.mark] == "to build")


def double_click(window: Window, panel: Panel) -> None:
    face = panel.faces[0]
    left, bottom, right, top = face_box_mm(window.document.setout, face)
    place = window.elevation.wall_to_screen(face.wall, (3 * left + right) / 4, (3 * bottom + top) / 4).toPoint()
    QTest.mouseClick(window.elevation, Qt.MouseButton.LeftButton, pos=place)
    QTest.mouseDClick(window.elevation, Qt.MouseButton.LeftButton, pos=place)


def opened(window: Window, design: str = "full") -> BenchDialog:
    """The bench view of a design, picked by a double click."""
    double_click(window, panel_of(window.document, design))
    assert window.bench.dialog is not None
    return window.bench.dialog


def press(dialog: BenchDialog, key: Qt.Key, times: int = 1) -> None:
    for _ in range(times):
        QTest.keyClick(dialog, key)


def page(dialog: BenchDialog) -> BenchPage:
    return dialog.page(QSizeF(1600, 900))


def test_a_double_click_on_a_panel_opens_its_bench_view(window: Window) -> None:
    dialog = opened(window)
    assert dialog.isVisible()
    assert dialog.job.design.name == "full"
    assert page(dialog).title == "Course 1 of 31"


def test_enter_opens_the_selected_panel_and_escape_closes_it(window: Window) -> None:
    panel = panel_of(window.document, "half-width")
    window.document.select(panel.mark)
    window.elevation.setFocus()
    QTest.keyClick(window.elevation, Qt.Key.Key_Return)
    dialog = window.bench.dialog
    assert dialog is not None
    assert (dialog.job.design.name, dialog.mark) == ("half-width", panel.mark)
    press(dialog, Qt.Key.Key_Escape)
    assert window.bench.dialog is None


def test_with_nothing_selected_the_bench_shows_a_panel_of_the_current_wall(window: Window) -> None:
    window.document.select(None)
    window.document.set_wall(2)
    window.actions_by_name["bench"].trigger()
    dialog = window.bench.dialog
    assert dialog is not None
    marks = {panel.mark for panel in window.document.setout.panels if 2 in {face.wall for face in panel.faces}}
    assert marks & set(dialog.job.marks)


@pytest.mark.parametrize("key", [Qt.Key.Key_Space, Qt.Key.Key_Right, Qt.Key.Key_Down])
def test_every_course_comes_once_and_then_the_check_figures(window: Window, key: Qt.Key) -> None:
    dialog = opened(window, "half-height")
    titles = []
    while not page(dialog).is_check:
        titles.append(page(dialog).title)
        press(dialog, key)
    assert titles[:15] == [f"Course {number} of 15" for number in range(1, 16)]
    assert [title.split(",")[0] for title in titles[15:]] == ["Plate course", "Cap course"]
    press(dialog, key)
    assert page(dialog).is_check


@pytest.mark.parametrize("key", [Qt.Key.Key_Left, Qt.Key.Key_Up])
def test_back_home_and_end(window: Window, key: Qt.Key) -> None:
    dialog = opened(window)
    press(dialog, Qt.Key.Key_End)
    assert page(dialog).is_check
    press(dialog, key)
    assert page(dialog).title.startswith("Cap course")
    press(dialog, Qt.Key.Key_Home)
    press(dialog, key)
    assert page(dialog).title == "Course 1 of 31"


def test_a_click_on_the_right_half_turns_on_and_on_the_left_half_back(window: Window) -> None:
    dialog = opened(window)
    paper = dialog.paper
    right, left = paper.rect().center(), paper.rect().center()
    right.setX(paper.width() - 20)
    left.setX(20)
    QTest.mouseClick(paper, Qt.MouseButton.LeftButton, pos=right)
    QTest.mouseClick(paper, Qt.MouseButton.LeftButton, pos=right)
    QTest.mouseClick(paper, Qt.MouseButton.LeftButton, pos=left)
    assert dialog.number == 1


def test_the_courses_parts_add_up_to_the_panels_parts(window: Window) -> None:
    window.document.work_out()
    for design in window.document.setout.designs:
        job = BenchJob.of(window.document.setout, design.name)
        total: Counter[str] = Counter()
        for number in range(len(job.layers)):
            total.update(dict(job.counted(number)))
        total["plug"] += job.bond.mounts
        assert total == Counter({name.removeprefix("brick "): count for name, count in job.bond.parts.items()})


def test_a_plain_course_of_a_full_panel_takes_ten_bricks(window: Window) -> None:
    """38 pitches in bricks of four and their remainder: ten bricks (common practice, no published source)."""
    job = BenchJob.of(window.document.work_out(), "full")
    counted = job.counted(0)
    assert sum(count for _, count in counted) == 10
    assert sum(int(name.removeprefix("2x")) * count for name, count in counted) == 38


@pytest.mark.parametrize("from_back", [False, True])
def test_the_drawing_covers_every_cell_of_the_course_once(window: Window, from_back: bool) -> None:
    """A course's parts, drawn from above, fill the legs' areas without overlap; the square goes to one leg."""
    setout = window.document.work_out()
    for design in setout.designs:
        job = BenchJob.of(setout, design.name)
        for number, layer in enumerate(job.layers):
            strips = strips_of(BenchPage(job, number, from_back, job.marks[0], "", 0, QSizeF(1600, 900)))
            for strip in strips:
                boxes = [strip.from_above(laid) for laid in strip.mine(layer)]
                area = sum(box.width() * box.height() for box in boxes) / strip.pitch**2
                cells = sum(laid.length * (2 if laid.side is None else 1) for laid in strip.mine(layer))
                assert area == pytest.approx(cells)
                for i, box in enumerate(boxes):
                    assert strip.left - 1e-6 <= box.left() < box.right() <= strip.left + strip.width + 1e-6
                    inner = box.adjusted(0.5, 0.5, -0.5, -0.5)
                    assert not any(inner.intersects(other) for other in boxes[i + 1 :])


def test_everything_stays_on_the_page(window: Window) -> None:
    setout = window.document.work_out()
    for size in (QSizeF(640, 400), QSizeF(1024, 768), QSizeF(1600, 900), QSizeF(3840, 2160)):
        for design in setout.designs:
            job = BenchJob.of(setout, design.name)
            for strip in strips_of(BenchPage(job, 3, False, job.marks[0], "", 0, size)):
                assert strip.left >= 0
                assert strip.left + strip.width <= size.width() + 1e-6
                assert strip.top + strip.depth_px <= size.height() * 0.75


def test_the_other_side_counts_its_holes_from_its_own_left(window: Window) -> None:
    dialog = opened(window, "shaped NWH")
    job = dialog.job
    number = next(n for n in range(len(job.layers)) if job.hole_words(n, from_back=False))
    press(dialog, Qt.Key.Key_Right, number)
    front = page(dialog)
    press(dialog, Qt.Key.Key_M)
    back = page(dialog)
    assert (front.from_back, back.from_back) == (False, True)
    width = job.spans[0].width
    holes = [int(word) for word in front.job.hole_words(number, from_back=False)[0].split() if word.isdigit()]
    mirrored = [int(word) for word in back.job.hole_words(number, from_back=True)[0].split() if word.isdigit()]
    assert mirrored == sorted(width - hole for hole in holes)
    press(dialog, Qt.Key.Key_M)
    assert not page(dialog).from_back


def test_in_every_course_of_a_corner_one_leg_runs_through_and_the_other_comes_second(window: Window) -> None:
    setout = window.document.work_out()
    for name in (design.name for design in setout.designs if design.kind == "corner"):
        job = BenchJob.of(setout, name)
        for number in range(len(job.layers)):
            words = [job.leg_words(number, span.leg) for span in job.spans]
            assert sum("1st, runs through" in said for said in words) == 1
            assert sum("2nd, up to" in said for said in words) == 1


def test_the_course_is_remembered_for_each_design(window: Window) -> None:
    dialog = opened(window)
    press(dialog, Qt.Key.Key_Space, 6)
    press(dialog, Qt.Key.Key_Escape)
    other = opened(window, "half-height")
    assert other.number == 0
    press(other, Qt.Key.Key_Space, 2)
    press(other, Qt.Key.Key_Escape)
    assert opened(window).number == 6


def test_page_down_goes_through_every_design(window: Window) -> None:
    dialog = opened(window)
    names = [design.name for design in as_hung(window.document.setout).setout.designs]
    seen = []
    for _ in names:
        seen.append(dialog.job.design.name)
        press(dialog, Qt.Key.Key_PageDown)
    assert sorted(seen) == sorted(names)
    press(dialog, Qt.Key.Key_PageUp)
    assert dialog.job.design.name == seen[-1]


def test_the_checked_panel_is_marked_as_built_and_that_can_be_taken_back(window: Window) -> None:
    dialog = opened(window)
    document, mark = window.document, dialog.mark
    before = document.room
    press(dialog, Qt.Key.Key_B)
    assert document.room == before
    press(dialog, Qt.Key.Key_End)
    assert dialog.built.isVisible()
    press(dialog, Qt.Key.Key_B, 2)
    assert standing(document.work_out()).by_mark[mark] == "built"
    assert document.undo_stack.count() == 1
    press(dialog, Qt.Key.Key_Home)
    press(dialog, Qt.Key.Key_End)
    assert mark not in dialog.built.text()
    QTest.keyClick(dialog, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert document.room == before
    assert mark in dialog.built.text()


def test_the_button_marks_the_panel_too(window: Window) -> None:
    dialog = opened(window, "half-width")
    mark = dialog.mark
    press(dialog, Qt.Key.Key_End)
    QTest.mouseClick(dialog.built, Qt.MouseButton.LeftButton)
    assert standing(window.document.work_out()).by_mark[mark] == "built"


def test_the_last_panel_of_a_design_is_said_to_be_the_last(window: Window) -> None:
    dialog = opened(window, "shaped NWH")
    assert len(dialog.job.marks) == 1
    press(dialog, Qt.Key.Key_End)
    press(dialog, Qt.Key.Key_B)
    assert "the last of its design" in page(dialog).notice
    window.document.work_out()
    assert not dialog.built.isEnabled()


def test_space_on_the_last_page_marks_nothing(window: Window) -> None:
    dialog = opened(window)
    before = window.document.room
    press(dialog, Qt.Key.Key_End)
    press(dialog, Qt.Key.Key_Space, 3)
    press(dialog, Qt.Key.Key_Return)
    assert window.document.room == before


def test_the_last_page_holds_the_figures_of_the_finished_panel(window: Window) -> None:
    """38 pitches of 8.0 mm and 31 courses of 9.6 mm with two layers of 3.2 mm: 304.0 mm both ways (the kit's sizes)."""
    job = BenchJob.of(window.document.work_out(), "full")
    figures = {name: figure for name, figure, _ in job.checks()}
    assert figures["width,\u00a0mm"] == "304.0"
    assert figures["height without top knobs,\u00a0mm"] == "304.0"
    assert figures["brick courses up"] == "31"
    assert int(figures["parts, plugs included"]) == sum(job.bond.parts.values())


@pytest.mark.slow
def test_one_key_shows_this_panels_sheet_only_and_numbered_as_in_the_pack(window: Window, qtbot: QtBot) -> None:
    dialog = opened(window, "half-height")
    shown = look_at_modal(Preview, lambda preview: [sheet.code for _, group in preview._jobs for sheet in group])
    press(dialog, Qt.Key.Key_P)
    assert page(dialog).notice == MAKING_SHEET
    qtbot.waitUntil(lambda: bool(shown), timeout=60_000)
    assert shown == [["panel-half-height"]]
    setout = window.document.setout
    pack = sheets_for(setout, issued=date.today())
    assert sheets_of_panel(setout, dialog.mark) == tuple(sheet for sheet in pack if sheet.code == "panel-half-height")


def test_the_bench_shows_the_bond_that_the_stock_allows_and_notes_it_with_the_panel(window: Window) -> None:
    """After the first panel of a swapped bond is built, what its own bond takes is in the panel, and not its design's parts."""
    found = lay_from_stock(window)
    mark, bond = next(iter(found.swapped.items()))
    window.bench.open(mark)
    dialog = window.bench.dialog
    assert dialog is not None
    assert dialog.job.bond == bond
    assert dialog.job.name == found.names[mark]
    before = in_panels(window.document.room)
    press(dialog, Qt.Key.Key_End)
    press(dialog, Qt.Key.Key_B)
    assert standing(window.document.setout).by_mark[mark] == "built"
    took = in_panels(window.document.room)
    took.subtract(before)
    assert +took == found.parts(mark)
    assert window.from_stock.found is found


def test_going_on_to_a_panel_of_another_bond_changes_what_is_shown(window: Window) -> None:
    setout = solve(square())
    short = AMPLE | {"brick 2x4": takes(setout)["brick 2x4"] - 100}
    window.document.replace(with_boxes(setout, short).room, None)
    found = bond_from_stock(window.document.work_out())
    window.from_stock._keep(found)
    first, second = [group for group in found.groups if group.design.startswith("corner")]
    window.bench.open(first.marks[0])
    dialog = window.bench.dialog
    assert dialog is not None
    for mark in first.marks:
        assert (dialog.mark, dialog.job.name) == (mark, first.name)
        assert dialog.job.bond == first.bond
        press(dialog, Qt.Key.Key_End)
        press(dialog, Qt.Key.Key_B)
        press(dialog, Qt.Key.Key_Home)
    assert (dialog.mark, dialog.job.name) == (second.marks[0], second.name)
    assert dialog.job.bond == second.bond
    assert dialog.number == 0


def test_a_panel_cut_at_its_colours_is_shown_as_it_is_laid_with_the_letters_of_its_colours(window: Window) -> None:
    picture = ramp(100, 60, wall=0, left_mm=400.0, bottom_mm=200.0, width_mm=1500.0, height_mm=900.0)
    window.document.replace(coloured(window.document.room, picture, rest="sand"), None)
    setout = window.document.work_out()
    job = WholeJob(setout)
    states = standing(setout).by_mark
    mark = next(mark for mark, finish in job.finishes.items() if finish.is_cut and states[mark] == "to build")
    window.bench.open(mark)
    dialog = window.bench.dialog
    assert dialog is not None
    shown = dialog.job
    assert shown.bond.layers == job.finishes[mark].bond.layers
    assert shown.own_parts == job.takeoff.laid[mark]
    for number, layer in enumerate(shown.layers):
        assert sum(count for _, _, count in shown.swatches(number)) == len(layer.laid)
        labels = shown.labels(number)
        assert all(label.endswith(code) for label, code in zip(labels.values(), shown.codes[number], strict=True))
    plain = next(mark for mark, finish in job.finishes.items() if finish.colours == ("sand",) and states[mark] == "to build")
    window.bench.open(plain)
    assert window.bench.dialog is not None
    assert window.bench.dialog.job.colour == "sand"


def lay_from_stock(window: Window) -> FromStock:
    """The panels laid from boxes that hold somewhat fewer 2x4 bricks than they would take, and plenty of others."""
    setout = window.document.work_out()
    short = AMPLE | dict.fromkeys(AMPLE, 90000) | {"brick 2x4": takes(setout)["brick 2x4"] - 300}
    window.document.replace(with_boxes(setout, short).room, None)
    found = bond_from_stock(window.document.work_out())
    assert found.shortage is None
    window.from_stock._keep(found)
    return found


def look_at_modal(kind: type[Preview], ask: Callable[[Preview], list[str]]) -> list[list[str]]:
    """What a modal dialog that opens next answers; it is closed then."""
    found: list[list[str]] = []

    def look() -> None:
        there = QApplication.activeModalWidget()
        if isinstance(there, kind):
            found.append(ask(there))
            there.close()
        else:
            QTimer.singleShot(20, look)

    QTimer.singleShot(20, look)
    return found


def test_a_design_that_cannot_be_bonded_is_told(window: Window, room: Room, answers: Answers) -> None:
    bare = tuple(part.model_copy(update={"is_stocked": False}) for part in room.parts)
    window.document.replace(room.model_copy(update={"parts": bare}), None)
    window.bench.open(window.document.work_out().panels[0].mark)
    assert window.bench.dialog is None
    assert "is_stocked" in answers.said[0]


def test_the_page_is_told_in_words(window: Window) -> None:
    dialog = opened(window)
    press(dialog, Qt.Key.Key_Space, 3)
    said = dialog.paper.accessibleDescription()
    assert said.startswith("Course 4 of 31. 2x4 times 8")
    assert "PIN-HOLE PAIRS: hole after 1 and 37 knobs" in said
