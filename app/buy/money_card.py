"""What it all comes to: cost and whether that is proven, boxes and mass, the budget, and the figures a person sets."""

from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from app import theme
from app.buy.needs_table import every_line
from app.document import Document, Edit
from app.inspector.fields import TextField
from app.tables.reading import amount, committed, kilograms, number_text, percent
from app.theme.look import Style
from core.buying import Purchasing
from core.buying.order import gap_in_words
from core.edits.buying import set_purchase
from core.room import Room
from core.sheets.buying_lists import NO_PRICE, money, title

COST_PX = 26
WORKING = "working out the least cost …"
COUNTING = "working out …"
SEEKING_WAYS = "Looking for ways under it …"


class MoneyCard(QWidget):
    """Stands beside both pages of the leaf, so that every price shows at once in what it does."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self._document = document
        self.cost, self.proof, self.bulk, self.budget_words = QLabel(), QLabel(), QLabel(), QLabel()
        self._is_quiet = False
        self._cost_style = Style(self.cost, self._cost_sheet)
        for label, name in ((self.cost, "Cost"), (self.proof, "How sure"), (self.bulk, "Bulk"), (self.budget_words, "Budget")):
            label.setAccessibleName(name)
            label.setWordWrap(True)
        self.stop = QPushButton("Stop")
        self.stop.hide()
        self.fields = self._fields()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 8, 8, 8)
        layout.setSpacing(4)
        # What it comes to stands above what is set: in a low window the rest has to be scrolled to.
        for part in (self.cost, self.proof, self.stop, self.bulk, self.budget_words):
            layout.addWidget(part)
        for field in (self.spare, self.budget, self.currency, self.heaviest):
            layout.addWidget(field)
        layout.addStretch(1)
        self.refresh(force=True)
        self.say_working(COUNTING)

    def _fields(self) -> tuple[TextField, ...]:
        def stock() -> Room:
            return self._document.room

        self.spare = TextField("Spares", lambda: f"{stock().stock.spare_percent:g} %", self._set_spare)
        self.budget = TextField("Budget", lambda: _budget_text(stock()), self._set_budget)
        self.currency = TextField("Currency", lambda: stock().stock.currency, self._set_currency)
        self.budget.line.setPlaceholderText("none")
        self.currency.line.setPlaceholderText("none")
        self.heaviest = TextField("Heaviest box", lambda: f"{stock().stock.heaviest_box_kg:g} kg", self._set_heaviest)
        self.heaviest.setToolTip("What one person may lift: heavier packs are listed, and panels are packed to it")
        return self.spare, self.budget, self.currency, self.heaviest

    def refresh(self, *, force: bool = False) -> None:
        """Show what the room says in the fields."""
        for field in self.fields:
            field.refresh(force=force)

    def say_working(self, words: str) -> None:
        """Say quietly that what stands here is not yet about the room as it is."""
        self.proof.setText(words)
        self._be_quiet(True)

    def show_bought(self, bought: Purchasing, *, is_seeking: bool) -> None:
        """Show totals; ``is_seeking`` says that ways under the budget are still looked for."""
        room, buying = self._document.room, bought.buying
        is_priced = bool(buying.total) or not buying.unpriced
        sign = "" if buying.is_complete else "at least "
        self.cost.setText(f"{sign}{money(room, buying.total)}" if is_priced else NO_PRICE)
        self.proof.setText(_proof_words(bought, is_priced))
        self.bulk.setText(_bulk_words(room, bought))
        self.budget_words.setText(_budget_words(room, bought, is_seeking))
        self.budget_words.setVisible(bool(self.budget_words.text()))
        self._be_quiet(False)

    def _be_quiet(self, quiet: bool) -> None:
        self._is_quiet = quiet
        self._cost_style.refresh()

    def _cost_sheet(self) -> str:
        ink = theme.shown.quiet_ink if self._is_quiet else theme.shown.ink
        return f"font-size: {theme.big_px(COST_PX)}px; font-weight: 700; color: {ink}"

    def _set_spare(self, typed: str) -> str:
        return self._set("Set spares", lambda room: set_purchase(room, spare_percent=percent(typed)))

    def _set_budget(self, typed: str) -> str:
        def edit(room: Room) -> Room:
            return set_purchase(room, budget=amount(typed, room.stock.currency) if typed.strip() else None)

        return self._set("Set budget", edit)

    def _set_currency(self, typed: str) -> str:
        return self._set("Set currency", lambda room: set_purchase(room, currency=typed.strip()))

    def _set_heaviest(self, typed: str) -> str:
        return self._set("Set the heaviest box", lambda room: set_purchase(room, heaviest_box_kg=kilograms(typed)))

    def _set(self, text: str, edit: Edit) -> str:
        return committed(self._document, edit, text)


def _budget_text(room: Room) -> str:
    return "" if room.stock.budget is None else money(room, room.stock.budget)


def _proof_words(bought: Purchasing, is_priced: bool) -> str:
    """How sure the cost is the least, and what it leaves out."""
    buying = bought.buying
    said = []
    if is_priced and buying.orders:
        said.append("the least cost, proven" if buying.proof == "proven" else f"the best found; {gap_in_words(buying)}")
    if buying.unpriced:
        said.append(f"{NO_PRICE} for {_parts(len(buying.unpriced))}")
    if buying.short:
        said.append(f"suppliers cannot send all of {_parts(len(buying.short))}")
    return "; ".join(said) or "nothing to buy"


def _parts(count: int) -> str:
    return f"{count} part{'' if count == 1 else 's'}"


def _bulk_words(room: Room, bought: Purchasing) -> str:
    lines = every_line(bought)
    mass = sum(line.mass_kg or 0.0 for line in lines)
    boxes = sum(line.packs for line in lines if line.pack > 1)
    said = f"{number_text(sum(line.pieces for line in lines))} pieces, {number_text(boxes)} boxes, {mass:,.0f} kg"
    heavy = [line for line in lines if line.mass_kg and line.mass_kg / line.packs > room.stock.heaviest_box_kg]
    if heavy:
        said += f". Lift by two: {', '.join(title(line.material, room.display_units) for line in heavy)}"
    return said


def _budget_words(room: Room, bought: Purchasing, is_seeking: bool) -> str:
    if bought.budget is None:
        return ""
    if bought.over <= 0:
        rest = "" if bought.buying.is_complete else ", but not everything has a price"
        return f"{money(room, -bought.over)} left of the budget{rest}."
    said = [f"{money(room, bought.over)} over the budget."]
    if is_seeking:
        said.append(SEEKING_WAYS)
    ways = sorted(bought.ways, key=lambda way: not way.is_enough)
    said += [f"{way.text} saves {money(room, way.saves)}{': enough' if way.is_enough else ''}." for way in ways]
    if not is_seeking and not bought.ways:
        said.append("No fewer spares and no row bought later brings it down.")
    return "\n".join(said)
