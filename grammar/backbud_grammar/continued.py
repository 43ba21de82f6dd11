"""Which lines go on with the one above, and which only look like it by a slip.

A deeper line goes on with the one above. One that begins as a line of its own does, with an act
word or a label of its card, is a slip of the thumb: it may be either, so it is told and left out.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, Protocol

from msgspec.structs import replace

from backbud_grammar.kinds import KINDS
from backbud_grammar.problems import Flaw
from backbud_grammar.written_hours import hour_before

if TYPE_CHECKING:
    from backbud_grammar.outline import Known, Scanned

REMARK = re.compile(r"(?:^|\s)(?:--|—)(?:\s+|$)")
# As most are written; it costs a tenth of the time to look for.
_PLAIN_MARK = " -- "
# `pumice 1`: a name and its parts.
_INGREDIENT = re.compile(r"\s*[^\W\d].*\d")
# Nothing else but a name of up to three words and its parts: no year, no sentence.
_ONLY_INGREDIENT = re.compile(
    r"\s*[^\W\d]+(?:[ \t-]+[^\W\d]+){0,2}[ \t]+[0-9]{1,2}(?:[.,/][0-9]{1,2})?"
    r"(?:[ \t]*%|[ \t]+parts?)?\s*"
)
BEHIND_A_WORD = ",.:;!?"
# What begins with one of these goes on with the line above, though it stands no deeper.
_GOES_ON = {"on", "and", "not", "but", "except", "excepting", "only", "partly", "half", "never"}


def without_remark(text: str) -> tuple[str, str]:
    """The details of an act without the remark behind them, and the remark, or ""."""
    head, found, remark = text.partition(_PLAIN_MARK)
    if found and "--" not in head and "—" not in head:
        return head.rstrip(), remark.lstrip()
    mark = REMARK.search(text)
    if mark is None:
        return text, ""
    return text[: mark.start()].rstrip(), text[mark.end() :]


def without_slips(group: list[Scanned], slips: Slips, flaws: list[Flaw]) -> list[Scanned]:
    """The lines that go on with the first; a deeper one that slipped is told, and left out.

    What stands at least as deep below a slip is left out with it: nobody can tell what it goes on.
    """
    kept = group[:1]
    slipped: Flaw | None = None
    indent = ""
    for line, text in group[1:]:
        word, what = slips.opening(text, kept) or ("", "")
        if not word and (slipped is None or not text.startswith(indent)):
            _told(slipped, flaws)
            slipped = None
            kept.append((line, text))
        elif not word and slipped is not None:
            slipped = replace(slipped, lines=line - slipped.line + 1)
        else:
            _told(slipped, flaws)
            indent = _indent(text)
            slipped = Flaw(
                slips.code,
                line,
                len(indent) + 1,
                len(word),
                f"“{word}” is {what}, but stands deeper than the line above",
                "Put it at the same depth as the line above; if it goes on with that line, join "
                "the two.",
            )
    _told(slipped, flaws)
    return kept


def _told(slipped: Flaw | None, flaws: list[Flaw]) -> None:
    if slipped is not None:
        what = "It was left out"
        if slipped.lines > 1:
            what = "It was left out, with what stands as deep below it"
        flaws.append(replace(slipped, hint=f"{what}. {slipped.hint}"))


class Slips(Protocol):
    """Tells which deeper lines are slips of the thumb."""

    code: str

    def opening(self, text: str, so_far: list[Scanned]) -> tuple[str, str] | None:
        """The word that a slip begins with, and what it is; None where the line goes on with those
        so far."""


class ActSlips:
    """A deeper line that begins with an act word, below an act."""

    code = "deeper-act"

    def __init__(self, known: Known) -> None:
        self.known = known

    def opening(self, text: str, so_far: list[Scanned]) -> tuple[str, str] | None:
        word = hour_before(text.lstrip())[1].split(None, 1)[0].rstrip(BEHIND_A_WORD)
        folded = word.casefold()
        if folded not in self.known.words or _goes_on(so_far, folded, self.known):
            return None
        return word, "an act"


class CardSlips:
    """A deeper line that begins with a label of its card, below another line of the card."""

    code = "deeper-label"

    def __init__(self, kind: str, first: str) -> None:
        self.kind = kind
        label = label_in(kind, first)
        # Only where ingredients stand can a line be one; free words may hold a number too.
        self.takes_any = any(form.free_label for form in KINDS[kind].forms)
        below_prose = label in PROSE_LABELS[kind]
        self.is_ingredient = _ONLY_INGREDIENT.fullmatch if below_prose else _INGREDIENT.match

    def opening(self, text: str, so_far: list[Scanned]) -> tuple[str, str] | None:
        label = label_in(self.kind, text)
        if label:
            return " ".join(text.split()[: label.count(" ") + 1]), f"a label of a {self.kind}"
        if self.takes_any and self.is_ingredient(text):
            return text.split(None, 1)[0], "an ingredient"
        return None


def _goes_on(group: list[Scanned], word: str, known: Known) -> bool:
    """Whether a line goes on with the act above: after a comma, with a label of that act.

    `tied 2 mm x 2` does below `repotted same pot,` and below `planned repot, to 2028,` too.
    """
    if not group[-1][1].endswith(",") or any(REMARK.search(text) for _, text in group):
        return False
    first, *named = (one.rstrip(",").casefold() for one in group[0][1].split(None, 2)[:2])
    act = known.acts.get(first)
    if act is not None and act.names_act and named:
        act = known.acts.get(named[0])
    return act is not None and any(
        label.split()[0].casefold() == word for form in act.forms for label in form.labels
    )


# ------------------------------------------------------------------ labels of cards


@cache
def _labels(kind: str) -> tuple[frozenset[str], int]:
    """The labels of a kind of card, and how many words the longest has."""
    labels = frozenset(label.casefold() for form in KINDS[kind].forms for label in form.labels)
    return labels, max(label.count(" ") for label in labels) + 1


def label_in(kind: str, text: str) -> str:
    """The longest label that a line of a card begins with, folded; or ""."""
    labels, longest = _labels(kind)
    words = [word.rstrip(BEHIND_A_WORD).casefold() for word in text.split(None, longest)[:longest]]
    for size in range(longest, 0, -1):
        if (label := " ".join(words[:size])) in labels:
            return label
    return ""


PROSE_LABELS = {
    kind: frozenset(label.casefold() for one in form.forms if one.prose for label in one.labels)
    for kind, form in KINDS.items()
}


def left_below(
    lines: list[Scanned], known: list[bool], prose: list[bool], doubtful: set[int]
) -> dict[int, str]:
    """What may go on with an act and is refused, by the place of that act among the lines.

    A blank line or a tab may have cut it off. `known`: whether a line begins with an act; `prose`:
    with one whose words are free, of which none can change it. `doubtful`: the numbers of lines
    that are refused though they begin with an act.
    """
    out: dict[int, str] = {}
    above: int | None = None
    for at, (number, text) in enumerate(lines):
        if known[at] and number not in doubtful:
            above = None if prose[at] else at
        elif above is not None:
            indent, indent_above = _indent(text), _indent(lines[above][1])
            if number in doubtful or goes_on(text) or not indent_above.startswith(indent):
                out[above] = " ".join((out.get(above, ""), *text.split())).lstrip()
            else:
                above = None
    return out


def goes_on(text: str) -> bool:
    """Whether a line, however deep it stands, begins as what goes on with the one above it."""
    return text.split(None, 1)[0].rstrip(BEHIND_A_WORD).casefold() in _GOES_ON


# ------------------------------------------------------------------ tabs among spaces


def mixed_indents(
    lines: list[Scanned], flaws: list[Flaw], free: list[bool], known: list[bool]
) -> set[int]:
    """Tell of lines in front of which tabs and spaces are mixed; which of them are left out.

    Where nobody can tell whether a line stands deeper than one that ends in free words (`free`),
    it may be a line of its own or more of these words. `known`: whether it begins as a line of its
    own does.
    """
    doubtful: set[int] = set()
    first = _indent(lines[0][1])
    above, above_is_free = first, False
    for (number, text), is_free, is_known in zip(lines, free, known, strict=True):
        indent = _indent(text)
        if above_is_free and is_known and not _comparable(indent, above):
            doubtful.add(number)
            flaws.append(
                Flaw(
                    "mixed-indent",
                    number,
                    1,
                    len(indent),
                    "with tabs and spaces mixed, this may be a line of its own or go on with the "
                    "one above",
                    "It was left out. Put the same in front of both lines, or join the two.",
                    lines=1 + text.count("\n"),
                )
            )
            continue
        above, above_is_free = indent, is_free
        if (
            (" " in indent.lstrip(" ") and "\t" in indent)
            or "\t" in indent.lstrip("\t")
            or not _comparable(indent, first)
        ):
            flaws.append(
                Flaw(
                    "mixed-indent",
                    number,
                    1,
                    len(indent),
                    "tabs and spaces are mixed in front of this line",
                    "It was read as a line of its own. Use one of the two in a block.",
                    "warning",
                )
            )
    return doubtful


def _indent(line: str) -> str:
    return line[: len(line) - len(line.lstrip())]


def _comparable(one: str, other: str) -> bool:
    """Whether two indents are as deep, or one is surely deeper."""
    return one.startswith(other) or other.startswith(one)
