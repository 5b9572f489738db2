"""Coursewright's window and command line, built on ``core``."""
