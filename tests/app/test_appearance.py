"""Light or dark, and large letters: followed, chosen, remembered, and worn by every part of the window."""

from contextlib import suppress

import pytest
from PySide6.QtCore import QPoint, QSettings, Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app import theme
from app.appearance import SCHEME, TEXT, TIMES, TextChoice
from app.appearance import dress as wear_chosen
from app.elevation import lettering
from app.elevation.margins import head_px
from app.spatial.picture_file import picture_bytes
from app.window import Window
from tests.app.cut_short import cut_short
from tests.app.view_menu import entry

LEAVES = 6
PATIENCE_MS = 5000


pytestmark = pytest.mark.usefixtures("usual_look_afterwards")


def ground(window: Window, part: QWidget) -> str:
    """The colour near the lower right corner of a part of the window, as painted."""
    image = window.grab().toImage()
    at = part.mapTo(window, QPoint(part.width() - 3, part.height() - 3))
    return image.pixelColor(at).name()


@pytest.mark.usefixtures("window")
def test_the_window_follows_the_systems_scheme(dressed: QApplication) -> None:
    dressed.styleHints().colorSchemeChanged.emit(Qt.ColorScheme.Dark)
    assert theme.shown is theme.DARK
    assert dressed.palette().window().color().name() == theme.DARK.bench
    dressed.styleHints().colorSchemeChanged.emit(Qt.ColorScheme.Light)
    assert theme.shown is theme.LIGHT


def test_a_chosen_scheme_stays_whatever_the_system_does(window: Window, dressed: QApplication) -> None:
    entry(window, "Light or dark", "Light")
    dressed.styleHints().colorSchemeChanged.emit(Qt.ColorScheme.Dark)
    assert theme.shown is theme.LIGHT
    entry(window, "Light or dark", "As the system is")
    assert theme.shown is theme.DARK


def test_dark_reaches_what_is_painted_and_back_again(window: Window) -> None:
    parts = (window.elevation, window.board, window.plan)
    light = [ground(window, part) for part in parts]
    entry(window, "Light or dark", "Dark")
    dark = [ground(window, part) for part in parts]
    assert all(QColor(colour).lightness() < 60 for colour in dark)
    assert dark[0] != light[0]
    entry(window, "Light or dark", "Light")
    assert [ground(window, part) for part in parts] == light


def test_kept_pictures_of_walls_are_painted_anew_in_the_dark(window: Window) -> None:
    """The fill of a full panel is seen somewhere on the elevation, in the scheme's own colour and in no other."""
    for words, scheme, other in (("Dark", theme.DARK, theme.LIGHT), ("Light", theme.LIGHT, theme.DARK)):
        entry(window, "Light or dark", words)
        colours = _colours(window.elevation.grab().toImage())
        assert scheme.panel_fills["full"] in colours
        assert other.panel_fills["full"] not in colours


def test_choices_are_remembered(window: Window, dressed: QApplication) -> None:
    entry(window, "Light or dark", "Dark")
    entry(window, "Text size", "Largest")
    assert (QSettings().value(SCHEME), QSettings().value(TEXT)) == ("dark", "largest")
    theme.wear(theme.LIGHT, 1.0)
    wear_chosen(dressed)
    assert (theme.shown, theme.times()) == (theme.DARK, TIMES["largest"])


@pytest.mark.parametrize("damage", ["mauve", 7, ["dark"]])
def test_damaged_settings_mean_the_usual_look(damage: object, dressed: QApplication) -> None:
    QSettings().setValue(SCHEME, damage)
    QSettings().setValue(TEXT, damage)
    wear_chosen(dressed)
    assert (theme.shown, theme.times()) == (theme.LIGHT, 1.0)


def test_a_picture_saved_from_a_dark_window_is_that_of_a_light_one(window: Window) -> None:
    window._stand_up()
    assert window.standing is not None
    view = window.standing.view  # type: ignore[attr-defined]
    light = picture_bytes(lambda painter: view.paint_picture(painter, view.size()), view.size(), ".png", "room")
    entry(window, "Light or dark", "Dark")
    entry(window, "Text size", "Large")
    assert picture_bytes(lambda painter: view.paint_picture(painter, view.size()), view.size(), ".png", "room") == light
    window.standing.close()


def test_painted_letters_grow_with_the_others(window: Window, dressed: QApplication) -> None:
    before = lettering.width_px("B-3-07", theme.px(14)), head_px(), window.board.font().pixelSize()
    entry(window, "Text size", "Largest")
    after = lettering.width_px("B-3-07", theme.px(14)), head_px(), window.board.font().pixelSize()
    assert all(1.4 <= large / small <= 1.6 for small, large in zip(before, after, strict=True))
    assert dressed.font().pixelSize() == 21


def test_marks_that_fitted_before_still_stand_on_their_panels_in_large_letters() -> None:
    theme.wear(theme.LIGHT, 1.0)
    usual = lettering.sizes(15, 13, 12, 11, 10)
    theme.wear(theme.LIGHT, 1.5)
    large = lettering.sizes(15, 13, 12, 11, 10)
    assert usual == (15, 13, 12, 11, 10)
    assert large[:5] == (22, 20, 18, 16, 15)
    assert min(large) <= 11


@pytest.mark.parametrize("text", TIMES)
def test_every_leaf_stays_usable_on_a_small_screen(window: Window, qtbot: QtBot, text: TextChoice) -> None:
    """At 1280 by 800 no button or line of words is cut short; what is larger than its leaf can be scrolled to."""
    window.resize(1280, 800)
    window.appearance.choose_text(text)
    qtbot.wait(50)
    assert window.size().width() <= 1280
    assert window.size().height() <= 800
    for place in range(LEAVES):
        window.leaves.setCurrentIndex(place)
        # Texts that come in later lay the leaf out anew.
        with suppress(qtbot.TimeoutError):
            qtbot.waitUntil(lambda: not cut_short(window), timeout=PATIENCE_MS)
        assert not cut_short(window), (place, text)


def _colours(image: QImage) -> set[str]:
    return {image.pixelColor(x, y).name() for x in range(0, image.width(), 2) for y in range(0, image.height(), 2)}
