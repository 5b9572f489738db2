"""Tracking the build: what is built, checked, hung and taken out, when it will be done, and what has lost its place."""
