"""The figures of two set-outs, line by line."""

from collections.abc import Iterator
from dataclasses import dataclass

from app.tally import difference_text, points_without_timber
from core.language import marked, tr
from core.setout.result import SetOut
from core.sheets.wording import KIND_NAMES, NO_TIMBER

TERMS = (
    ("build", marked("build")),
    ("handling", marked("fetch, hang, screw, plug")),
    ("setup", marked("set-up of own designs")),
    ("sliver", marked("slivers")),
    ("weak", marked("weak panels")),
    ("blocking", NO_TIMBER),
)


@dataclass(frozen=True, slots=True)
class Line:
    """One figure of both versions."""

    caption: str
    before: float
    after: float
    decimals: int = 0
    is_strong: bool = False

    @property
    def texts(self) -> tuple[str, str, str, str]:
        """Caption, both figures and their difference as words."""
        before, after = (f"{value:.{self.decimals}f}" for value in (self.before, self.after))
        return self.caption, before, after, difference_text(self.after - self.before, self.decimals) or tr("same")


def lines(before: SetOut, after: SetOut) -> tuple[Line, ...]:
    """Every figure worth comparing. Kinds, designs and terms that neither version has are left out."""
    return (
        Line(tr("panels"), before.tally.panels, after.tally.panels, is_strong=True),
        *_kinds(before, after),
        Line(tr(NO_TIMBER), points_without_timber(before), points_without_timber(after), is_strong=True),
        Line(tr("crew hours"), before.minutes.total / 60, after.minutes.total / 60, 1, is_strong=True),
        *_terms(before, after),
        Line(tr("designs not in kit"), before.tally.designs_not_in_kit, after.tally.designs_not_in_kit, is_strong=True),
        *_designs(before, after),
    )


def _kinds(before: SetOut, after: SetOut) -> Iterator[Line]:
    for kind, name in KIND_NAMES.items():
        ours, theirs = before.tally.by_kind.get(kind, 0), after.tally.by_kind.get(kind, 0)
        if ours or theirs:
            yield Line(tr(name), ours, theirs)


def _terms(before: SetOut, after: SetOut) -> Iterator[Line]:
    for term, name in TERMS:
        ours, theirs = getattr(before.minutes, term), getattr(after.minutes, term)
        if ours or theirs:
            yield Line(tr("{term}, minutes", term=tr(name)), ours, theirs)


def _designs(before: SetOut, after: SetOut) -> Iterator[Line]:
    """How many panels each design that is made specially has."""
    ours, theirs = ({d.name: d.count for d in setout.designs if not d.in_kit} for setout in (before, after))
    for name in dict.fromkeys((*ours, *theirs)):
        yield Line(tr("panels {design}", design=name), ours.get(name, 0), theirs.get(name, 0))
