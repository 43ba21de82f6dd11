"""The years of a tree as they are drawn: what was done when, how long wire was on, what comes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from operator import attrgetter
from typing import Literal

from msgspec import Struct

from backbud.collection.on_tree import is_meant, wiring_of
from backbud.collection.state import Entry
from backbud_grammar.act_words import ActWord, as_act
from backbud_grammar.by_row import by_row
from backbud_grammar.forms import ActForm, WorkName

# What an act is drawn as; "" for what has no mark.
Sign = Literal["cut", "roots", "feed", "move", "seen", ""]


class WireView(Struct, frozen=True, gc=False):
    """Wire that was on a part of a tree from a day `on`, and `off` again, null while it is on."""

    part: str
    on: date
    off: date | None


_BY_WORK: Mapping[WorkName, Sign] = {"branches": "cut", "feed": "feed"}
_BY_WORD: Mapping[ActWord, Sign] = {"moved": "move", "staged": "seen", "bloomed": "seen"}


@by_row
def sign_of(row: ActForm) -> Sign:
    """What an act is drawn as."""
    if "potting" in row.traits or "root_work" in row.traits:
        return "roots"
    return _BY_WORD.get(as_act(row.word)) or _BY_WORK.get(row.work) or ""


def wires_of(of_wire: Iterable[Entry]) -> tuple[WireView, ...]:
    """Each stretch of time for which wire was on a part of a tree, in the order it was put on.

    `of_wire`: what of its history is of an act that puts wire on, or takes it off.
    """
    done: list[WireView] = []
    still: list[WireView] = []
    for entry in of_wire:
        if entry.corrected_by is not None and entry.undone:
            continue
        event = entry.event
        day, wiring = event.when.first, wiring_of(event)
        if wiring.off and still:
            kept: list[WireView] = []
            for one in still:
                if is_meant(one.part, wiring.parts):
                    done.append(WireView(one.part, one.on, day))
                else:
                    kept.append(one)
            still = kept
        for part in wiring.put:
            still.append(WireView(part, day, None))
    return tuple(sorted([*done, *still], key=attrgetter("on", "part")))
