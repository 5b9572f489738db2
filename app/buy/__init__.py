"""The leaf for buying: what the room needs, what there is of it, suppliers with their prices, and the orders of least cost."""
