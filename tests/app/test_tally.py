"""The board: the set-out's figures, and the difference since the drag began."""

from dataclasses import replace

import pytest
from pytestqt.qtbot import QtBot

from app.document import Document
from app.tally import TallyBoard, difference_text, points_without_timber
from core import edits


@pytest.fixture
def board(document: Document, qtbot: QtBot) -> TallyBoard:
    board = TallyBoard(document)
    qtbot.addWidget(board)
    return board


def test_the_board_shows_the_set_outs_own_figures(board: TallyBoard, document: Document) -> None:
    setout = document.setout
    assert board.text_of("panels") == (str(setout.tally.panels), "")
    assert board.text_of("designs not in kit") == (str(setout.tally.designs_not_in_kit), "")
    assert board.text_of("crew hours") == (f"{setout.minutes.total / 60:.1f}", "")


def test_a_drag_shows_the_difference_since_it_began(board: TallyBoard, document: Document) -> None:
    before = document.setout.tally.panels
    document.preview_edit(lambda room: edits.set_wall_length(room, 1, 3352.8))
    document.preview_edit(lambda room: edits.set_wall_length(room, 1, 4572.0))
    more = document.setout.tally.panels - before
    assert more > 0
    assert board.text_of("panels") == (str(before + more), f"▲ +{more}")
    assert board.comparison.endswith("in this drag")


def test_a_finished_drag_still_shows_what_it_changed(board: TallyBoard, document: Document) -> None:
    document.preview_edit(lambda room: edits.set_wall_length(room, 1, 3352.8))
    document.preview_edit(lambda room: edits.set_wall_length(room, 1, 4572.0))
    difference = board.text_of("panels")[1]
    document.finish("Lengthen")
    assert board.text_of("panels")[1] == difference != ""
    assert board.comparison.endswith("by last change")


def test_giving_up_the_drag_takes_the_difference_away(board: TallyBoard, document: Document) -> None:
    document.preview_edit(lambda room: edits.set_wall_length(room, 1, 4572.0))
    document.cancel()
    assert board.text_of("panels")[1] == ""


def test_undo_shows_what_it_took_back(board: TallyBoard, document: Document) -> None:
    document.commit_edit(lambda room: edits.set_wall_length(room, 1, 4572.0), "Lengthen")
    difference = board.text_of("panels")[1]
    assert difference.startswith("▲ +")
    document.undo_stack.undo()
    assert board.text_of("panels")[1] == difference.replace("▲ +", "▼ −")


def test_points_without_timber_are_counted_on_every_face(document: Document) -> None:
    setout = document.setout
    bare = replace(
        setout,
        panels=tuple(
            replace(p, faces=tuple(replace(f, mounts=tuple(replace(m, lands_on=None) for m in f.mounts)) for f in p.faces))
            for p in setout.panels
        ),
    )
    assert points_without_timber(bare) == sum(len(f.mounts) for p in setout.panels for f in p.faces)
    assert points_without_timber(bare) > points_without_timber(setout)


@pytest.mark.parametrize(
    ("difference", "decimals", "text"),
    [(3, 0, "▲ +3"), (-2, 0, "▼ −2"), (0, 0, ""), (0.04, 1, ""), (-1.26, 1, "▼ −1.3")],
)
def test_a_difference_reads_as_an_arrow_and_a_signed_number(difference: float, decimals: int, text: str) -> None:
    assert difference_text(difference, decimals) == text
