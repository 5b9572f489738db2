"""Entries of the window's “View” menu, triggered by their words."""

from PySide6.QtWidgets import QMenu

from app.window import Window


def entry(window: Window, menu: str, words: str) -> None:
    """Trigger an entry of a menu below “View”."""
    found = next(one for one in window.findChildren(QMenu) if one.title().replace("&", "") == menu)
    next(action for action in found.actions() if action.text().replace("&", "") == words).trigger()
