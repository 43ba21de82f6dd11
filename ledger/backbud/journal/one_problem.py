"""Tells pieces of one act that nobody understood as one problem: a comma sentence asks once."""

from __future__ import annotations

from collections.abc import Sequence

from backbud_grammar.problems import Flaw

# Two pieces keep a mark each.
LEAST = 3
_CODE, _NOT_UNDERSTOOD = "unknown-detail", "” is not understood here"
# Hints that only say what the act takes; any other is of its own piece.
_OF_THE_ACT = ("Expected", "Write only what was done")


def as_one(flaws: Sequence[Flaw]) -> tuple[Flaw, ...]:
    """The flaws of an act, with those that ask the same in one, where the first of them stands.

    It keeps what the first says of the act as a whole: that it is held back.
    """
    flaws = list({(one.code, one.message, one.hint): one for one in reversed(flaws)}.values())[::-1]
    same = [one for one in flaws if one.code == _CODE and one.hint.startswith(_OF_THE_ACT)]
    same = [one for one in same if _NOT_UNDERSTOOD in one.message]
    if len(same) < LEAST or any(one.severity != same[0].severity for one in same):
        return tuple(flaws)
    first = same[0]
    pieces = [one.message.partition(_NOT_UNDERSTOOD)[0].removeprefix("“") for one in same]
    *most, last = (f"“{piece}”" for piece in dict.fromkeys(pieces))
    said = f"{', '.join(most)} and {last} are" if most else f"{last} is"
    message = f"{said} not understood here{first.message.partition(_NOT_UNDERSTOOD)[2]}"
    joined = Flaw(
        first.code, first.line, first.column, first.length, message, first.hint, first.severity
    )
    return tuple(
        joined if one is first else one for one in flaws if one is first or one not in same
    )
