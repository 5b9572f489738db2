"""The menus that choose between light and dark, and how large letters are."""

from collections.abc import Callable
from functools import partial

from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu, QWidget

from app.appearance import Appearance, SchemeChoice, TextChoice
from core.language import marked, tr

SCHEMES: tuple[tuple[SchemeChoice, str], ...] = (
    ("system", marked("As the &system is")),
    ("light", marked("&Light")),
    ("dark", marked("&Dark")),
)
TEXTS: tuple[tuple[TextChoice, str], ...] = (
    ("normal", marked("&Normal")),
    ("large", marked("&Large")),
    ("largest", marked("L&argest")),
)


def appearance_menus(appearance: Appearance, parent: QWidget) -> list[QMenu]:
    """A menu for the scheme and one for the letters; the choice in force is ticked."""
    schemes, texts = QMenu(tr("Li&ght or dark"), parent), QMenu(tr("&Text size"), parent)
    for scheme, words in SCHEMES:
        _offer(schemes, words, appearance.scheme == scheme, partial(appearance.choose_scheme, scheme))
    for text, words in TEXTS:
        _offer(texts, words, appearance.text == text, partial(appearance.choose_text, text))
    for menu in (schemes, texts):
        group = QActionGroup(menu)
        for action in menu.actions():
            group.addAction(action)
    return [schemes, texts]


def _offer(menu: QMenu, words: str, is_chosen: bool, choose: Callable[[], object]) -> QAction:
    action = menu.addAction(tr(words))
    action.setCheckable(True)
    action.setChecked(is_chosen)
    action.triggered.connect(lambda _checked: choose())
    return action
