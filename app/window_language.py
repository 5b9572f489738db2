"""The window's language: as the system asks, or as somebody chose; it holds from the next start on."""

import os
from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QLibraryInfo, QLocale, QSettings, QTranslator
from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QApplication, QMenu, QWidget

from app.language_choice import catalogues
from core.language import ENGLISH, asked_by, languages, own_name, speak, spoken, tr

LANGUAGE = "look/language"
AS_SYSTEM = "system"
TELLING_MS = 8000


def speak_in_window(application: QApplication) -> None:
    """Let the window's texts, and those that Qt brings along, be in the language chosen; to be called before any is made."""
    chosen = chosen_language()
    speak(asked_by(os.environ, catalogues()) if chosen == AS_SYSTEM else chosen, catalogues())
    # Lengths are read with a point in every language, and so are the figures in Qt's own fields.
    QLocale.setDefault(QLocale(QLocale.Language.C))
    if spoken() != ENGLISH:
        words = QTranslator(application)
        if words.load(f"qtbase_{spoken()}", QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)):
            application.installTranslator(words)


def chosen_language() -> str:
    """The language chosen last; the system's where none was, or where there is no such catalogue."""
    said = QSettings().value(LANGUAGE)
    return said if isinstance(said, str) and said in languages(catalogues()) else AS_SYSTEM


def language_menu(tell: Callable[[str, int], object], parent: QWidget) -> QMenu:
    """A menu of the languages there are, each under its own name; the one chosen is ticked, and ``tell`` says when it holds."""
    menu = QMenu(tr("L&anguage"), parent)
    group, chosen = QActionGroup(menu), chosen_language()
    offered = {AS_SYSTEM: tr("As the &system is")} | {
        language: own_name(language, catalogues()) for language in languages(catalogues())
    }
    for language, words in offered.items():
        action = QAction(words, menu, checkable=True, checked=language == chosen)
        action.triggered.connect(partial(_choose, language, tell))
        group.addAction(action)
    menu.addActions(group.actions())
    menu.addSeparator()
    menu.addAction(_when()).setEnabled(False)
    return menu


def _choose(language: str, tell: Callable[[str, int], object], _is_ticked: bool = True) -> None:
    QSettings().setValue(LANGUAGE, language)
    tell(_when(), TELLING_MS)


def _when() -> str:
    return tr("Holds when Coursewright is opened next")
