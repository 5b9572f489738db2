"""What panels are really laid of."""
