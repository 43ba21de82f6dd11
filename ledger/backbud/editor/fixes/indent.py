"""Moves a line to where it belongs: in from the left edge, or out to it."""

from __future__ import annotations

from collections.abc import Iterator

from backbud.editor.fixes.asked import Fix, ToMend, here

INWARD, OUTWARD = ("act-at-edge", "label-at-edge"), ("indented-subject",)


def indent(asked: ToMend) -> Iterator[Fix]:
    """By two spaces, or by all there are."""
    line = asked.text.line(asked.line)
    if asked.code in INWARD:
        yield here(asked, "Put two spaces in front of it", asked.over(0, 0, "  "), sure=True)
    elif asked.code in OUTWARD:
        blanks = len(line) - len(line.lstrip())
        yield here(asked, "Put it at the left edge", asked.over(0, blanks, ""), sure=True)
