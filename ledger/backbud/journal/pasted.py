"""Tells of a short page that was pasted twice into its file, where to count it twice adds up."""

from __future__ import annotations

from backbud.journal.told_lines import AGAIN_AND_AGAIN


def adds_up(data: bytes, line: int, lines: int) -> bool:
    """Whether a page says what nobody does twice a day in the same words, as hours and cuttings;
    trees are watered again.

    `data`: its file; `line`: its first line there (0 first), `lines`: how many it has.
    """
    page = data.split(b"\n")[line : line + lines]
    indented = (one.split() for one in page if one[:1] in (b" ", b"\t"))
    words = {one[0].decode(errors="replace").casefold() for one in indented if one}
    return not words <= AGAIN_AND_AGAIN
