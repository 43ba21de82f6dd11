"""Joins what wire bit into and that it came off there, which a comma parts at the bench."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from backbud_grammar.scribbles.spelled import in_full

_WHERE = r"(?:(?:left|right) \d{1,2}|apex|top|crown|leader|trunk)"
# `left 2` is one place, `left 1 and left 2` are two.
LONGEST_PLACE = 2
_BITES = re.compile(
    r"(?:the )?wires? (?:is |was |are |has )?(?:just |slightly |a (?:bit|little) |starting to )*"
    r"(?:bites?|biting|bit|bitten|eats?|eating|cuts?|cutting|digs?|digging|dug|marking)"
    r"(?: in(?:to)?)?"
    rf"(?: (?:at|in|on|into))?(?: the)? (?P<part>{_WHERE}(?: ?(?:\+|&|and) ?{_WHERE})?)",
    re.IGNORECASE,
)
_BITES_THERE = re.compile(
    rf"(?:the )?wires? (?:on|at|in) (?:the )?(?P<part>{_WHERE}) (?:is |was |just |a bit |too )*"
    r"(?:cutting|biting|bites|bit|tight|eating|digging|marking)(?: in(?:to)?)?",
    re.IGNORECASE,
)
_OFF = re.compile(
    r"(?:(?:it |so |was |is |all |both |now |taken |took |cut |that wire |that one )*)"
    r"(?:off|away|out|removed)"
    r"(?: (?:at once|now|today|there|straight away|right away))?",
    re.IGNORECASE,
)


# What bites is named by its place alone where the wire that came off is named behind it.
_BITES_AT = re.compile(
    rf"(?P<part>{_WHERE}) (?:is |was |has )?"
    r"(?:bites|biting|bit|bitten|(?:cutting|cut) in)(?: in(?:to)?)?",
    re.IGNORECASE,
)
_THAT_OFF = re.compile(
    r"(?:that|the|its) wire (?:taken |cut |is )?(?:off|out|removed)(?: (?:at once|now|today))?",
    re.IGNORECASE,
)


def with_bites_joined(
    pieces: Iterable[tuple[int, str]],
) -> Iterator[tuple[int, str, str]]:
    """Each piece, where it stands, as it is written and as it is read.

    >>> list(with_bites_joined([(0, "wire bites in 2nd left"), (24, "off at once")]))
    [(0, 'wire bites in 2nd left, off at once', 'wire left 2 off')]
    """
    held: tuple[int, str, str] | None = None
    comes_off = _OFF
    for at, piece in pieces:
        raw = piece.strip(" .!:")
        if held is not None:
            if comes_off.fullmatch(raw):
                two = len(held[2].split()) > LONGEST_PLACE
                said = f"wire off {held[2]}" if two else f"wire {held[2]} off"
                yield held[0], f"{held[1]}, {raw}", said
                held = None
                continue
            yield held[0], held[1], in_full(held[1])
            held = None
        bites = None
        if "wire" in raw[:9].casefold():
            spelled = in_full(raw)
            bites = _BITES.fullmatch(spelled) or _BITES_THERE.fullmatch(spelled)
            comes_off = _OFF
        elif (" bit" in raw or " cut" in raw) and (bites := _BITES_AT.fullmatch(in_full(raw))):
            comes_off = _THAT_OFF
        if bites is not None:
            held = at, raw, bites["part"]
        else:
            yield at, raw, in_full(raw)
    if held is not None:
        yield held[0], held[1], in_full(held[1])
