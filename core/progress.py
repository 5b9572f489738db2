"""What the crew has done so far: facts about panels that no change of plan may lose."""

from core.settings import Settings


class Progress(Settings):
    """Panels built, checked, hung and taken out."""
