"""Whether a measure is one that a detail may carry, and what it then means."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import partial

from backbud_grammar.forms import ANY_WORDS, EXAMPLES, Form
from backbud_grammar.items import DetailItem, extent
from backbud_grammar.lexicon import REMARK_HINT
from backbud_grammar.measures import CURRENCIES, Measure, is_money, read_number, unit_named
from backbud_grammar.problems import Misread, nearest
from backbud_grammar.written_hours import hint_of_hour


def label_named(form: Form) -> str:
    return f"“{form.labels[0]}”" if form.labels else "this act"


def expected(form: Form) -> str:
    return form.wanted() or "no more words"


def words_of_form(form: Form) -> set[str]:
    return {word for phrase in form.words for word in phrase.split()}


def accepted(form: Form, item: DetailItem, items: Sequence[DetailItem]) -> Measure:
    measure = item.measure
    assert measure is not None
    if is_money(measure.sort) and measure.unit not in CURRENCIES:
        raise Misread(
            "unknown-unit",
            f"“{measure.unit}” is no unit or ISO 4217 currency",
            partial(hint_for_unit, measure.unit, form),
            item.offset,
            item.length,
        )
    if not form.negative and any(number < 0 for number in measure.numbers):
        raise Misread(
            "negative-measure",
            f"“{item.text}” is below zero",
            f"Expected {expected(form)}." if form.sorts else "",
            item.offset,
            item.length,
        )
    if measure.sort == "number" and "number" not in form.sorts and form.sorts:
        if "money" in form.sorts:
            return _in_settings_currency(form, item, items)
        raise _without_unit(form, item, items)
    if measure.sort not in form.sorts:
        by_the_clock = _hours_and_minutes(form, item)
        if by_the_clock is not None:
            raise by_the_clock
        if not form.sorts:
            if item is items[0]:
                raise Misread(
                    "unexpected-measure",
                    f"{label_named(form)} takes no measure",
                    REMARK_HINT,
                    *extent(items),
                )
            raise Misread(
                "unexpected-measure",
                f"{label_named(form)} takes no measure",
                'Put a comma before it, or the words in "double quotes".',
                item.offset,
                item.length,
            )
        hint = f"Expected {expected(form)}."
        if measure.sort == "money rate" and "money" in form.sorts:
            amount = item.text.partition("/")[0]
            hint = f"A price is of what “sold in” on its card says: write {amount}."
        raise Misread(
            "wrong-measure",
            f"“{item.text}” is not what {label_named(form)} takes",
            hint_of_hour(item.text) or hint,
            item.offset,
            item.length,
        )
    if form.limits or form.whole:
        _check_limits(form, item, measure)
    return measure


def flaw_of_item(form: Form, item: DetailItem, flaw: Misread) -> Misread:
    """The flaw of a measure that could not be read: `2:00` is no ratio, but may be a time."""
    return _hours_and_minutes(form, item) or flaw


_CLOCK = re.compile(r"0*(\d+):0*(\d+)", re.ASCII)


def _hours_and_minutes(form: Form, item: DetailItem) -> Misread | None:
    """Where a time is asked for, `2:30` is one as a clock shows it, and has no unit."""
    found = _CLOCK.fullmatch(item.text) if "duration" in form.sorts else None
    if found is None:
        return None
    hours, minutes = found.groups()
    if hours == "0":
        meant = f"{minutes} min"
    else:
        meant = f"{hours} h" if minutes == "0" else f"{hours} h {minutes}"
    return Misread(
        "wrong-measure", f"“{item.text}” has no unit", f"Write {meant}.", item.offset, item.length
    )


def _check_limits(form: Form, item: DetailItem, measure: Measure) -> None:
    numbers = [*measure.numbers, *([measure.upper] if measure.upper is not None else [])]
    if measure.sort == "fraction":
        numbers = [100 * numbers[0] / numbers[1]]
    if (
        form.limits
        and measure.sort in ("number", "share", "fraction", "angle", "temperature", "ratio")
        and not all(form.limits[0] <= number <= form.limits[1] for number in numbers)
    ):
        unit = " %" if measure.sort in ("share", "fraction") else ""
        raise Misread(
            "out-of-range",
            f"“{item.text}” is out of range",
            f"It lies between {form.limits[0]} and {form.limits[1]}{unit}.",
            item.offset,
            item.length,
        )
    if form.whole and any(number != number.to_integral_value() for number in numbers):
        below = int(numbers[0])
        raise Misread(
            "not-whole",
            f"“{item.text}” is no whole number",
            f"Write {below} or {below + 1}.",
            item.offset,
            item.length,
        )


def _in_settings_currency(form: Form, item: DetailItem, items: Sequence[DetailItem]) -> Measure:
    measure = item.measure
    assert measure is not None
    after = _word_after(item, items)
    if after is not None and form.words != ANY_WORDS:
        hint: str | partial[str] = partial(hint_for_unit, after.text, form)
        if after.text.startswith("/"):
            hint = f"A price is of what “sold in” on its card says: write {item.text}."
            if "money rate" in form.sorts:
                hint = f"The currency stands between the two: {item.text} EUR{after.text}."
        raise Misread(
            "unknown-unit",
            f"“{after.text}” is no ISO 4217 currency",
            hint,
            after.offset,
            after.length,
        )
    try:
        read_number(item.text, money=True)
    except Misread as error:
        raise Misread(error.code, error.message, error.hint, item.offset, item.length) from None
    return Measure(measure.numbers, "", "money")


def _without_unit(form: Form, item: DetailItem, items: Sequence[DetailItem]) -> Misread:
    after = _word_after(item, items)
    if after is not None and after.text.casefold() == "in" and after is not items[-1]:
        # `14 in all` are no inches.
        after = None
    if after is not None and after.text not in words_of_form(form):
        return Misread(
            "unknown-unit",
            f"“{after.text}” is no unit known here",
            partial(hint_for_unit, after.text, form),
            after.offset,
            after.length,
        )
    return Misread(
        "no-unit",
        f"“{item.text}” has no unit",
        f"Expected {expected(form)}.",
        item.offset,
        item.length,
    )


def _word_after(item: DetailItem, items: Sequence[DetailItem]) -> DetailItem | None:
    """The word that stands right behind a number, where its unit would be."""
    return next((i for i in items if i.sort == "word" and i.offset >= item.stop), None)


def as_list(form: Form, items: Sequence[DetailItem]) -> Measure:
    """Twelve numbers with one unit; where it stands behind each, it is the same."""
    flaw = next((item.flaw for item in items if item.flaw is not None), None)
    if flaw is not None:
        raise flaw
    measures = [item.measure for item in items if item.measure is not None]
    if len(measures) != 12 or len(items) != 12:
        odd = next((item for item in items if item.measure is None), None)
        place = (odd.offset, odd.length) if odd else extent(items)
        raise Misread(
            "wrong-list",
            f"{len(measures)} numbers stand here, not twelve"
            if odd is None
            else f"“{odd.text}” is no number",
            f"Expected {EXAMPLES['list']}.",
            *place,
        )
    last = measures[-1]
    for item, measure in zip(items, measures, strict=True):
        plain = measure.sort == "number" and measure.upper is None
        same = measure.sort == last.sort and measure.unit == last.unit and measure.upper is None
        if not (plain or same) or len(measure.numbers) > 1:
            raise Misread(
                "wrong-list",
                f"“{item.text}” is not one of twelve numbers",
                f"Expected {EXAMPLES['list']}.",
                item.offset,
                item.length,
            )
        if measure.numbers[0] < 0 and not form.negative:
            raise Misread(
                "negative-measure", f"“{item.text}” is below zero", "", item.offset, item.length
            )
    if last.sort != form.list_of:
        raise Misread(
            "no-unit" if last.sort == "number" else "wrong-measure",
            f"the list has no unit of {form.list_of}"
            if last.sort == "number"
            else f"“{last.unit}” is no unit of {form.list_of}",
            f"The last number carries it: {EXAMPLES[form.list_of]}.",
            items[-1].offset,
            items[-1].length,
        )
    return Measure(tuple(m.numbers[0] for m in measures), last.unit, "list")


def counted_measure(measure: Measure, item: DetailItem) -> Measure:
    return Measure(
        measure.numbers, measure.unit, measure.sort, measure.upper, measure.per, int(item.text)
    )


def two_measures(before: DetailItem, item: DetailItem) -> Misread:
    if thousands(before, item):
        return Misread(
            "thousands-separator",
            f"“{before.text} {item.text}” has a gap in it",
            f"Write {before.text}{item.text}.",
            before.offset,
            item.stop - before.offset,
        )
    return Misread(
        "two-measures",
        "a detail holds one measure",
        "Part them with a comma and a space.",
        item.offset,
        item.length,
    )


def thousands(one: DetailItem, other: DetailItem) -> bool:
    return (
        one.measure is not None
        and other.measure is not None
        and one.text.isdecimal()
        and len(one.text) <= 3
        and re.match(r"\d{3}(?!\d)", other.text) is not None
    )


_SIGNS = {"€": "EUR", "£": "GBP", "¥": "JPY", "$": "USD", "euro": "EUR", "euros": "EUR"}


# Words of three letters that stand behind a number and are no slip of a currency.
_NO_CODES = frozenset(
    (
        "dep",
        "inc",
        "tax",
        "due",
        "off",
        "all",
        "net",
        "now",
        "and",
        "for",
        "the",
        "bal",
        "est",
        "per",
    )
)


def hint_for_unit(written: str, form: Form) -> str:
    """The unit that was meant, or what the form takes."""
    if any(map(is_money, form.sorts)):
        code = _SIGNS.get(written.casefold(), "")
        if not code and len(written) == 3 and written.casefold() not in _NO_CODES:
            code = nearest(written, sorted(CURRENCIES))
        return f"Write {code}." if code else f"Expected {expected(form)}."
    try:
        unit_named(written)
    except Misread as error:
        if not error.hint.startswith("Units:"):
            return error.hint
    return f"Expected {expected(form)}."
