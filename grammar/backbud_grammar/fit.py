"""Whether what follows a label fits its form, and the detail that it then is."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal
from functools import partial

from backbud_grammar.accept import (
    accepted,
    as_list,
    counted_measure,
    expected,
    flaw_of_item,
    label_named,
    two_measures,
    words_of_form,
)
from backbud_grammar.act_words import as_detail
from backbud_grammar.dates import read_span
from backbud_grammar.forms import ANY_WORDS, Form
from backbud_grammar.items import DetailItem, extent, is_plain_number, written_of
from backbud_grammar.lexicon import LONGEST_UNCUT, NO_HANDLES, REMARK_HINT
from backbud_grammar.measures import Measure
from backbud_grammar.problems import NEAR_IN_DETAIL, Misread, did_you_mean
from backbud_grammar.readers import READERS
from backbud_grammar.syntax import Detail


def fit(form: Form, items: list[DetailItem], loose: int = 0) -> Detail:
    """Hold what is left after the label against the form; Misread where it does not fit."""
    if form.reader:
        return READERS[form.reader](form, items)
    if form.list_of:
        return Detail(as_detail(form.name), measure=as_list(form, items))
    date, rest = _date_among(form, items) if form.date else ("", items)
    measure, words = _sorted_out(form, rest, loose)
    handle, words = _reference(form, words) if form.refers else ("", words)
    text = written_of(words)
    if words and not _words_allowed(form, text):
        raise _wrong_words(form, words, text)
    if form.worded and not words:
        raise Misread("unexpected-measure", "a word must say what is counted", "", *extent(items))
    if form.bound and measure is None:
        raise Misread(
            "no-measure", f"{label_named(form)} needs {expected(form)}", "", *extent(items)
        )
    if form.labels:
        if form.refers and not handle:
            raise Misread(
                "no-handle",
                f"{label_named(form)} needs the handle of a {' or a '.join(form.refers)}",
                "",
                *extent(items),
            )
        if form.words == ANY_WORDS and not words and measure is None:
            raise Misread(
                "no-words", f"nothing stands after {label_named(form)}", "", *extent(items)
            )
    elif not (measure or handle or words or date):
        raise Misread("unknown-detail", "nothing is said here")
    elif form.refers and form.bound and not handle:
        raise Misread(
            "no-handle",
            f"{items[0].text} of what?",
            f"Name the {' or the '.join(form.refers)} by its handle.",
            *extent(items),
        )
    return Detail(as_detail(form.name), text, measure, handle, "", date)


def _date_among(form: Form, items: list[DetailItem]) -> tuple[str, list[DetailItem]]:
    """Take the date out of the items; Misread where one is wanted and another thing stands."""
    if len(items) == 1 and (items[0].sort == "date" or _is_year(items[0])):
        return items[0].text, []
    measured = any(item.measure is not None and item.measure.sort in form.sorts for item in items)
    if not form.labels or measured:
        return "", items
    if not items:
        raise Misread("no-date", f"{label_named(form)} needs {expected(form)}", "")
    text = written_of(items)
    try:
        read_span(text)
    except Misread as error:
        hint = error.hint
        if form.sorts:
            hint = f"Expected {expected(form)}."
        raise Misread(error.code, error.message, hint, *extent(items)) from None
    return text, []


def _is_year(item: DetailItem) -> bool:
    return len(item.text) == 4 and item.text.isdecimal()


def _sorted_out(
    form: Form, items: list[DetailItem], loose: int
) -> tuple[Measure | None, list[DetailItem]]:
    """Part the items into the one measure and the words.

    `loose`: free words take numbers too (1), or measures of any sort (2).
    """
    in_words = form.bound and bool(form.labels) and "number" in form.sorts
    if not in_words and all(item.sort in ("word", "quoted") for item in items):
        return None, items
    measure: Measure | None = None
    words: list[DetailItem] = []
    for i, item in enumerate(items):
        if item.sort in ("word", "quoted"):
            if measure is not None and _is_count(items, i):
                continue
            if in_words and measure is None and item.text.casefold() in _IN_WORDS:
                measure = _IN_WORDS[item.text.casefold()]
                continue
            words.append(item)
        elif form.free and not form.sorts and _is_word(item, 2 if not form.labels else loose):
            words.append(item)
        elif item.flaw is not None:
            raise flaw_of_item(form, item, item.flaw)
        elif item.measure is None:
            raise Misread(
                "unexpected-date", "no date is expected here", "", item.offset, item.length
            )
        elif measure is not None:
            if not _is_count(items, i - 1):
                raise two_measures(items[i - 1], item)
            measure = counted_measure(measure, item)
        else:
            measure = accepted(form, item, items)
    return measure, words


# `to two leaves`: only where a label asks for a number.
_IN_WORDS = {
    word: Measure((Decimal(number),), "", "number")
    for number, word in enumerate(("one", "two", "three", "four", "five", "six"), 1)
}


def _is_word(item: DetailItem, loose: int) -> bool:
    """Whether free words take a date, a number or a measure as one of them."""
    return item.sort == "date" or loose > 1 or (loose > 0 and is_plain_number(item))


def _is_count(items: Sequence[DetailItem], i: int) -> bool:
    """Whether `x 2` stands here, behind a measure and its metal: `2 mm Al x 2`."""
    return (
        0 < i + 1 < len(items)
        and items[i].text in ("x", "×")
        and _COUNT.fullmatch(items[i + 1].text) is not None
    )


_COUNT = re.compile(r"[1-9][0-9]{0,3}")


def _reference(form: Form, words: list[DetailItem]) -> tuple[str, list[DetailItem]]:
    """The first word that is none of the form's own is the handle; `the` may stand before it."""
    own = words_of_form(form)
    for i, item in enumerate(words):
        if item.text in NO_HANDLES:
            break
        if item.text not in own and not (item.text == "the" and i + 1 < len(words)):
            return item.text, [w for w in words[:i] if w.text != "the"] + words[i + 1 :]
    return "", words


def _words_allowed(form: Form, text: str) -> bool:
    if form.words == ANY_WORDS:
        return True
    return _made_of(text.casefold(), [word.casefold() for word in form.words])


def _made_of(text: str, phrases: list[str]) -> bool:
    """Whether the text is one or more of the phrases, one after another."""
    if text in phrases:
        return True
    words = text.split(" ")
    if len(words) > LONGEST_UNCUT:
        return False
    reached = [True] + [False] * len(words)
    for at in range(len(words)):
        if reached[at]:
            for phrase in phrases:
                size = phrase.count(" ") + 1
                if " ".join(words[at : at + size]) == phrase:
                    reached[at + size] = True
    return reached[-1]


def _wrong_words(form: Form, words: Sequence[DetailItem], text: str) -> Misread:
    if form.labels:
        return Misread(
            "unknown-word",
            f"“{text}” is not understood beside {label_named(form)}",
            partial(_hint_for_words, text, form),
            *extent(words),
        )
    return Misread(
        "unknown-detail",
        f"“{text}” is not understood here",
        partial(
            did_you_mean,
            text,
            form.words,
            f"Expected: {expected(form)}.",
            NEAR_IN_DETAIL,
            among_free_words=True,
        ),
        *extent(words),
    )


def _hint_for_words(text: str, form: Form) -> str:
    near = did_you_mean(text, form.words, cutoff=NEAR_IN_DETAIL)
    if near:
        return near
    wanted = form.wanted()
    after = f" and {wanted}" if wanted else ", and no more"
    return f"Expected: {form.labels[0]}{after}. {REMARK_HINT}"
