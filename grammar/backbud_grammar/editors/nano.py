"""The syntax for nano.

Nano sees one line at a time, so that a card's labels and a page's acts are coloured alike.
"""

from __future__ import annotations

from collections.abc import Iterable

from backbud_grammar.editors.patterns import (
    ACT_WORDS,
    ASIDE,
    CARDS,
    DATE,
    DETAIL_WORDS,
    HEAD,
    HOUR_BEFORE,
    MADE_BY,
    MEASURE,
    PROSE_ACT_WORDS,
    QUOTED,
    any_of,
    in_posix,
    longest_first,
)

_BLANK = "[[:blank:]]"


def nano_syntax() -> str:
    """The syntax; what stands further down paints over what stands above."""
    labels = longest_first(label for card in CARDS for label in (*card.labels, *card.prose))
    prose = longest_first((*PROSE_ACT_WORDS, *(label for card in CARDS for label in card.prose)))
    words = _opens((*ACT_WORDS, *labels))
    lines = [
        f"## {MADE_BY}",
        "syntax backbud",
        f'header "^({in_posix(HEAD)}|[0-9]{{4}}(-[0-9]{{2}}){{0,2}}[~?%]?({_BLANK}.*)?)$"',
        'comment "#"',
        "",
        f"color magenta {_inside(DETAIL_WORDS)}",
        f"color yellow {_apart(MEASURE)} {_apart(DATE)}",
        f'color green "{in_posix(QUOTED)}"',
        f'icolor green "{_opens(prose)}.*$"',
        f'icolor cyan "{words}"',
        f'color blue "{_BLANK}{in_posix(ASIDE)}({_BLANK}.*)?$"',
        f'icolor green "{_opens(PROSE_ACT_WORDS)}.*$"',
        f'icolor cyan "{_opens(PROSE_ACT_WORDS)}"',
        'color brightgreen "^[^[:blank:]#0-9].*$"',
        f'color brightcyan "^{in_posix(HEAD)}$"',
        'color brightyellow "^[0-9][^[:blank:]]*"',
        f'color blue "^{_BLANK}*#.*$"',
    ]
    return "\n".join(lines) + "\n"


def _opens(words: Iterable[str]) -> str:
    return f"^{_BLANK}+{in_posix(HOUR_BEFORE)}{in_posix(any_of(words))}({_BLANK}|$)"


def _apart(pattern: str) -> str:
    return f'"\\<{in_posix(pattern)}({_BLANK}|,|$)"'


def _inside(words: Iterable[str]) -> str:
    return f'"{_BLANK}{in_posix(any_of(words))}\\>"'
