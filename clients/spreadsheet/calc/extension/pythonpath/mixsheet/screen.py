"""Colours as a screen needs them: written in hexadecimal, and the text that can be read on them."""

import re

_HEX = re.compile(r"#?([0-9a-f]{6}|[0-9a-f]{3})", re.IGNORECASE)


def rgb_of(text):
    """"#5a6b3c", "5a6b3c" or "#ccc" as one number 0xRRGGBB; None for anything else."""
    match = _HEX.fullmatch(text.strip()) if isinstance(text, str) else None
    if match is None:
        return None
    digits = match.group(1)
    return int("".join(digit * 2 for digit in digits) if len(digits) == 3 else digits, 16)


def text_on(rgb: int) -> int:
    """Black or white, whichever contrasts more: the contrast ratio of WCAG 2.2, where both are equal at a luminance of 0.179."""
    def linear(channel):
        value = channel / 255
        return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4

    luminance = 0.2126 * linear(rgb >> 16) + 0.7152 * linear(rgb >> 8 & 255) + 0.0722 * linear(rgb & 255)
    return 0x000000 if (luminance + 0.05) / 0.05 >= 1.05 / (luminance + 0.05) else 0xFFFFFF
