"""Timber and hardware as a person chose them: stock lengths, plates, screws, allowances."""

from core.settings import Settings


class Timberwork(Settings):
    """How the frame is to be built and what panels are screwed on with."""
