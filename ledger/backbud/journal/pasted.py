"""Tells of a short page that was pasted twice into its file, where to count it twice adds up."""

from __future__ import annotations

from backbud_grammar.acts import acts_with
from backbud_grammar.problems import Flaw

# What is done again on the same day, or is told again and adds nothing.
_AGAIN_AND_AGAIN = acts_with("daily_keep") | {"noted", "private"}


def adds_up(data: bytes, line: int, lines: int) -> bool:
    """Whether a page says what nobody does twice a day in the same words, as hours and cuttings;
    trees are watered again.

    `data`: its file; `line`: its first line there (0 first), `lines`: how many it has.
    """
    page = data.split(b"\n")[line : line + lines]
    indented = (one.split() for one in page if one[:1] in (b" ", b"\t"))
    words = {one[0].decode(errors="replace").casefold() for one in indented if one}
    return not words <= _AGAIN_AND_AGAIN


def flaw_of_pasted(line: int, first: int) -> Flaw:
    """`line`, `first`: the first lines of the page and of the other one (0 first)."""
    return Flaw(
        "repeated-pages",
        line,
        1,
        1,
        f"this page stands on line {first + 1} too, word for word, and counts twice",
        "Take the second writing away, if it was not meant twice.",
        "warning",
    )
