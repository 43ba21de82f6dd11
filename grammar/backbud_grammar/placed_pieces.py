"""What the details of a piece are once its part of the tree is taken off."""

from __future__ import annotations

from msgspec.structs import replace

from backbud_grammar.details import Reading, details_of
from backbud_grammar.lexicon import Lexicon
from backbud_grammar.parts import DetailWithPart, flaw_of_part, spelled_out, without_part
from backbud_grammar.problems import Flaw
from backbud_grammar.syntax import Detail


def understood_details(piece: str, lexicon: Lexicon) -> tuple[Detail, ...]:
    """The details that a comma-free text with its parts of the tree is; none where it is none."""
    placed = without_part(piece, lexicon) if lexicon.with_part else None
    if placed is None:
        return details_of(piece, lexicon)
    if not placed.part or flaw_of_part(placed.part) is not None:
        return ()
    out: tuple[Detail, ...] = ()
    for text in filter(None, (placed.head, placed.tail)):
        read = details_of(text, lexicon)
        if not read:
            return ()
        out += read
    return (*out, Detail("part", part=spelled_out(placed.part)))


def no_part(placed: DetailWithPart) -> Reading:
    """The reading of a piece that names no part behind its `on`."""
    return Reading(
        flaw=Flaw(
            "no-part",
            0,
            placed.at,
            2,
            "nothing stands after “on”",
            "Name the part: on apex, on left 2.",
        )
    )


def put_together(
    piece: str, placed: DetailWithPart, head: Reading, tail: Reading, lexicon: Lexicon
) -> Reading:
    """The reading of a piece from those of what stands before its part of the tree, and behind.

    The part is the last detail's before it, where that takes one, and else a detail by itself.
    """
    part = spelled_out(placed.part)
    if head.details and head.details[-1].name in lexicon.with_part:
        last = head.details[-1]
        on = replace(last, part=part, length=placed.tail_at - last.offset)
        details = (*head.details[:-1], on)
    else:
        length = placed.tail_at - placed.at
        details = (*head.details, Detail("part", part=part, offset=placed.at, length=length))
    behind = (replace(one, offset=one.offset + placed.tail_at) for one in tail.details)
    return Reading((*details, *behind), head.flaw or _flaw_of(piece, placed, tail))


def _flaw_of(piece: str, placed: DetailWithPart, tail: Reading) -> Flaw | None:
    """What is wrong with the part, or with what stands behind it."""
    wrong = flaw_of_part(placed.part)
    if wrong is not None:
        at = piece.index(placed.part.split(" ", 1)[0], placed.at + 2)
        return Flaw(wrong.code, 0, at + wrong.offset, wrong.length, wrong.message, wrong.hint)
    if tail.flaw is not None:
        return replace(tail.flaw, column=tail.flaw.column + placed.tail_at)
    return None
