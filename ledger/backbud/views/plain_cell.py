"""Keeps a cell of text from being taken for a formula by a spreadsheet."""

from __future__ import annotations

# What a spreadsheet would take for a formula (OWASP, CSV Injection).
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def plain_cell(text: str) -> str:
    """The text, with an apostrophe before it where a spreadsheet would reckon with it. A number
    below zero reckons nothing.

    >>> plain_cell("=1+1"), plain_cell("-4.5"), plain_cell("tunnel")
    ("'=1+1", '-4.5', 'tunnel')
    """
    return f"'{text}" if text.startswith(_FORMULA) and not _is_number(text) else text


def _is_number(text: str) -> bool:
    digits = text[1:] if text[0] in "+-" else text
    return digits.replace(".", "", 1).isdecimal() and digits.isascii()
