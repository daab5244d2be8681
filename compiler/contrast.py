"""How well a colour is told from another: the contrast ratio of WCAG 2.2.

W3C, Web Content Accessibility Guidelines 2.2, definitions of "relative luminance" and "contrast ratio"; success criterion
1.4.3 asks of text for 4.5 to 1.
"""

from __future__ import annotations

LEAST_CONTRAST = 4.5  # WCAG 2.2, success criterion 1.4.3 (AA)
WHITE = "#ffffff"


def contrast(one: str, other: str) -> float:
    """The ratio of two colours, each told as `#1f5c4a`: from 1, where they are the same, to 21, black on white."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def luminance(colour: str) -> float:
    """The relative luminance of a colour, from 0 to 1."""
    red, green, blue = (_linear(int(colour[at : at + 2], 16) / 255) for at in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.04045 else float(((part + 0.055) / 1.055) ** 2.4)
