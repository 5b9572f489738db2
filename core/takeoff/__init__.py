"""Counting materials from the set-out."""
