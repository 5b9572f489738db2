"""What colour every laid brick gets: rules, mosaics, and panels cut at the lines between colours."""

from core.colour.findings import colour_checks
from core.colour.laying import Finish, Finisher, colours_of, laid_cells
from core.colour.wishes import ANY, Wishes, wishes_of

__all__ = ["ANY", "Finish", "Finisher", "Wishes", "colour_checks", "colours_of", "laid_cells", "wishes_of"]
