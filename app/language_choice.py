"""Which language the program speaks: the one that the environment asks for, or that was chosen in the window."""

import os
from pathlib import Path

from app.assets import asset
from core.language import asked_by, speak


def catalogues() -> Path:
    """The folder of translations."""
    return asset("languages")


def speak_as_asked() -> None:
    """Let texts be in the language that the environment asks for; to be called before the first text is written."""
    speak(asked_by(os.environ, catalogues()), catalogues())
