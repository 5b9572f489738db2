"""The pictures of the docs: taken of the program, the same every time, with nobody's folders in them."""

from pathlib import Path

import numpy as np
import pytest
from PySide6.QtGui import QColor, QImage
from PySide6.QtWidgets import QApplication

from app.pictures.__main__ import take
from app.pictures.den import MEASURED_LIST, advised, as_measured, empty, held, under_way
from app.pictures.eyes import MATRICES, seen
from app.pictures.scenes import SCENES
from app.pictures.studio import Studio
from core.advice import Suggestion, advise_opening
from core.crew.standing import standing
from core.edits.sketch import clockwise
from core.frame import checks_to_heed
from core.setout import solve
from core.survey import closure_of, parse_list, share_out, traverse


@pytest.mark.parametrize("name", ["new-room", "swap"])
def test_a_picture_is_the_same_every_time_it_is_taken(name: str, dressed: QApplication, tmp_path: Path) -> None:
    studio = Studio(dressed, tmp_path)
    first, second = SCENES[name](studio), SCENES[name](studio)
    studio.close()
    assert first.width() >= 800
    assert first == second


def test_the_room_of_the_pictures_has_no_file(dressed: QApplication, tmp_path: Path) -> None:
    studio = Studio(dressed, tmp_path)
    window = studio.open(advised())
    assert window.foot.file.text() == "not saved to a file yet"
    studio.close()


def test_an_unknown_picture_is_refused_before_any_is_taken(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert take(["window", "nothing"], tmp_path / "out", tmp_path) == 2
    assert "found nothing, should be among window" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


def test_the_measured_list_of_the_guide_makes_the_walls_of_the_den() -> None:
    walked = traverse(parse_list(MEASURED_LIST)).points_mm
    assert closure_of(walked).missed_mm == pytest.approx(2.0)
    assert clockwise(share_out(walked, "last wall")) == empty().corners_mm


@pytest.mark.parametrize("name", ["door", "outlet"])
@pytest.mark.slow
def test_what_the_guide_takes_as_advice_is_advised(name: str) -> None:
    """The guide tells what the window offers for its room; where that changes, the guide must."""
    search = advise_opening(solve(as_measured()), name)
    found: tuple[Suggestion, ...] = ()
    try:
        while True:
            next(search)
    except StopIteration as done:
        found = done.value
    places = [suggestion.change.applied(as_measured()).opening(name) for suggestion in found]
    assert advised().opening(name) in places


def test_following_the_advice_of_the_guide_saves_work() -> None:
    before, after = solve(as_measured()), solve(advised())
    assert after.minutes.total < before.minutes.total
    assert after.tally.designs_not_in_kit < before.tally.designs_not_in_kit


def test_moving_the_outlet_of_the_guide_aside_ends_the_stop_and_costs_nothing() -> None:
    before, after = solve(advised()), solve(held())
    assert [check.code for check in checks_to_heed(before)] == ["mount-not-held"]
    assert checks_to_heed(after) == ()
    assert after.minutes.total == before.minutes.total


def test_the_guide_has_panels_in_every_state_up_to_hung() -> None:
    states = set(standing(solve(under_way())).by_mark.values())
    assert states == {"to build", "built", "checked", "hung"}


@pytest.mark.parametrize("name", MATRICES)
def test_greys_look_the_same_to_all_eyes(name: str) -> None:
    """Rows of the matrices sum to one: colours without hue have none to lose (Machado et al. 2009, IEEE TVCG 15)."""
    np.testing.assert_allclose(MATRICES[name].sum(axis=1), 1.0, atol=2e-6)
    image = QImage(2, 1, QImage.Format.Format_RGB32)
    image.setPixelColor(0, 0, QColor("#767676"))
    image.setPixelColor(1, 0, QColor("#ffffff"))
    assert seen(image, MATRICES[name]) == image


def test_red_and_green_come_closer_to_eyes_without_red_cones() -> None:
    """Protanopia takes red for a dark yellowish colour: common knowledge, no published figure."""
    image = QImage(1, 1, QImage.Format.Format_RGB32)
    image.setPixelColor(0, 0, QColor("#ff0000"))
    seen_red = seen(image, MATRICES["protanopia"]).pixelColor(0, 0)
    assert 0 < seen_red.red() - seen_red.green() < 40
    assert seen_red.blue() == 0
