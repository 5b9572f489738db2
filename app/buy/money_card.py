"""What it all comes to: cost and whether that is proven, boxes and mass, the budget, and the figures a person sets."""

from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from app import theme
from app.buy.needs_table import every_line
from app.document import Document, Edit
from app.inspector.fields import TextField
from app.tables.reading import amount, committed, kilograms, number_text, percent
from app.theme.look import Style
from core.buying import Purchasing, Way
from core.buying.order import gap_in_words
from core.edits.buying import set_purchase
from core.language import marked, tr, trc, trn
from core.room import Room
from core.sheets.buying_lists import NO_PRICE, money, title

COST_PX = 26
WORKING = marked("working out the least cost …")
COUNTING = marked("working out …")
SEEKING_WAYS = marked("Looking for ways under it …")


class MoneyCard(QWidget):
    """Stands beside both pages of the leaf, so that every price shows at once in what it does."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self._document = document
        self.cost, self.proof, self.bulk, self.budget_words = QLabel(), QLabel(), QLabel(), QLabel()
        self._is_quiet = False
        self._cost_style = Style(self.cost, self._cost_sheet)
        names = tr("Cost"), tr("How sure"), tr("Bulk"), tr("Budget")
        for label, name in zip((self.cost, self.proof, self.bulk, self.budget_words), names, strict=True):
            label.setAccessibleName(name)
            label.setWordWrap(True)
        self.stop = QPushButton(tr("Stop"))
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
        self.say_working(tr(COUNTING))

    def _fields(self) -> tuple[TextField, ...]:
        def stock() -> Room:
            return self._document.room

        self.spare = TextField(tr("Spares"), lambda: f"{stock().stock.spare_percent:g} %", self._set_spare)
        self.budget = TextField(tr("Budget"), lambda: _budget_text(stock()), self._set_budget)
        self.currency = TextField(tr("Currency"), lambda: stock().stock.currency, self._set_currency)
        self.budget.line.setPlaceholderText(trc("budget", "none"))
        self.currency.line.setPlaceholderText(trc("currency", "none"))
        self.heaviest = TextField(tr("Heaviest box"), lambda: f"{stock().stock.heaviest_box_kg:g} kg", self._set_heaviest)
        self.heaviest.setToolTip(tr("What one person may lift: heavier packs are listed, and panels are packed to it"))
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
        cost = money(room, buying.total) if is_priced else tr(NO_PRICE)
        self.cost.setText(cost if buying.is_complete or not is_priced else tr("at least {cost}", cost=cost))
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
        return self._set(tr("Set spares"), lambda room: set_purchase(room, spare_percent=percent(typed)))

    def _set_budget(self, typed: str) -> str:
        def edit(room: Room) -> Room:
            return set_purchase(room, budget=amount(typed, room.stock.currency) if typed.strip() else None)

        return self._set(tr("Set budget"), edit)

    def _set_currency(self, typed: str) -> str:
        return self._set(tr("Set currency"), lambda room: set_purchase(room, currency=typed.strip()))

    def _set_heaviest(self, typed: str) -> str:
        return self._set(tr("Set the heaviest box"), lambda room: set_purchase(room, heaviest_box_kg=kilograms(typed)))

    def _set(self, text: str, edit: Edit) -> str:
        return committed(self._document, edit, text)


def _budget_text(room: Room) -> str:
    return "" if room.stock.budget is None else money(room, room.stock.budget)


def _proof_words(bought: Purchasing, is_priced: bool) -> str:
    """How sure the cost is the least, and what it leaves out."""
    buying = bought.buying
    said = []
    if is_priced and buying.orders:
        is_proven = buying.proof == "proven"
        said += [tr("the least cost, proven")] if is_proven else [tr("the best found"), gap_in_words(buying)]
    if buying.unpriced:
        said.append(trn("no price given for {n} part", "no price given for {n} parts", len(buying.unpriced)))
    if buying.short:
        said.append(trn("suppliers cannot send all of {n} part", "suppliers cannot send all of {n} parts", len(buying.short)))
    return "; ".join(said) or tr("nothing to buy")


def _bulk_words(room: Room, bought: Purchasing) -> str:
    lines = every_line(bought)
    mass = sum(line.mass_kg or 0.0 for line in lines)
    boxes = sum(line.packs for line in lines if line.pack > 1)
    pieces = sum(line.pieces for line in lines)
    said = tr(
        "{pieces} pieces, {boxes} boxes, {mass} kg",
        pieces=number_text(pieces),
        boxes=number_text(boxes),
        mass=number_text(round(mass)),
    )
    heavy = [line for line in lines if line.mass_kg and line.mass_kg / line.packs > room.stock.heaviest_box_kg]
    if heavy:
        names = ", ".join(title(line.material, room.display_units) for line in heavy)
        heavy_words = tr("Lift by two: {boxes}", boxes=names)
        said = f"{said}. {heavy_words}"
    return said


def _budget_words(room: Room, bought: Purchasing, is_seeking: bool) -> str:
    if bought.budget is None:
        return ""
    if bought.over <= 0:
        left = money(room, -bought.over)
        if bought.buying.is_complete:
            return tr("{amount} left of the budget.", amount=left)
        return tr("{amount} left of the budget, but not everything has a price.", amount=left)
    said = [tr("{amount} over the budget.", amount=money(room, bought.over))]
    if is_seeking:
        said.append(tr(SEEKING_WAYS))
    ways = sorted(bought.ways, key=lambda way: not way.is_enough)
    said += [_way_words(room, way) for way in ways]
    if not is_seeking and not bought.ways:
        said.append(tr("No fewer spares and no row bought later brings it down."))
    return "\n".join(said)


def _way_words(room: Room, way: Way) -> str:
    saved = money(room, way.saves)
    if way.is_enough:
        return tr("{way} saves {amount}: enough.", way=way.text, amount=saved)
    return tr("{way} saves {amount}.", way=way.text, amount=saved)
