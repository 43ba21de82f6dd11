"""Own words of a journal: a run of the keeper's words stands for a run of words of the language.

An act line is rewritten before it is read: longest run first, each place once, so that nothing is
rewritten twice; never in quotes, in prose or in a remark. Where each letter came from is kept.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import cache

from msgspec import Struct
from msgspec.structs import replace

from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.forms import ANY_WORDS, ActForm
from backbud_grammar.hints import PART_WORDS
from backbud_grammar.kinds import RESERVED_HANDLES
from backbud_grammar.lexicon import NO_HANDLES
from backbud_grammar.limiters import LIMITING
from backbud_grammar.measures import UNITS
from backbud_grammar.outline import Known, read_act_line
from backbud_grammar.syntax import Act

# No run that a hand would write again and again is longer.
LONGEST_RUN = 6
_TOKEN = re.compile(r"\"[^\"]*\"?|(?<![^\s,])'[^']*'(?!\w)|[^\s,\"]+")


class OwnTable(Struct, frozen=True):
    """By the first word of a run, folded: the runs, the longest first, each with its meaning."""

    by_first: Mapping[str, tuple[tuple[tuple[str, ...], str], ...]] = {}

    @staticmethod
    def of(runs: Mapping[tuple[str, ...], str]) -> OwnTable:
        by_first: dict[str, list[tuple[tuple[str, ...], str]]] = {}
        for run in sorted(runs, key=lambda run: (-len(run), run)):
            by_first.setdefault(run[0], []).append((run, runs[run]))
        return OwnTable({first: tuple(those) for first, those in by_first.items()})

    def runs(self) -> list[tuple[str, ...]]:
        """Every run, folded."""
        return [run for those in self.by_first.values() for run, _ in those]


class Expanded(Struct, frozen=True):
    """An act line in words of the language. `old`: for each letter of its text, and for its end,
    the place in the text as written; what came from before that text is below 0."""

    act: Act
    old: tuple[int, ...]

    def span(self, column: int, length: int) -> tuple[int, int]:
        """Where a piece of the text stands in the text as written, and how long it is there."""
        last = len(self.old) - 1
        begin = self.old[min(column, last)]
        end = self.old[min(column + max(length, 1) - 1, last)] + 1
        return begin, max(end - begin, 1)


def folded_run(words: str) -> tuple[str, ...]:
    """A run of words as it is compared."""
    return tuple(word.casefold() for word in words.split())


def expanded(act: Act, table: OwnTable, known: Known) -> Expanded | None:
    """The act in words of the language; None where no own word stands in it."""
    if not table.by_first or act.word.casefold() in known.prose:
        return None
    line = f"{act.word} {act.text}" if act.text else act.word
    # The place of each letter of the line in the act's text.
    at = [*range(-len(act.word) - 1, 0), *range(len(act.text))][: len(line)]
    tokens = [(found[0], found.start(), found.end()) for found in _TOKEN.finditer(line)]
    if not any(token.casefold() in table.by_first for token, _, _ in tokens):
        return None
    pieces: list[str] = []
    places: list[int] = []
    done, changed = 0, False
    # An act of two words stays one.
    n = 2 if " ".join(token.casefold() for token, _, _ in tokens[:2]) in known.words else 0
    while n < len(tokens):
        run, meaning = _run_at(tokens, n, line, table)
        begin = tokens[n][1]
        if not run:
            if n == 1 and tokens[1][0].casefold() in known.prose:
                break  # `corrected noted 2027-03-06 …`
            n += 1
            continue
        end = tokens[n + run - 1][2]
        pieces += [line[done:begin], meaning]
        places += at[done:begin]
        # Each letter of the meaning stands for the run: its first, or as far as the run goes.
        places += [at[min(begin + i, end - 1)] for i in range(len(meaning) - 1)] + [at[end - 1]]
        done, changed = end, True
        if begin == 0 and meaning.split()[0].casefold() in known.prose:
            break
        n += run
    if not changed:
        return None
    new = "".join((*pieces, line[done:]))
    places += at[done:]
    return _as_act(act, new, places, known)


def _run_at(
    tokens: list[tuple[str, int, int]], n: int, line: str, table: OwnTable
) -> tuple[int, str]:
    """How many words from one on are a run of the table, and what they mean; 0 where none is."""
    for run, meaning in table.by_first.get(tokens[n][0].casefold(), ()):
        some = tokens[n : n + len(run)]
        if tuple(token.casefold() for token, _, _ in some) != run:
            continue
        # A comma between two words parts them.
        if all(line[some[i][2] : some[i + 1][1]].isspace() for i in range(len(some) - 1)):
            return len(run), meaning
    return 0, ""


def _as_act(act: Act, line: str, places: list[int], known: Known) -> Expanded:
    """The line as an act again, where the old one stands."""
    read = read_act_line(line, 0, known)
    start = read.text_column - 1
    text, remark, old = read.text, act.remark, places[start : start + len(read.text)]
    if remark and read.word.casefold() in known.prose:
        # Prose takes the remark, too.
        old += [len(act.text)] * (len(remark) + 4)
        text, remark = f"{text} -- {remark}", ""
    old.append(len(act.text))
    new = Act(
        read.word, text, remark, act.line, act.column, act.text_column, act.seams, act.left_out
    )
    new = replace(new, hour=act.hour or read.hour)
    return Expanded(new, tuple(old))


# ------------------------------------------------------------------ what a card may say


@cache
def _of_the_language() -> tuple[frozenset[str], frozenset[str]]:
    return _openers(by_word(ACTS)), language_words(by_word(ACTS))


def _openers(acts: Mapping[str, ActForm]) -> frozenset[str]:
    """The words that open something on an act line, folded: own words begin with none of them.

    Acts of two words (`put off`) are told where the line is rewritten.
    """
    words = {word for word in acts if " " not in word}
    words |= {*RESERVED_HANDLES, *NO_HANDLES, *PART_WORDS, *LIMITING}
    words |= {writing for unit in UNITS for writing in (unit.symbol, *unit.written)}
    return frozenset(word.casefold() for word in words)


def language_words(acts: Mapping[str, ActForm]) -> frozenset[str]:
    """Every word that says something by itself on an act line, folded; of what is said in several
    words (`lime sulphur`) none."""
    words = set(_openers(acts))
    for act in acts.values():
        for form in act.forms:
            phrases: Iterable[str] = () if form.words is ANY_WORDS else form.words
            phrases = (*form.labels, *phrases)
            words |= {phrase.casefold() for phrase in phrases if " " not in phrase}
    return frozenset(words)


def wrong_run(written: str, acts: Mapping[str, ActForm]) -> str:
    """What is wrong with a run of own words, or ""."""
    run = folded_run(written)
    openers, words = _of_the_language()
    if len(acts) > len(by_word(ACTS)):
        openers, words = _openers(acts), language_words(acts)
    # `lime S` is no `lime`: a word of a detail is only taken where it stands alone.
    if run[0] in openers or (len(run) == 1 and run[0] in words):
        return f"“{written.split()[0]}” is a word of the language already"
    if not run[0][0].isalpha():
        return f"“{written}” does not begin with a letter"
    if len(run) > LONGEST_RUN:
        return f"these are more than {LONGEST_RUN} words"
    wrong = next((sign for sign in written if sign in ",\"'#—" or not sign.isprintable()), "")
    if wrong or "--" in run:
        return f"own words hold no “{wrong or '--'}”"
    limiter = next((word for word in run if word in LIMITING), "")
    return f"“{limiter}” limits what a line says, so no own word may hide it" if limiter else ""


def wrong_meaning(meaning: str) -> str:
    """What is wrong with what a run is to mean, or ""."""
    words = meaning.split()
    if not words:
        return "nothing says what this stands for"
    if '"' in meaning or "--" in words or "—" in words or meaning.startswith("#"):
        return "own words stand for details, not for text in quotes or a remark"
    return ""


def runs_in(act: Act, table: OwnTable, known: Known) -> list[tuple[int, str, str]]:
    """Each own word of an act line: where it stands behind the act word's first letter, as it is
    written there, and what it means."""
    if expanded(act, table, known) is None:
        return []
    lead = act.text_column - act.column
    line = f"{act.word:<{lead}}{act.text}" if act.text else act.word
    tokens = [(found[0], found.start(), found.end()) for found in _TOKEN.finditer(line)]
    out: list[tuple[int, str, str]] = []
    n = 2 if " ".join(token.casefold() for token, _, _ in tokens[:2]) in known.words else 0
    while n < len(tokens):
        run, meaning = _run_at(tokens, n, line, table)
        if run:
            begin, end = tokens[n][1], tokens[n + run - 1][2]
            out.append((begin, line[begin:end], meaning))
        n += run or 1
    return out
