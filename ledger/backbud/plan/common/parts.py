"""Says in words which part of a tree a work is about."""

from __future__ import annotations


def on_part(words: str, part: str) -> str:
    """`wire` on `left 2` is `wire on left 2`."""
    return f"{words} on {part}".strip() if part else words
