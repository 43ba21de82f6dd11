"""When two handles are the same, and what is wrong with a new one."""

from __future__ import annotations

import re
import unicodedata
from functools import cache

from backbud_grammar.kinds import RESERVED_HANDLES

# Apart at hyphens too: a handle may hold a name.
_WORDS = re.compile(r"[^\W_]+")


@cache
def fold(handle: str) -> str:
    """Return the handle without case, and without marks on Latin and Greek letters.

    In other scripts a mark makes another letter, so it stays.

    >>> fold("Kōyō"), fold("が") == fold("か")
    ('koyo', False)
    """
    if handle.isascii():
        return handle.lower()
    out: list[str] = []
    strip = False
    for char in unicodedata.normalize("NFD", handle.casefold()):
        if unicodedata.combining(char):
            if strip:
                continue
        else:
            strip = unicodedata.name(char, "").startswith(("LATIN", "GREEK"))
        out.append(char)
    return unicodedata.normalize("NFC", "".join(out))


def folded_words(text: str) -> list[str]:
    """The words and numbers of a text, each folded, in whichever form of Unicode it is written.

    >>> folded_words("Jürgen-tray") == folded_words("jürgen tray") == ["jurgen", "tray"]
    True
    """
    return [fold(word) for word in _WORDS.findall(unicodedata.normalize("NFC", text))]


def handle_of(words: str) -> str:
    """Return words as a handle: `aluminium wire 2.5 mm` is `aluminium-wire-2-5-mm`.

    "" where no handle can be made of them.
    """
    letters = [c if unicodedata.category(c)[0] in "LMN" else "-" for c in words.casefold()]
    parts = [part for part in "".join(letters).split("-") if part]
    while parts and not unicodedata.category(parts[0][0]).startswith("L"):
        parts.pop(0)
    handle = "-".join(parts)
    return "" if flaw_of(handle) else handle


def flaw_of(handle: str) -> str:
    """Return what is wrong with a new handle, or "" when it is good."""
    if (
        handle.isascii()
        and handle.islower()
        and handle[0].isalpha()
        and handle.replace("-", "").isalnum()
        and handle not in RESERVED_HANDLES
    ):
        # The common case, told at once.
        return ""
    if fold(handle) in RESERVED_HANDLES:
        return f"“{handle}” is a word of the language and cannot be a handle"
    if not handle or not unicodedata.category(handle[0]).startswith("L"):
        return f"“{handle}” does not begin with a letter"
    if any(unicodedata.category(c) in ("Lu", "Lt") for c in handle):
        return f"“{handle}” has a capital letter"
    bad = [c for c in handle if c != "-" and unicodedata.category(c)[0] not in "LMN"]
    if bad:
        return f"“{handle}” holds “{_shown(bad[0])}”; a handle is letters, digits and hyphens"
    return ""


def _shown(char: str) -> str:
    """A character that can be seen, or its number."""
    return char if char.isprintable() else f"U+{ord(char):04X}"
