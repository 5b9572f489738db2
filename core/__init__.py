"""Coursewright's planning model: no Qt, and no input or output outside ``files`` and ``export``."""
