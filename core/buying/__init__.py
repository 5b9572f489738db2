"""What to order, from whom, at least cost."""
