"""How the window looks: light or dark, as the system is or as somebody chose, and how large its letters are."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal, get_args

from PySide6.QtCore import QObject, QSettings, Qt
from PySide6.QtGui import QFont, QFontDatabase, QFontInfo
from PySide6.QtWidgets import QApplication

from app import fonts, theme
from app.theme.look import look
from app.theme.sheet import palette

SchemeChoice = Literal["system", "light", "dark"]
TextChoice = Literal["normal", "large", "largest"]
SCHEME, TEXT = "look/scheme", "look/text"
TIMES: Mapping[TextChoice, float] = MappingProxyType({"normal": 1.0, "large": 1.25, "largest": 1.5})
USUAL_SYSTEM_PX = 15
"""Up to this size of the system's own letters ours are as large as they are drawn for; larger ones make ours as much larger."""
MOST_TIMES = 2.5
_HINTS: Mapping[SchemeChoice, Qt.ColorScheme] = MappingProxyType(
    {"system": Qt.ColorScheme.Unknown, "light": Qt.ColorScheme.Light, "dark": Qt.ColorScheme.Dark}
)


class Appearance(QObject):
    """Keeps the look in step with the system and with what was chosen; remembers the choice."""

    def __init__(self, application: QApplication, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._application = application
        self.scheme, self.text = chosen_scheme(), chosen_text()
        self._hint()
        self._system = application.styleHints().colorScheme()
        application.styleHints().colorSchemeChanged.connect(self._on_system)
        self._put_on()

    def choose_scheme(self, scheme: SchemeChoice) -> None:
        """Light, dark, or as the system is; also next time."""
        self.scheme = scheme
        QSettings().setValue(SCHEME, scheme)
        self._hint()
        self._put_on()

    def choose_text(self, text: TextChoice) -> None:
        """How large letters are; also next time."""
        self.text = text
        QSettings().setValue(TEXT, text)
        self._put_on()

    def _hint(self) -> None:
        """Tell the system, too: it draws the window's own edge and its file dialogs."""
        self._application.styleHints().setColorScheme(_HINTS[self.scheme])

    def _on_system(self, scheme: Qt.ColorScheme) -> None:
        self._system = scheme
        self._put_on()

    def _put_on(self) -> None:
        before = theme.shown, theme.times()
        theme.wear(_colours(self.scheme, self._system), _times(self.text))
        if (theme.shown, theme.times()) != before:
            put_on(self._application)
            look.changed.emit()


def dress(application: QApplication) -> None:
    """Give the application our style and letters, and the colours that were chosen, before any window is made."""
    application.setStyle("Fusion")
    theme.wear(_colours(chosen_scheme(), application.styleHints().colorScheme()), _times(chosen_text()))
    put_on(application)


def put_on(application: QApplication) -> None:
    """Hand the look that is worn to what Qt draws itself."""
    application.setPalette(palette())
    font = QFont(fonts.family())
    font.setPixelSize(theme.px(theme.TEXT_PX))
    application.setFont(font)


def chosen_scheme() -> SchemeChoice:
    """The scheme chosen last; the system's where none was, or where the settings hold something else."""
    said = QSettings().value(SCHEME)
    return next((choice for choice in get_args(SchemeChoice) if choice == said), "system")


def chosen_text() -> TextChoice:
    """The size of letters chosen last; normal where none was, or where the settings hold something else."""
    said = QSettings().value(TEXT)
    return next((choice for choice in get_args(TextChoice) if choice == said), "normal")


def _colours(choice: SchemeChoice, system: Qt.ColorScheme) -> theme.Colours:
    is_dark = choice == "dark" or (choice == "system" and system == Qt.ColorScheme.Dark)
    return theme.DARK if is_dark else theme.LIGHT


def _times(choice: TextChoice) -> float:
    """How many times as large as usual: what is chosen, on top of what the system asks for."""
    system_px = QFontInfo(QFontDatabase.systemFont(QFontDatabase.SystemFont.GeneralFont)).pixelSize()
    return min(MOST_TIMES, TIMES[choice] * max(1.0, system_px / USUAL_SYSTEM_PX))
