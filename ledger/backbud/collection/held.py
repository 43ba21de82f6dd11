"""Makes of an event one that stands in a history and changes nothing."""

from __future__ import annotations

from msgspec.structs import replace

from backbud.journal.events import Event
from backbud_grammar.act_words import as_act
from backbud_grammar.forms import NO_ACT
from backbud_grammar.held_back import HELD


def held(event: Event) -> Event:
    """The event as one that changes nothing."""
    return replace(
        event,
        act=as_act(HELD),
        details=(),
        named=as_act(""),
        held=event.act,
        kept=(event.text,),
        row=NO_ACT,
        named_row=NO_ACT,
        held_row=event.row,
    )
