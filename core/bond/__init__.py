"""Panels bonded down to the brick."""
