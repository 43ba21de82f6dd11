"""Tells which acts take material."""

from __future__ import annotations

from backbud_grammar.act_words import ActWord
from backbud_grammar.by_row import by_row
from backbud_grammar.forms import ActForm

# What takes material and fills no pot.
PUT_ON: tuple[ActWord, ...] = ("wired", "guyed", "tied")
ON_TOP: ActWord = "top-dressed"
OTHER: tuple[ActWord, ...] = ("used", "fed")


@by_row
def takes_mix(act: ActForm) -> bool:
    """Whether some mix goes with it, or may."""
    return "fills_pot" in act.traits or "arrival" in act.traits or act.word == ON_TOP


@by_row
def takes_wire(act: ActForm) -> bool:
    """Whether wire, ties or mesh go on with it."""
    return act.word in PUT_ON or "fills_pot" in act.traits


@by_row
def takes_material(act: ActForm) -> bool:
    """Whether it takes anything."""
    return takes_mix(act) or takes_wire(act) or act.word in OTHER
