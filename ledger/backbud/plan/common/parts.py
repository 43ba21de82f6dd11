"""An act goes in; the parts of the tree it names come out, and the words that show them."""

from __future__ import annotations

from backbud.species import Event


def parts_of(done: Event) -> list[str]:
    """The parts an act names, each once; "" when it names none."""
    return list(dict.fromkeys(done.parts)) or [""]


def on_part(words: str, part: str) -> str:
    """`wire` on `left 2` is `wire on left 2`."""
    return f"{words} on {part}".strip() if part else words
