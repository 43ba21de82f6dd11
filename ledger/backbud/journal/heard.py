"""One act of a line as it was heard, and how much is wrong in it."""

from __future__ import annotations

from msgspec import Struct

from backbud_grammar.problems import KEPT, Flaw
from backbud_grammar.syntax import Act


class HeardAct(Struct, frozen=True, gc=False):
    """One act of a line: as it is read, its past form, and what is wrong with it."""

    act: Act
    past: str
    flaws: tuple[Flaw, ...]


def problems_in(heard: HeardAct) -> int:
    """How much is wrong in an act; words that were kept are no problem."""
    return sum(flaw.severity != KEPT for flaw in heard.flaws)
