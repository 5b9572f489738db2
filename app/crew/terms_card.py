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
from core.language import tr, trc
from core.workforce import WEEKDAYS, LearningModel, Weekday, Workforce

COLUMNS = 2
FIELD_PX = 214
Words = tuple[str, str]
"""A field's caption, and how setting it is called."""
Values = Callable[[str], dict[str, object]]
"""What is typed as fields of the crew."""


class TermsCard(QFrame):
    """Fields that follow the document."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.setObjectName("card")
        self._document = document
        heading = QLabel(tr("How the crew works"))
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
        return [*self._days(), *self._places(), *self._practice(), *self._paces()]

    def _days(self) -> tuple[TextField, ...]:
        self.starts = self._text(
            (tr("First day"), tr("Set “first day”")),
            lambda c: c.starts_on or "",
            lambda typed: {"starts_on": typed.strip() or None},
        )
        self.starts.line.setPlaceholderText(tr("like 2027-05-31"))
        self.workdays = self._text(
            (tr("Works on"), tr("Set “works on”")),
            lambda c: " ".join(weekday_words()[day] for day in c.workdays),
            lambda typed: {"workdays": weekdays(typed)},
        )
        self.days_off = self._text(
            (tr("Days off"), tr("Set “days off”")),
            lambda c: " ".join(c.days_off),
            lambda typed: {"days_off": tuple(typed.split())},
        )
        self.days_off.line.setPlaceholderText(trc("days off", "none"))
        return self.starts, self.workdays, self.days_off

    def _places(self) -> tuple[TextField, ...]:
        self.benches = self._whole((tr("Benches"), tr("Set “benches”")), "benches")
        self.kits = self._whole((tr("Kits a bench"), tr("Set “kits a bench”")), "kits_per_bench")
        self.hangers = self._whole((tr("Hangers"), tr("Set “hangers”")), "hangers")
        self.hang_from = self._whole((tr("Hang from"), tr("Set “hang from”")), "hang_from")
        self.hang_from.setToolTip(tr("Finished panels waiting before somebody who does both leaves the bench to hang them"))
        self.kits.setToolTip(tr("Panels' worth of parts laid out at a bench at a time"))
        self.hangers.setToolTip(tr("People hanging at the same time at most"))
        return self.benches, self.kits, self.hangers, self.hang_from

    def _practice(self) -> tuple[TextField | ChoiceField, ...]:
        models: list[tuple[LearningModel, str]] = [
            ("unit", trc("learning model", "unit")),
            ("cumulative average", tr("cumulative average")),
        ]
        self.model = ChoiceField(tr("Learning"), lambda: self._crew.learning_model, self._set_model, models)
        self.rate = self._text(
            (trc("learning", "Rate"), tr("Set “rate”")), _rate_text, lambda typed: {"learning_rate": read_rate(typed)}
        )
        self.rate.setToolTip(
            tr("Time left over each time the number of panels somebody has built doubles, like 85 %; none: no learning")
        )
        self.floor = self._text(
            (tr("Not below"), tr("Set “not below”")),
            lambda c: f"{c.learning_floor * 100:g} %",
            lambda typed: {"learning_floor": percent(typed) / 100},
        )
        self.floor.setToolTip(tr("Nobody gets faster than this share of their first panel's time"))
        return self.model, self.rate, self.floor

    def _paces(self) -> tuple[TextField, ...]:
        self.full = self._pace(
            (tr("Full panel"), tr("Set “full panel”")), "build_full_panel", tr("Minutes to build a full panel")
        )
        self.hanging = self._pace(
            (tr("Hanging"), tr("Set “hanging”")), "handling", tr("Minutes to fetch, hang, screw and plug a panel")
        )
        self.setting_up = self._pace(
            (tr("Set-up"), tr("Set “set-up”")),
            "setup",
            tr("Minutes to get ready for a design that is not in the kit, once"),
        )
        return self.full, self.hanging, self.setting_up

    @property
    def _crew(self) -> Workforce:
        return self._document.room.crew

    def _text(self, words: Words, read: Callable[[Workforce], str], values: Values) -> TextField:
        caption, step = words

        def commit(typed: str) -> str:
            return committed(self._document, lambda room: set_crew(room, **values(typed)), step)

        return TextField(caption, lambda: read(self._crew), commit)

    def _whole(self, words: Words, field: str) -> TextField:
        return self._text(words, lambda crew: str(getattr(crew, field)), lambda typed: {field: whole(typed)})

    def _pace(self, words: Words, field: str, hint: str) -> TextField:
        """A rate in minutes, as the stopwatch on the build leaf sets it too."""
        caption, step = words

        def commit(typed: str) -> str:
            return committed(self._document, lambda room: set_rates(room, **{field: minutes(typed)}), step)

        made = TextField(caption, lambda: f"{getattr(self._document.room.rates, field):g} min", commit)
        made.setToolTip(tr("{meaning}. A reading of the stopwatch that speaks of it sets it anew", meaning=hint))
        return made

    def _set_model(self, value: str) -> str:
        return committed(self._document, lambda room: set_crew(room, learning_model=value), tr("Set learning"))


def minutes(typed: str) -> float:
    """Minutes, their unit allowed. Raises TypedError."""
    return decimal(typed.strip().removesuffix("min"), "12.5 min")


def weekday_words() -> dict[Weekday, str]:
    """The days of the week as short as they are shown and typed."""
    return {
        "mon": trc("a weekday", "mon"),
        "tue": trc("a weekday", "tue"),
        "wed": trc("a weekday", "wed"),
        "thu": trc("a weekday", "thu"),
        "fri": trc("a weekday", "fri"),
        "sat": trc("a weekday", "sat"),
        "sun": trc("a weekday", "sun"),
    }


def weekdays(typed: str) -> tuple[Weekday, ...]:
    """Days of the week by how their names begin, in the week's order. Raises TypedError."""
    named: set[Weekday] = set()
    for name in typed.replace(",", " ").split():
        day = next((day for day, short in weekday_words().items() if name.lower().startswith(short.lower())), None)
        if day is None:
            raise _no_days(name[:3].lower())
        named.add(day)
    if not named:
        raise _no_days(typed)
    return tuple(day for day in WEEKDAYS if day in named)


def _no_days(typed: str) -> TypedError:
    return TypedError(tr("found {typed!r}, should be days like mon tue wed", typed=typed))


def read_rate(typed: str) -> float:
    """A learning rate typed in per cent; ``none`` or nothing is no learning. Raises TypedError."""
    return 1.0 if typed.strip().lower() in ("", _no_learning().lower()) else round(percent(typed) / 100, 6)


def _rate_text(crew: Workforce) -> str:
    return _no_learning() if crew.learning_rate == 1.0 else f"{crew.learning_rate * 100:g} %"


def _no_learning() -> str:
    return trc("learning", "none")
