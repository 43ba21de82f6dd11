"""Reading a line of a card: the label that opens it, and its value."""

from __future__ import annotations

import re

from msgspec.structs import replace

from backbud_grammar.act_words import as_detail
from backbud_grammar.details import Reading, read_detail
from backbud_grammar.forms import Form, KindForm
from backbud_grammar.lexicon import REMARK_HINT, Lexicon
from backbud_grammar.problems import Flaw, did_you_mean
from backbud_grammar.syntax import Detail


def read_card_line(kind: KindForm, text: str) -> Reading:
    """Read a card's line: the longest known label that opens it, then its value."""
    label, form = _label_of(kind, text)
    if form is None:
        free = next((form for form in kind.forms if form.free_label), None)
        if free is None or not any(char.isdigit() for char in text):
            return Reading(flaw=_unknown_label(kind, text, free))
        return read_detail(text, _lexicon_of(kind, free))
    value = text[len(label) :].lstrip()
    at = len(text) - len(value)
    if not value:
        return Reading(
            flaw=Flaw(
                "no-value",
                0,
                0,
                len(text),
                f"nothing stands after “{text}”",
                f"Expected {form.wanted()}.",
            )
        )
    if form.prose or form.free:
        return Reading((Detail(as_detail(form.name), words=value, offset=at, length=len(value)),))
    read = read_detail(text, _lexicon_of(kind, form))
    if read.flaw is not None and REMARK_HINT in read.flaw.hint:
        # A card has no remarks.
        return Reading(
            flaw=replace(
                read.flaw, hint=read.flaw.hint.replace(REMARK_HINT, "Free words go after “note”.")
            )
        )
    return read


def _label_of(kind: KindForm, text: str) -> tuple[str, Form | None]:
    """The longest label of the kind that opens the text, as written there, and its form."""
    labels = _labels_of(kind)
    words = [word.casefold() for word in text.split()]
    for size in range(min(len(words), _MOST_WORDS), 0, -1):
        found = labels.get(" ".join(words[:size]))
        if found is not None:
            written = re.match(rf"(?:\S+\s*){{{size}}}(?<=\S)", text)
            return (written[0] if written else ""), found
    return "", None


# No label has more.
_MOST_WORDS = 4
_LABELS: dict[str, tuple[KindForm, dict[str, Form]]] = {}


def _labels_of(kind: KindForm) -> dict[str, Form]:
    """The form of each label; of two that have the same the first."""
    of, labels = _LABELS.get(kind.kind, (None, {}))
    if of is not kind:
        forms = reversed(kind.forms)
        labels = {label.casefold(): form for form in forms for label in form.labels}
        _LABELS[kind.kind] = kind, labels
    return labels


_CARD_LEXICONS: dict[tuple[str, str], Lexicon] = {}


def _lexicon_of(kind: KindForm, form: Form) -> Lexicon:
    key = (kind.kind, form.name)
    lexicon = _CARD_LEXICONS.get(key)
    if lexicon is None or lexicon.forms[0] is not form:
        lexicon = _CARD_LEXICONS[key] = Lexicon((form,))
    return lexicon


def _unknown_label(kind: KindForm, text: str, free: Form | None) -> Flaw:
    word = text.split(None, 1)[0]
    labels = [label for form in kind.forms for label in form.labels]
    if free:
        return Flaw(
            "unknown-label",
            0,
            0,
            len(text),
            f"“{text}” is no label of a {kind.kind}, and no ingredient without a number",
            did_you_mean(word, labels, "An ingredient and its parts: akadama 2."),
        )
    return Flaw(
        "unknown-label",
        0,
        0,
        len(word),
        f"“{word}” is no label of a {kind.kind}",
        _in_its_words(kind, text) or did_you_mean(word, labels, f"Labels: {', '.join(labels)}."),
    )


# Words for what a thing costs or is worth; a card has one of them, or none.
_OF_MONEY = frozenset({"price", "cost", "costs", "value", "worth", "paid"})


def _in_its_words(kind: KindForm, text: str) -> str:
    """How a kind says what a word of another kind's card says; "" where it says no such thing."""
    word, _, rest = text.partition(" ")
    if word.casefold() not in _OF_MONEY:
        return ""
    label = next((form.name for form in kind.forms if form.name in _OF_MONEY), "")
    return f"On a {kind.kind} this is “{label}”: {label}  {rest.strip()}".rstrip() if label else ""
