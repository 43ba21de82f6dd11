"""Says which handles a subject line may mean that is written in names, with blanks in them."""

from __future__ import annotations

import re

from backbud.journal.things import Thing, Things
from backbud_grammar.handles import fold

# `all on the south shelf` stands for `all in south-shelf`.
_ALL = re.compile(r"(?i)all\s+(?:(in|on|at|under)|(of|from))\s+(.+)")


def handles_meant(text: str, things: Things) -> str:
    """`black pine, all on south shelf` in handles; "" where one of them is not known, or may mean
    two, or where they stand so already."""
    said = [_meant(" ".join(piece.split()), things) for piece in text.split(",")]
    written = ", ".join(said)
    return "" if "" in said or written == text else written


def _meant(piece: str, things: Things) -> str:
    every = _ALL.fullmatch(piece)
    if every is None:
        return _handle(piece, things)
    kind = "place" if every[1] else "person"
    bare = re.sub(r"(?i)^the ", "", every[3])
    handle = _handle(every[3], things, kind) or _handle(bare, things, kind)
    return handle and f"all {'in' if every[1] else 'of'} {handle}"


def _handle(words: str, things: Things, *kinds: str) -> str:
    """The handle that these words are with hyphens for blanks, or the only thing of that name."""
    found = things.find(words.replace(" ", "-"))
    named = [found] if found is not None else _named(words, things)
    fitting = [thing for thing in named if not kinds or thing.kind in kinds]
    return fitting[0].handle if len(fitting) == 1 else ""


def _named(words: str, things: Things) -> list[Thing]:
    return [one for one in things.by_handle.values() if fold(one.text("name")) == fold(words)]
