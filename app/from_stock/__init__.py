"""Laying what is left to build from the stock on hand: worked out beside the window, shown, and handed to bench and pack."""

from app.from_stock.stock_bonds import StockBonds

__all__ = ["StockBonds"]
