"""At the bench and in the window a panel says how it holds together, in the words of its sheet."""

import re
from pathlib import Path

import pytest
from PySide6.QtCore import QSizeF
from pytestqt.qtbot import QtBot

from app.bench.job import BenchJob
from app.bench.pages import BenchPage
from app.document import Document
from app.elevation.tips import panel_tip
from app.inspector.opening import OpeningCard
from core.bond import bond_for
from core.files import load_room
from core.frame import as_hung
from core.room import Room
from core.setout import solve
from core.setout.result import Panel, SetOut
from core.sheets.panel_strength import strength_words


@pytest.fixture
def room(demo_room_path: Path) -> Room:
    return load_room(demo_room_path)


def _shaped(setout: SetOut) -> Panel:
    return next(panel for panel in setout.panels if panel.kind == "shaped")


def _page(job: BenchJob, number: int) -> BenchPage:
    return BenchPage(job, number, False, job.mark, "", 0, QSizeF(1600, 900))


def test_the_bench_s_last_page_ends_with_the_report(room: Room) -> None:
    setout = solve(room)
    panel = _shaped(setout)
    job = BenchJob.of(setout, panel.design, panel.mark)
    words = " ".join(strength_words(job.bond, room.kit))
    assert _page(job, len(job.layers)).words().endswith(words)
    assert "Longest stretch with nothing below" in words


def test_the_bench_says_of_the_course_over_a_cut_out_how_much_has_nothing_below(room: Room) -> None:
    setout = solve(room)
    panel = _shaped(setout)
    job = BenchJob.of(setout, panel.design, panel.mark)
    covered = [{x for one in layer.laid for x in range(one.at, one.at + one.length)} for layer in job.layers]
    for number in range(len(job.layers)):
        bare = len(covered[number] - covered[number - 1]) if number else 0
        told = re.findall(r"(\d+) knobs \([^)]*\) with nothing below", _page(job, number).words())
        assert told == ([str(bare)] if bare else []), number


def test_a_panel_s_tip_reports_its_strength(room: Room) -> None:
    setout = solve(room)
    panel = _shaped(setout)
    hung = as_hung(setout)
    sheet = hung.by_mark[panel.mark].name
    lines = panel_tip(setout, panel).splitlines()
    assert f"Moved holes: built by the sheet “{sheet}”" in lines
    assert set(strength_words(bond_for(hung.setout, sheet), room.kit)) <= set(lines)


def test_the_inspector_reports_it_once_the_set_out_is_worked_out(qtbot: QtBot, room: Room) -> None:
    document = Document(room)
    card = OpeningCard(document)
    qtbot.addWidget(card)
    document.select(document.setout.panels[3].mark)
    assert "Strength, in knobs" not in card.readout.text()
    setout = document.work_out()
    panel = setout.panels[3]
    document.select(panel.mark)
    assert card.readout.text().endswith(" ".join(strength_words(bond_for(setout, panel.design), room.kit)))


def test_no_strength_is_worked_out_while_something_is_dragged(qtbot: QtBot, room: Room) -> None:
    document = Document(room)
    card = OpeningCard(document)
    qtbot.addWidget(card)
    setout = document.work_out()
    document.select(setout.panels[3].mark)
    assert "Strength, in knobs" in card.readout.text()
    opening = room.openings[0]
    moved = opening.model_copy(update={"left_mm": opening.left_mm + 16.0})
    assert document.preview(room.model_copy(update={"openings": (moved, *room.openings[1:])}))
    assert "Strength, in knobs" not in card.readout.text()
