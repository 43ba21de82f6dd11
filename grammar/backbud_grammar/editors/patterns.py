"""The words and patterns of the language that every editor colours, taken from its tables.

Patterns are written once, in a plain form that Python reads too: characters, `[classes]` without
escapes but `\\t`, `(?:groups)`, `|`, `? * + {n}` and escaped signs. Each editor's dialect is made
from it, and the dialect's own file adds what may stand before and after.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator

from msgspec import Struct

from backbud_grammar.acts import ACTS, DAY_FORMS, by_word
from backbud_grammar.kinds import KINDS
from backbud_grammar.lexicon import SHARES
from backbud_grammar.measures import BY_WRITING

MADE_BY = "Made from the tables of the language by python -m backbud_grammar.editors.generate"


class CardWords(Struct, frozen=True):
    """The labels of one kind of card: those with details and those with prose after them.

    `free`: its other lines are a free label and a measure.
    """

    kind: str
    labels: tuple[str, ...]
    prose: tuple[str, ...]
    free: bool


def longest_first(words: Iterable[str]) -> tuple[str, ...]:
    """The words in an order in which the first that fits is the longest."""
    return tuple(sorted(set(words), key=lambda word: (-len(word), word)))


ACT_WORDS = tuple(sorted(by_word(ACTS)))
PROSE_ACT_WORDS = tuple(sorted(word for word, act in by_word(ACTS).items() if act.prose))
# What opens a detail, and what says how a measure is shared.
DETAIL_WORDS = longest_first(
    [label for act in ACTS for form in act.forms for label in form.labels] + ["on", *SHARES]
)
WEATHER_WORDS = longest_first(label for form in DAY_FORMS for label in form.labels)
CHOICE_WORDS = ("all", "except", "in", "of")
KIND_WORDS = tuple(KINDS)
CARDS = tuple(
    CardWords(
        kind.kind,
        longest_first(la for form in kind.forms if not form.prose for la in form.labels),
        longest_first(la for form in kind.forms if form.prose for la in form.labels),
        any(form.free_label for form in kind.forms),
    )
    for kind in KINDS.values()
)
UNITS = longest_first(BY_WRITING)


def any_of(words: Iterable[str]) -> str:
    """The pattern of any of these words; they hold no sign that a pattern would read."""
    return f"(?:{'|'.join(words)})"


# The same tokens as in journal.lark, less what must not follow them.
_NUMBER = "[-−]?[0-9]+(?:[.,][0-9]+)*"
_PER = f"(?:[ \\t]*/[ \\t]*{any_of(UNITS)})?"
MEASURE = (
    "(?:[0-9]+[ \\t]*h[ \\t]*[0-9]+(?:[ \\t]*min)?"
    f"|{_NUMBER}(?:(?:[ \\t]*[x×][ \\t]*|[-–/:]|[ \\t]+to[ \\t]+){_NUMBER})*"
    f"(?:(?:[ \\t]*{any_of(UNITS)}|[ \\t]+[A-Z]{{3}}){_PER})?(?:[ \\t]+[x×][ \\t]*[0-9]+)?)"
)
# What may stand in front of an act.
HOUR_BEFORE = "(?:[0-2][0-9]:[0-5][0-9][ \\t]+)?"
_ROUGH = "[~?%]?"
_DATE = (
    f"[0-9]{{4}}-[0-9]{{2}}-[0-9]{{2}}{_ROUGH}"
    f"|[0-9]{{4}}-(?:[0-9]{{2}}|XX|W[0-9]{{2}})(?:-(?:XX|[0-9]))?{_ROUGH}"
    f"|[0-9]{{4}}[~?%]|[0-9]{{2}}(?:XX|[0-9]X){_ROUGH}"
)
_LOOSE_DATE = "[0-9]{4}[-0-9WX~?%]*"
DATE = rf"(?:{_LOOSE_DATE}/(?:{_LOOSE_DATE}|\.\.)|\.\./{_LOOSE_DATE}|{_DATE})"
HEAD = f"{any_of(KIND_WORDS)}[ \\t]+[^ \\t,]+[ \\t]*"
ASIDE = "(?:--|—)"
QUOTED = '"[^"]*"'

# ------------------------------------------------------------------ dialects

_TOKEN = re.compile(
    r"(?P<set>\[\^?[^\]]+\])|\\(?P<sign>.)|(?P<open>\(\?:)|(?P<close>\))|(?P<alt>\|)"
    r"|(?P<repeat>[?*+]|\{[0-9,]+\})|(?P<char>.)"
)


def _translated(pattern: str, rules: dict[str, Callable[[str], str]]) -> str:
    def pieces() -> Iterator[str]:
        for found in _TOKEN.finditer(pattern):
            sort = found.lastgroup or ""
            text = found[sort]
            yield rules[sort](text) if sort in rules else text

    return "".join(pieces())


def in_vim(pattern: str) -> str:
    """The pattern in Vim's very magic form, without the `\\v`."""
    return _translated(
        pattern,
        {
            "open": lambda _: "%(",
            "sign": lambda sign: "\\" + sign,
            "char": lambda char: "\\" + char if char in "~@&=<>%" else char,
        },
    )


def in_posix(pattern: str) -> str:
    """The pattern as an extended regular expression of POSIX."""
    return _translated(
        pattern,
        {
            "open": lambda _: "(",
            "sign": lambda sign: "\\" + sign,
            "set": lambda text: text.replace(" \\t", "[:blank:]"),
        },
    )


def in_lisp(pattern: str) -> str:
    """The pattern as Emacs reads it once its string is read; tabs stand for themselves."""
    return _translated(
        pattern,
        {
            "open": lambda _: "\\(?:",
            "close": lambda _: "\\)",
            "alt": lambda _: "\\|",
            "repeat": lambda text: text if len(text) == 1 else f"\\{text[:-1]}\\}}",
            "sign": lambda sign: "\\" + sign if sign in ".*+?[^$\\" else sign,
            "set": lambda text: text.replace("\\t", "\t"),
        },
    )
