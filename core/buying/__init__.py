"""What to order, from whom, at least cost."""

from core.buying.account import AccountLine, account, in_panels, still_needed
from core.buying.budget import Purchasing, Way, purchasing
from core.buying.least_cost import buy
from core.buying.offers_csv import OfferFault, OfferList, decoded, read_offers
from core.buying.order import Buying, Order, OrderLine

__all__ = [
    "AccountLine",
    "Buying",
    "OfferFault",
    "OfferList",
    "Order",
    "OrderLine",
    "Purchasing",
    "Way",
    "account",
    "buy",
    "decoded",
    "in_panels",
    "purchasing",
    "read_offers",
    "still_needed",
]
