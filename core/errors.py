"""Everything that can go wrong in a way a person can put right.

A message says where, what was found and what would be right; the command line prints it and exits 2, the window shows it.
"""


class CoursewrightError(Exception):
    """Base of all errors meant for the person at the keyboard."""


class RoomError(CoursewrightError):
    """A room that contradicts itself or that no panel can line."""


class RoomFileError(CoursewrightError):
    """A room file that cannot be read or is not what it claims to be."""


class SaveError(CoursewrightError):
    """A file that could not be written; what stood there before is untouched."""


class LengthError(CoursewrightError):
    """Text that does not read as a length."""
