"""How far two colours stand apart, as WCAG 2 reckons it."""

LEAST_TEXT_CONTRAST = 4.5
"""WCAG 2, success criterion 1.4.3."""
LEAST_MARK_CONTRAST = 3.0
"""WCAG 2.1, success criterion 1.4.11: lines and marks that mean something."""


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two ``#rrggbb`` colours, 1 to 21, after WCAG 2.1 (relative luminance and contrast ratio)."""
    lighter, darker = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(colour: str) -> float:
    red, green, blue = (_linear(int(colour[i : i + 2], 16) / 255) for i in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else float(((channel + 0.055) / 1.055) ** 2.4)
