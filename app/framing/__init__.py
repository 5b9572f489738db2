"""The frame leaf: how a wall's frame is given, what misses it, its timber, screws, loads and notes."""
