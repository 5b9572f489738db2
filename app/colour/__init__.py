"""Colours of bricks in the window: shown on the elevation, and laid by rules and pictures in a leaf."""
