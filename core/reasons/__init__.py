"""Why the set-out is as it is, in words: what makes a panel the panel it is, and how each figure of the tally comes about.

Nothing here is asked while something is dragged.
"""

from core.reasons.figures import blocking_words, designs_words, hours_words, panels_words
from core.reasons.holes import hole_words
from core.reasons.moves import move_words
from core.reasons.opening import opening_words
from core.reasons.panel import panel_words, pin_words
from core.reasons.strength import holding_words

__all__ = [
    "blocking_words",
    "designs_words",
    "holding_words",
    "hole_words",
    "hours_words",
    "move_words",
    "opening_words",
    "panel_words",
    "panels_words",
    "pin_words",
]
