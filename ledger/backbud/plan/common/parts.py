"""Says in words which part of a tree a work is about."""

from __future__ import annotations

from backbud.tongue import phrase


def on_part(words: str, part: str) -> str:
    """`wire` on `left 2` is `wire on left 2`."""
    return phrase("{words} on {part}", words=words, part=part).strip() if part else words
