"""Tells what a section says from how it is written, so that a copy is known by its words."""

from __future__ import annotations

from collections.abc import Sequence

from backbud.journal.remember import WordsDigest
from backbud_grammar.digest import digest


def words_in(section: bytes) -> WordsDigest:
    """What a section says, whatever blanks stand in it, without remarks to oneself.

    So a copy that was tidied, or got spaces at its line ends, says the same as before.
    """
    if any(sign in section for sign in _NOT_PLAIN):
        lines = section.replace(b"\1", b"\0\1").replace(b"\t", b" ").split(b"\n")
        section = b"\n".join(
            [line.rstrip() for line in lines if not line.lstrip().startswith(b"#")]
        )
    said = _without_blanks(b"\n" + section)
    return WordsDigest(digest(said.rstrip(b"\n")), said.count(b"\n\1"))


def words_in_each(sections: Sequence[bytes]) -> list[WordsDigest]:
    """The same of many sections that end with a line's end, most of them at once."""
    whole = b"\2\n".join((b"", *sections))
    if any(sign in whole for sign in _NOT_PLAIN) or whole.count(b"\2") != len(sections):
        return [words_in(section) for section in sections]
    _, *each = _without_blanks(whole).split(b"\2")
    return [WordsDigest(digest(said.rstrip(b"\n")), said.count(b"\1")) for said in each]


# Few files have any of these. The last are our own marks.
_NOT_PLAIN = (b"#", b"\t", b" \n", b"\1")


def _without_blanks(text: bytes) -> bytes:
    """All lines at once, each behind a line's end, without blanks and blank lines; of an indented
    one it is kept that it is."""
    said = text.replace(b"\n ", b"\n\1").translate(None, b" ")
    while b"\n\n" in said:
        said = said.replace(b"\n\n", b"\n")
    return said
