"""The typeface of window and sheets, from a package, so that both look the same on every machine."""

from functools import cache

import fontpkg
from PySide6.QtGui import QFont, QFontDatabase

from core.errors import CoursewrightError
from core.language import tr

PACKAGE = "fontpkg-noto-sans"


@cache
def family() -> str:
    """Registers the packaged typeface once and gives its family name; needs a QGuiApplication.

    Raises CoursewrightError where the installation lacks the font.
    """
    try:
        file = fontpkg.path("noto-sans")
    except fontpkg.FontpkgError as error:
        raise CoursewrightError(
            tr("the font package is missing or damaged ({reason}); install {package}", reason=error, package=PACKAGE)
        ) from error
    number = QFontDatabase.addApplicationFont(str(file))
    if number < 0:
        raise CoursewrightError(tr("the font {file} cannot be read; install {package} again", file=file, package=PACKAGE))
    return QFontDatabase.applicationFontFamilies(number)[0]


def drawing_font(pixels: int) -> QFont:
    """The typeface of sheets. Without hints, kerning and ligatures widths are the listed ones and text can be searched."""
    font = QFont(family())
    font.setPixelSize(pixels)
    font.setKerning(False)
    font.setFeature(QFont.Tag("liga"), 0)
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    return font
