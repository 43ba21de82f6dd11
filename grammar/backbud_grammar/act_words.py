"""The types of act and detail words: those of the table to a type checker, any text to a program.

A running program's table has a plugin's words too, which no type checker can see; so what is read
from a table goes through `as_act` and `as_detail`, and so does a plugin's own word in its code.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

if TYPE_CHECKING:
    from backbud_grammar.acts.words import ActWord, DetailName, DetailWord, LabelName, SettledBy
else:
    ActWord = DetailName = DetailWord = LabelName = SettledBy = str

__all__ = [
    "ActWord",
    "DetailName",
    "DetailWord",
    "LabelName",
    "SettledBy",
    "as_act",
    "as_detail",
    "as_settling",
    "as_word",
]


def as_act(word: str) -> ActWord:
    """The past form of an act that is in the journal's table, a plugin's too."""
    return word  # type: ignore[return-value]  # a cast that costs nothing: asked of every line


def as_detail(name: str) -> DetailName:
    """The name of a detail that is in the journal's table, or in that of cards; a plugin's too."""
    return name  # type: ignore[return-value]


def as_word(word: str) -> DetailWord:
    """Words that stand free in a detail, or in one of a plugin."""
    return word  # type: ignore[return-value]


def as_settling(act: ActWord, what: str) -> SettledBy:
    """An act and what it was done to: `checked wire`."""
    return cast("SettledBy", f"{act} {what}".rstrip())
