"""What to tell of a detail that fits no form, and what may have been meant."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import partial

from backbud_grammar.accept import words_of_form
from backbud_grammar.choose import labelled, likely, without_share
from backbud_grammar.fit import fit
from backbud_grammar.forms import ANY_WORDS, Form
from backbud_grammar.items import DetailItem, extent, is_plain_number, written_of
from backbud_grammar.lexicon import REMARK_HINT, Lexicon
from backbud_grammar.measures import Measure
from backbud_grammar.problems import NEAR_IN_DETAIL, Misread, did_you_mean, meant_in
from backbud_grammar.readers import BETWEEN_WEDGES, WEDGES

SHOWN_DETAILS = 8
# So many words of a detail are compared with those of the act: to compare takes a millisecond.
MOST_COMPARED = 12

# So many words are no sentence: the text, and its words one by one.
_MOST_IN_SLIP = 3
NO_DETAILS = "This act takes no details."
COMMA_HINT = "Details are parted by a comma and a space."


def error_of(items: list[DetailItem], lexicon: Lexicon) -> Misread:
    """The one thing to tell of a detail that fits no form."""
    values, _ = without_share(items)
    found = labelled(values, lexicon)
    if found is not None:
        error = _first_error(*found)
        if error is not None:
            if error.length == 0:
                error.offset, error.length = extent(items)
            return error
    if _is_part(values, lexicon):
        return _unknown(values, lexicon)
    bare = [form for form in lexicon.bare if not form.worded]
    error = _first_error(likely(bare, values), values)
    known = {word.casefold() for form in bare for word in words_of_form(form)}
    odd = next(
        (
            i
            for i, item in enumerate(values)
            if item.sort in ("word", "quoted") and item.text.casefold() not in known
        ),
        None,
    )
    if error is None and len(bare) == 1:
        error = _first_error(bare, values)
    if error is not None and len(bare) == 1 and error.code != "unknown-detail":
        return error
    measured = any(item.sort == "measure" for item in values)
    if measured and (odd is None or (odd and is_plain_number(values[odd - 1]))):
        wrong = _first_error((_any_of(bare),), values)
        if bare and wrong and wrong.code not in ("unknown-detail", "unexpected-measure"):
            return wrong
    if error is not None and error.code in TELLING and odd is None:
        return error
    before = values[odd - 1].measure if odd else None
    if before is not None and any(before.sort in form.sorts for form in bare):
        return _unknown(values[odd:], lexicon, before)
    start = odd if odd and before is None else 0
    return _unknown(values[start:], lexicon)


def _is_part(items: Sequence[DetailItem], lexicon: Lexicon) -> bool:
    """Whether a part of the tree stands here without its `on`: in `branch 3` is no measure.

    But in `opened top 2` is one without its unit: `top` is a word of that act.
    """
    first = items[0].text.casefold()
    return (
        bool(lexicon.with_part)
        and first in PART_WORDS
        and all(item.sort == "word" or is_plain_number(item) for item in items)
        and not any(first == word.casefold() for form in lexicon.bare for word in form.words)
    )


def _first_error(forms: Sequence[Form], items: list[DetailItem]) -> Misread | None:
    """Why the first of the forms does not take the items."""
    for form in forms:
        try:
            fit(form, items)
        except Misread as error:
            return error
    return None


# These say more than that something is unknown.
TELLING = ("no-measure", "no-handle", "out-of-range")


def _any_of(bare: Sequence[Form]) -> Form:
    """All bare forms of an act as one, to say what any of them would have taken."""
    return Form(
        "act",
        (),
        tuple(dict.fromkeys(sort for form in bare for sort in form.sorts)),
        words=tuple(word for form in bare for word in form.words),
        bound=True,
    )


def _unknown(
    items: Sequence[DetailItem], lexicon: Lexicon, before: Measure | None = None
) -> Misread:
    """The problem of items that are no detail; `before`: the measure that stands before them."""
    start, length = extent(items)
    text = written_of(items)
    if not lexicon.forms:
        return Misread(
            "unknown-detail",
            "this act takes no details",
            "Write it as a remark, after “ -- ”.",
            start,
            length,
        )
    if items and items[0].sort == "date":
        opener = next((form.labels[0] for form in lexicon.forms if form.date and form.labels), "")
        return Misread(
            "unexpected-date",
            "a date stands here, but not what it is for",
            f"Write {opener} {items[0].text}." if opener else REMARK_HINT,
            items[0].offset,
            items[0].length,
        )
    return Misread(
        "unknown-detail",
        f"“{text}” is not understood here",
        partial(_hint_for_unknown, text, items, lexicon, before),
        start,
        length,
    )


# `L1` is left 1, wherever it stands.
_SHORT_PART = re.compile(r"[LR]\d{1,2}(?:(?: ?[,+&-] ?| and )[LR]\d{1,2})*")


def _hint_for_unknown(
    text: str, items: Sequence[DetailItem], lexicon: Lexicon, before: Measure | None
) -> str:
    for form in lexicon.forms:
        if form.reader == "wedges" and all(
            item.text.casefold() in WEDGES or item.text.casefold() in BETWEEN_WEDGES
            for item in items
        ):
            return "Wedges stand together without commas: wedges N E S."
    if items[0].text == "on":
        return f"This act takes no part of the tree. {REMARK_HINT}"
    on_part = f"A part of the tree stands after “on”: on {text}."
    if _is_part(items, lexicon) and any(map(is_plain_number, items)):
        return on_part
    if _SHORT_PART.fullmatch(text) and any(one.part for one in lexicon.forms):
        return on_part
    known = [label for form in lexicon.forms for label in form.labels]
    known += [word for form in lexicon.forms if form.words != ANY_WORDS for word in form.words]
    words = [text, *(item.text for item in items if item.sort == "word" and len(item.text) > 2)]
    words = [word for word in words if word.casefold() != _NO_SLIP]
    del words[MOST_COMPARED:]
    near = next(filter(None, (_near_of(word, known, len(words)) for word in words)), "")
    if near:
        return f"{near} {REMARK_HINT}"
    if lexicon.with_part and not PART_WORDS.isdisjoint(words):
        return on_part
    beside = [
        word
        for form in lexicon.bare
        if before is not None and before.sort in form.sorts
        for word in form.words
    ]
    if beside:
        return f"Here may follow: {', '.join(beside)}. {REMARK_HINT}"
    return f"{expected_of(lexicon.forms)} {REMARK_HINT}"


def _near_of(word: str, known: Sequence[str], of: int) -> str:
    """What a word of a detail is a slip of; in a sentence only what begins as it does: `around` is
    no slip of `ground` there. `of`: how many texts are compared."""
    near = did_you_mean(word, known, cutoff=NEAR_IN_DETAIL, among_free_words=True)
    begins_alike = meant_in(near)[:1].casefold() == word[0].casefold()
    return near if of <= _MOST_IN_SLIP or begins_alike else ""


# `closed up, leave` is said of the work, and no slip of `leaves`.
_NO_SLIP = "leave"
PART_WORDS = frozenset(
    (
        "left",
        "right",
        "front",
        "back",
        "apex",
        "top",
        "crown",
        "low",
        "lower",
        "high",
        "upper",
        "inner",
        "outer",
        "branch",
        "branches",
        "trunk",
        "leader",
        "first",
        "second",
        "third",
    )
)


def expected_of(forms: Sequence[Form]) -> str:
    """What an act takes, in one line: `Expected: same pot, into, mix, …`"""
    takes = dict.fromkeys(
        form.labels[0] if form.labels else form.about if form.free else form.wanted() or "on PART"
        for form in forms
        if form.name not in ("by", "observed")
    )
    if not takes:
        return NO_DETAILS
    shown = list(takes)[:SHOWN_DETAILS]
    more = ", …" if len(takes) > SHOWN_DETAILS else "."
    return f"Expected: {', '.join(shown)}{more}"


_SLIPS: tuple[tuple[re.Pattern[str], str, str], ...] = (
    (
        re.compile(r"(?<=[^\d\s]),(?=\S)|,(?=[^\d\s])"),
        "no space stands after this comma",
        COMMA_HINT,
    ),
    (re.compile(r";"), "a semicolon parts nothing here", COMMA_HINT),
    (
        re.compile(r"(?<=\s)[-–](?=\s)"),
        "a single dash parts nothing here",
        "Free words go after two hyphens: “ -- ”.",
    ),
    (
        re.compile(r"[€£$¥](?=\s?\d)"),
        "the currency stands behind the amount",
        "Write the amount and then its code: 120 EUR.",
    ),
    (re.compile(r"(?<=\w)\.$"), "no full stop belongs here", "Take it out."),
)


def slip_in(text: str, error: Misread) -> Misread:
    """Return the slip of punctuation that explains an error, or the error itself."""
    for pattern, message, hint in _SLIPS:
        found = pattern.search(text)
        if found is not None:
            return Misread("punctuation", message, hint, found.start(), len(found[0]))
    return error
