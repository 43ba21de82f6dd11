"""Showing any text safely: what a terminal would obey, or hide, is written out.

A terminal obeys control characters, and characters that turn the direction of writing make a line
read as another one. File names hold them as well as notes do.
"""

from __future__ import annotations

# Our own signs, for a terminal whose letters do not have them.
_PLAIN = {
    "“": '"', "”": '"', "„": '"', "‘": "'", "’": "'", "–": "-", "—": "-", "…": "...", "×": "x",
    "·": "-", "°": "deg ", "−": "-", "→": "->", "≤": "<=", "≥": ">=", "½": "1/2", "²": "2",
    "\u00a0": " ", "\u202f": " ",
}  # fmt: skip
# Letters and marks that print as nothing (Unicode 16, DerivedCoreProperties.txt,
# Default_Ignorable_Code_Point), where the categories do not tell: joiner, fillers, vowels,
# Mongolian separators, blank of Braille; and the two blocks of variation selectors.
_BLANK = frozenset("\u034f\u115f\u1160\u17b4\u17b5\u180b\u180c\u180d\u180f\u2800\u3164\uffa0")
_SELECTORS = (range(0xFE00, 0xFE10), range(0xE0100, 0xE01F0))


def shown(text: str, encoding: str = "utf-8") -> str:
    """The text in one line, each sign that has no look of its own written out: `\\x1b`, `\\u202e`.

    A tab stays a tab, and a space of any width a space. What `encoding` has no sign for is written
    with a plain sign that means the same, or else written out too.
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(_shown(sign, encoding) for sign in text)


def json_shown(text: str, encoding: str = "utf-8") -> str:
    """The text of JSON, written out in the way of JSON: `\\u202e` (RFC 8259, section 7)."""
    if text.isascii() and "\x7f" not in text:
        return text
    return "".join(
        sign if sign == "\n" or _shown(sign, encoding) == sign else _json_escape(sign)
        for sign in text
    )


def cells(sign: str) -> int:
    """How many cells of a terminal a sign takes."""
    from unicodedata import category, east_asian_width

    if category(sign) in ("Mn", "Me"):
        return 0
    return 2 if east_asian_width(sign) in "WF" else 1


def _shown(sign: str, encoding: str) -> str:
    if sign == "\t" or (sign.isascii() and sign.isprintable()):
        return sign
    if _is_blank(sign):
        return sign.encode("unicode_escape").decode()
    try:
        sign.encode(encoding)
    except UnicodeEncodeError:
        return _PLAIN.get(sign) or sign.encode("unicode_escape").decode()
    return sign


def _is_blank(sign: str) -> bool:
    # Not at the top: most of what is printed needs no table of signs.
    from unicodedata import category

    if sign.isprintable():
        return sign in _BLANK or any(ord(sign) in some for some in _SELECTORS)
    return category(sign) != "Zs"


def _json_escape(sign: str) -> str:
    units = sign.encode("utf-16-be", "surrogatepass")
    return "".join(f"\\u{units[at : at + 2].hex()}" for at in range(0, len(units), 2))
