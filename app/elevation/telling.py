"""What the elevation says in words: to the pointer that rests on it, to a screen reader, and why when it is asked."""

from PySide6.QtCore import QPoint, QPointF, QRect
from PySide6.QtWidgets import QToolTip, QWidget

from app.document import Document
from app.elevation.stage import Stage
from app.elevation.studs import Studs
from app.elevation.tips import chosen_words, opening_tip, panel_tip, selection_words
from app.spoken import describe

ASKED_FOR_MS = 60_000
"""A tip that someone asked for by key stays so long, or until the next key."""


class Telling:
    """Words about what is on one stage. Nothing of it is worked out amid a drag."""

    def __init__(self, view: QWidget, document: Document, stage: Stage, studs: Studs) -> None:
        self._view, self._document, self._stage, self._studs = view, document, stage, studs

    def describe(self, *, aloud: bool = False) -> None:
        """Keep the view's description about what is selected."""
        if self._document.gesture_base is None:
            describe(self._view, selection_words(self._document, self._studs), aloud=aloud)

    def tip_at(self, pos: QPointF) -> str:
        """What is said of what lies at a pixel; empty where nothing does."""
        found = self._stage.opening_grip(pos, self._document.selection)
        if found is not None:
            return opening_tip(self._stage.setout, found[0])
        panel = self._stage.panel(pos)
        return panel_tip(self._stage.setout, panel) if panel else ""

    def show_tip(self, at: QPoint, pos: QPointF) -> None:
        """Show what is said of a pixel, at a place of the screen."""
        QToolTip.showText(at, self.tip_at(pos), self._view)

    def explain(self) -> str:
        """Show and say why what is selected is as it is; returns the words."""
        document = self._document
        words = selection_words(document, self._studs)
        if len(document.chosen.names) > 1:
            words = chosen_words(document.chosen.openings, document.chosen.panels)
        elif (opening := document.selected_opening) is not None:
            words = opening_tip(document.setout, opening)
        elif (panel := document.selected_panel) is not None:
            words = panel_tip(document.setout, panel)
        box = self._stage.named_box(document.selection) if document.selection else None
        at = self._stage.camera.box_px(box).center() if box else QPointF(self._view.rect().center())
        QToolTip.showText(self._view.mapToGlobal(at.toPoint()), words, self._view, QRect(), ASKED_FOR_MS)
        describe(self._view, words, aloud=True)
        return words
