"""How the crew works: when it begins, at how many places, and how much faster it gets with practice."""

from collections.abc import Callable

from PySide6.QtWidgets import QFrame, QGridLayout, QLabel

from app import theme
from app.document import Document
from app.inspector.fields import ChoiceField, TextField
from app.tables.reading import TypedError, committed, decimal, percent, whole
from app.theme.look import InStep
from core.edits.crew import set_crew
from core.edits.settings import set_rates
from core.room import Room
from core.workforce import WEEKDAYS, LearningModel, Workforce

MODELS: tuple[tuple[LearningModel, str], ...] = (("unit", "unit"), ("cumulative average", "cumulative average"))
COLUMNS = 2
NO_LEARNING = "none"
FIELD_PX = 214


class TermsCard(QFrame):
    """Fields that follow the document."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.setObjectName("card")
        self._document = document
        heading = QLabel("How the crew works")
        heading.setObjectName("heading")
        self.fields = self._fields()
        grid = QGridLayout(self)
        grid.setContentsMargins(12, 8, 12, 8)
        grid.setHorizontalSpacing(14)
        grid.setVerticalSpacing(4)
        grid.addWidget(heading, 0, 0, 1, COLUMNS)
        for number, field in enumerate(self.fields):
            grid.addWidget(field, 1 + number // COLUMNS, number % COLUMNS)
        grid.setRowStretch(grid.rowCount(), 1)
        InStep(self, self._grow)
        self.refresh(force=True)

    def _grow(self) -> None:
        for field in self.fields:
            field.setMinimumWidth(theme.px(FIELD_PX))

    def refresh(self, *, force: bool = False) -> None:
        """Show what the room says."""
        for field in self.fields:
            field.refresh(force=force)

    def _fields(self) -> list[TextField | ChoiceField]:
        self.starts = self._text("First day", lambda c: c.starts_on or "", lambda typed: {"starts_on": typed.strip() or None})
        self.starts.line.setPlaceholderText("like 2027-05-31")
        self.workdays = self._text("Works on", lambda c: " ".join(c.workdays), lambda typed: {"workdays": weekdays(typed)})
        self.days_off = self._text("Days off", lambda c: " ".join(c.days_off), lambda typed: {"days_off": tuple(typed.split())})
        self.days_off.line.setPlaceholderText("none")
        self.benches = self._whole("Benches", "benches")
        self.kits = self._whole("Kits a bench", "kits_per_bench")
        self.hangers = self._whole("Hangers", "hangers")
        self.hang_from = self._whole("Hang from", "hang_from")
        self.hang_from.setToolTip("Finished panels waiting before somebody who does both leaves the bench to hang them")
        self.kits.setToolTip("Panels' worth of parts laid out at a bench at a time")
        self.hangers.setToolTip("People hanging at the same time at most")
        self.model = ChoiceField(
            "Learning", lambda: self._crew.learning_model, lambda value: self._set("learning", {"learning_model": value}), MODELS
        )
        self.rate = self._text("Rate", _rate_text, lambda typed: {"learning_rate": read_rate(typed)})
        self.rate.setToolTip(
            "Time left over each time the number of panels somebody has built doubles, like 85 %; none: no learning"
        )
        self.floor = self._text(
            "Not below", lambda c: f"{c.learning_floor * 100:g} %", lambda typed: {"learning_floor": percent(typed) / 100}
        )
        self.floor.setToolTip("Nobody gets faster than this share of their first panel's time")
        self.full = self._pace("Full panel", "build_full_panel", "Minutes to build a full panel")
        self.hanging = self._pace("Hanging", "handling", "Minutes to fetch, hang, screw and plug a panel")
        self.setting_up = self._pace("Set-up", "setup", "Minutes to get ready for a design that is not in the kit, once")
        return [
            *(self.starts, self.workdays, self.days_off, self.benches, self.kits),
            *(self.hangers, self.hang_from, self.model, self.rate, self.floor),
            *(self.full, self.hanging, self.setting_up),
        ]

    @property
    def _crew(self) -> Workforce:
        return self._document.room.crew

    def _text(self, caption: str, read: Callable[[Workforce], str], values: Callable[[str], dict[str, object]]) -> TextField:
        return TextField(caption, lambda: read(self._crew), lambda typed: self._typed(f"“{caption.lower()}”", typed, values))

    def _whole(self, caption: str, field: str) -> TextField:
        return self._text(caption, lambda crew: str(getattr(crew, field)), lambda typed: {field: whole(typed)})

    def _pace(self, caption: str, field: str, hint: str) -> TextField:
        """A rate in minutes, as the stopwatch on the build leaf sets it too."""

        def commit(typed: str) -> str:
            return committed(self._document, lambda room: set_rates(room, **{field: minutes(typed)}), f"Set “{caption.lower()}”")

        made = TextField(caption, lambda: f"{getattr(self._document.room.rates, field):g} min", commit)
        made.setToolTip(f"{hint}. A reading of the stopwatch that speaks of it sets it anew")
        return made

    def _typed(self, what: str, typed: str, values: Callable[[str], dict[str, object]]) -> str:
        return committed(self._document, lambda room: set_crew(room, **values(typed)), f"Set {what}")

    def _set(self, what: str, values: dict[str, object]) -> str:
        def edit(room: Room) -> Room:
            return set_crew(room, **values)

        return committed(self._document, edit, f"Set {what}")


def minutes(typed: str) -> float:
    """Minutes, their unit allowed. Raises TypedError."""
    return decimal(typed.strip().removesuffix("min"), "12.5 min")


def weekdays(typed: str) -> tuple[str, ...]:
    """Days of the week by their first three letters, in the week's order. Raises TypedError."""
    names = [name[:3].lower() for name in typed.replace(",", " ").split()]
    wrong = next((name for name in names if name not in WEEKDAYS), None)
    if wrong is not None or not names:
        raise TypedError(f"found {wrong or typed!r}, should be days like mon tue wed")
    return tuple(day for day in WEEKDAYS if day in names)


def read_rate(typed: str) -> float:
    """A learning rate typed in per cent; ``none`` or nothing is no learning. Raises TypedError."""
    return 1.0 if typed.strip().lower() in ("", NO_LEARNING) else round(percent(typed) / 100, 6)


def _rate_text(crew: Workforce) -> str:
    return NO_LEARNING if crew.learning_rate == 1.0 else f"{crew.learning_rate * 100:g} %"
