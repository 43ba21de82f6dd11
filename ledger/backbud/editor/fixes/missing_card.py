"""Gives a handle that nobody knows a card, in the file where cards of its kind stand."""

from __future__ import annotations

import re
from collections.abc import Iterator

from backbud.editor.fixes.asked import Fix, ToMend
from backbud.editor.fixes.at_the_end import card_at_end, file_of_cards
from backbud_grammar.handles import flaw_of
from backbud_grammar.kinds import KINDS

_KINDS = re.compile(r"no ((?:\w+ or )*\w+) is called")


def missing_card(asked: ToMend) -> Iterator[Fix]:
    """One fix for each kind of thing that may stand there."""
    handle = asked.written.rstrip(",").lower()
    if asked.code != "unknown-handle" or not handle or flaw_of(handle):
        return
    said = _KINDS.search(asked.message)
    kinds = said[1].split(" or ") if said is not None else ["tree"]
    for kind in (one for one in kinds if one in KINDS):
        name = file_of_cards(asked.desk, kind, asked.text.name)
        text = asked.desk.text(name)
        if text is not None:
            edit = card_at_end(text, (f"{kind} {handle}",))
            yield Fix(f"Give it a card: {kind} {handle} (in {name})", {name: (edit,)})
