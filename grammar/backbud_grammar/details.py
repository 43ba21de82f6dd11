"""The text of one detail goes in, with the forms that fit its act; details come out.

The words of a detail may stand in any order where that stays clear; the longest known label wins.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from decimal import Decimal
from functools import cache, partial
from itertools import pairwise

from msgspec import Struct

from backbud_grammar.dates import read_span
from backbud_grammar.forms import ANY_WORDS, EXAMPLES, Form
from backbud_grammar.kinds import STRENGTHS
from backbud_grammar.measures import BY_WRITING, CURRENCIES, Measure, read_number, unit_named
from backbud_grammar.problems import Misread, did_you_mean, nearest
from backbud_grammar.syntax import Detail

# After one of these a reference or a purpose follows, and a new detail begins without a comma.
PREPOSITIONS = frozenset(
    ("into", "from", "to", "for", "by", "as", "at", "in", "with", "against", "of", "until", "mix")
)
SHARES = ("each", "together")
NO_HANDLES = PREPOSITIONS | {"on", "and", *SHARES}
# Longer ones are not cut into details that follow each other without a comma.
LONGEST_UNCUT = 12
SHOWN_DETAILS = 8
REMARK_HINT = "Free words go after “ -- ”."
COMMA_HINT = "Details are parted by a comma and a space."


class Item(Struct, frozen=True, gc=False):
    """One thing that stands in a detail. `sort`: word, quoted, date or measure.

    `end`: where it ends in the text, when that is not `offset` + its length (quotes are taken
    off). `flaw`: why a measure could not be read; it counts only where a measure is wanted.
    """

    sort: str
    text: str
    offset: int
    measure: Measure | None = None
    end: int = -1
    flaw: Misread | None = None

    @property
    def stop(self) -> int:
        return self.end if self.end >= 0 else self.offset + len(self.text)

    @property
    def length(self) -> int:
        return self.stop - self.offset


class Lexicon:
    """What can be written of an act or on a card's line: its forms, sorted for reading."""

    def __init__(self, forms: Sequence[Form]) -> None:
        self.forms = tuple(forms)
        self.bare = tuple(form for form in forms if not form.labels)
        self.with_part = frozenset(form.name for form in forms if form.part)
        self.single = frozenset(form.name for form in forms if _single(form))
        by_label: dict[str, list[Form]] = {}
        for form in forms:
            for label in form.labels:
                by_label.setdefault(label.casefold(), []).append(form)
        phrases = [
            word.casefold() for form in forms for word in form.words if form.words is not ANY_WORDS
        ]
        # Each label: padded for the search, its words, its forms, and the longer phrases of a
        # closed list that hold it ("by" in "by hand").
        self.labels: list[tuple[str, tuple[str, ...], list[Form], list[str]]] = [
            (
                f" {label} ",
                tuple(label.split()),
                of,
                [f" {p} " for p in phrases if len(p) > len(label) and f" {label} " in f" {p} "],
            )
            for label, of in by_label.items()
        ]
        self.sorts = frozenset(sort for form in forms for sort in form.sorts)
        self.openers = frozenset(label for label in by_label if label in PREPOSITIONS)
        self.long_phrases = frozenset(
            tuple(phrase.split()) for phrase in (*by_label, *phrases) if " " in phrase
        )
        # Forms that contradict each other, and bare measures that may have a part.
        self.not_with = [(form.name, other) for form in forms for other in form.not_with]
        self.placed = frozenset(form.name for form in self.bare if form.part and form.bound)
        # With none of these, and nothing twice, an act contradicts itself in nothing.
        self.watched = frozenset(
            [name for name, _ in self.not_with] + (["part"] if self.placed else [])
        )
        self.label_words = frozenset(words for _, words, _, _ in self.labels)
        # Whether a bare number says something to this act by itself.
        self.takes_number = any({"number", "money"} & set(form.sorts) for form in self.bare)
        self.label_heads = frozenset(words[0] for words in self.label_words)
        self.longest_label = max(map(len, self.label_words), default=0)

    def said(self, name: str) -> str:
        """How a message speaks of a form."""
        return next(
            (f"“{form.labels[0]}”" for form in self.forms if form.name == name and form.labels),
            "this",
        )

    def opened_by(self, items: Sequence[Item]) -> list[Form]:
        """The forms whose label stands first among the items."""
        words = tuple(item.text.casefold() for item in items[: self.longest_label])
        return [
            form for _, label, of, _ in self.labels if words[: len(label)] == label for form in of
        ]


def _single(form: Form) -> bool:
    """Whether a second detail of this form would be dropped by whoever asks for the first."""
    carries = bool(form.sorts or form.refers or form.date or form.reader)
    return carries and not (form.several or form.part or form.free)


_LEXICONS: dict[int, Lexicon] = {}


def lexicon_of(forms: tuple[Form, ...]) -> Lexicon:
    """Return the lexicon of a lasting tuple of forms, as the tables hold them."""
    # Hashing so many values takes longer than reading a detail. The lexicon keeps the tuple
    # alive, so its id names no other.
    lexicon = _LEXICONS.get(id(forms))
    if lexicon is None:
        lexicon = _LEXICONS[id(forms)] = Lexicon(forms)
    return lexicon


def part_at_commas(text: str) -> list[tuple[int, str]]:
    """Part the details of an act at comma and space, outside double quotes.

    >>> part_at_commas('same pot, 2,5 cm off below')
    [(0, 'same pot'), (10, '2,5 cm off below')]
    """
    pieces: list[tuple[int, str]] = []
    start, quoted = 0, False
    if '"' not in text and "\t" not in text and not text.endswith(","):
        # The common case, and many times faster.
        for piece in text.split(", "):
            pieces.append((start, piece))
            start += len(piece) + 2
        return [(at + len(p) - len(p.lstrip()), p.strip()) for at, p in pieces]
    for i, char in enumerate(text):
        if char == '"':
            quoted = not quoted
        elif char == "," and not quoted and text[i + 1 : i + 2] in ("", " ", "\t"):
            pieces.append((start, text[start:i]))
            start = i + 1
    pieces.append((start, text[start:]))
    out = []
    for offset, piece in pieces:
        bare = piece.lstrip()
        out.append((offset + len(piece) - len(bare), bare.rstrip()))
    return out


# ------------------------------------------------------------------ phrases


def read_items(items: Sequence[Item], forms: tuple[Form, ...] | Lexicon) -> tuple[Detail, ...]:
    """Read one comma-free detail; Misread says what was not understood and where."""
    lexicon = forms if isinstance(forms, Lexicon) else lexicon_of(forms)
    details: list[Detail] = []
    for phrase in _phrases(items, lexicon):
        details += _read_phrase(phrase, lexicon)
    return tuple(details)


def _phrases(items: Sequence[Item], lexicon: Lexicon) -> list[list[Item]]:
    """Begin a new phrase at each preposition that opens a form of this act.

    Free words go on over a preposition behind which nothing stands that its form could take.
    """
    openers = lexicon.openers
    words = [item.text.casefold() if item.sort == "word" else "" for item in items]
    if not any(word in openers for word in words[1:]):
        return [list(items)]
    starts = [
        i
        for i, word in enumerate(words)
        if i and word in openers and not _inside_phrase(words, i, lexicon.long_phrases)
    ]
    phrases = [list(items[a:b]) for a, b in zip([0, *starts], [*starts, len(items)], strict=True)]
    out = phrases[:1]
    for phrase in phrases[1:]:
        if _goes_on(out[-1], phrase, lexicon):
            out[-1].extend(phrase)
        else:
            out.append(phrase)
    return out


def _inside_phrase(words: Sequence[str], i: int, phrases: frozenset[tuple[str, ...]]) -> bool:
    return any(
        i >= at and tuple(words[i - at : i - at + len(phrase)]) == phrase
        for phrase in phrases
        for at in range(len(phrase))
    )


def _goes_on(above: Sequence[Item], phrase: Sequence[Item], lexicon: Lexicon) -> bool:
    """Whether a phrase is only more of the free words before it."""
    over = lexicon.opened_by(above) or [form for form in lexicon.bare if form.free]
    if not any(form.free for form in over):
        return False
    forms = lexicon.opened_by(phrase)
    return not any(form not in over and _could_take(form, phrase[1:]) for form in forms)


def _could_take(form: Form, items: Sequence[Item]) -> bool:
    if form.free or form.reader:
        return bool(items)
    words = sum(item.sort == "word" for item in items)
    return words == 1 if form.refers else words < len(items)


def _read_phrase(items: list[Item], lexicon: Lexicon) -> list[Detail]:
    """Read a phrase as one detail, or as several that follow each other without a comma.

    Free words leave what looks like a measure to the other forms of the act, as long as one of
    them takes it: `for repotting 120 EUR`, but `with 5 cm mulch`. A bare number belongs to the
    words, `at Hall 2`; where the act takes one too, nobody can tell and it is a problem.
    """
    whole = _read_one(items, lexicon, 0)
    if whole is not None:
        return [whole]
    free = _opens_free(items, lexicon)
    for loose in (0, 1) if free and not lexicon.takes_number else (0,):
        read = _cut(items, lexicon, loose)
        if read is not None:
            return read
    if free and not _could_measure(items, lexicon):
        whole = _read_one(items, lexicon, 2)
        if whole is not None:
            return [whole]
    raise _error_of(items, lexicon)


def _could_measure(items: Sequence[Item], lexicon: Lexicon) -> bool:
    """Whether a measure stands there that some form of the act takes."""
    sorts = {item.measure.sort for item in items if item.measure is not None}
    return ("number" in sorts and lexicon.takes_number) or not lexicon.sorts.isdisjoint(
        sorts - {"number"}
    )


def _opens_free(items: Sequence[Item], lexicon: Lexicon) -> bool:
    text = f" {' '.join(item.text.casefold() for item in items)} "
    return any(
        padded in text and any(form.free for form in of) for padded, _, of, _ in lexicon.labels
    )


def _cut(items: list[Item], lexicon: Lexicon, loose: int) -> list[Detail] | None:
    """Cut a phrase into details, the first as long as it can be; None where that fails."""
    count = len(items)
    if count > LONGEST_UNCUT:
        return None
    # What each tail is read as; each is tried once, from the last.
    tails: list[list[Detail] | None] = [None] * count + [[]]
    for start in range(count - 1, -1, -1):
        for end in range(count, start, -1):
            tail = tails[end]
            if tail is None or (end < count and _belongs(items[start:end], items[end], lexicon)):
                continue
            read = _read_one(items[start:end], lexicon, loose)
            if read is not None:
                tails[start] = [read, *tail]
                break
    names = [detail.name for detail in tails[0] or ()]
    # Neither two measures of one sort nor words that nobody knows follow without a comma.
    return tails[0] if len(set(names)) == len(names) else None


def _belongs(before: Sequence[Item], item: Item, lexicon: Lexicon) -> bool:
    """Whether no cut may stand here: in `1 200`, or between free words and a bare number."""
    return _thousands(before[-1], item) or (_is_plain_number(item) and _opens_free(before, lexicon))


def _thousands(one: Item, other: Item) -> bool:
    return (
        one.measure is not None
        and other.measure is not None
        and one.text.isdecimal()
        and len(one.text) <= 3
        and re.match(r"\d{3}(?!\d)", other.text) is not None
    )


# ------------------------------------------------------------------ one detail


def _read_one(items: list[Item], lexicon: Lexicon, loose: int) -> Detail | None:
    """Read all the items as one detail; None where no form takes them."""
    rest, share = _without_share(items)
    forms, values = _labelled(rest, lexicon) or (_likely(lexicon.bare, rest), rest)
    for form in forms:
        try:
            detail = _fit(form, values, loose)
        except Misread:
            continue
        start, length = _extent(items)
        return Detail(
            form.name,
            detail.words,
            detail.measure,
            detail.handle,
            "",
            detail.date,
            share,
            start,
            length,
        )
    return None


def _likely(bare: Sequence[Form], items: Sequence[Item]) -> list[Form]:
    """The bare forms that these items can be at all."""
    sorts = {item.measure.sort for item in items if item.measure is not None}
    if not sorts:
        return [form for form in bare if not form.bound or form.reader]
    if "number" in sorts:
        return [
            form
            for form in bare
            if form.sorts or form.date or form.reader or form.words == ANY_WORDS
        ]
    return [
        form
        for form in bare
        if form.reader or form.words == ANY_WORDS or not sorts.isdisjoint(form.sorts)
    ]


def _without_share(items: list[Item]) -> tuple[list[Item], str]:
    """Take `each` or `together` off a measure."""
    if not any(item.text in SHARES for item in items) or all(i.measure is None for i in items):
        return items, ""
    shares = [item.text for item in items if item.text in SHARES]
    return [item for item in items if item.text not in SHARES], shares[0]


class Placed(Struct, frozen=True, gc=False):
    """A detail with a part of the tree: what stands before `on`, the part, what follows it.

    `at`, `tail_at`: where `on` and what follows the part begin.
    """

    head: str
    part: str
    tail: str
    at: int
    tail_at: int


def without_part(text: str, lexicon: Lexicon) -> Placed | None:
    """Take the part of the tree off a detail; None where there is no `on`.

    The part ends where a label of this act opens another detail.

    >>> without_part("3 mm Al on left 2", Lexicon(()))
    Placed(head='3 mm Al', part='left 2', tail='', at=8, tail_at=17)
    """
    at = 0 if text.startswith("on ") else text.find(" on ") + 1
    if '"' in text or (at == 0 and not text.startswith("on ")):
        at = _outside_quotes(f" {text} ", " on ")
        if at < 0:
            return None
    words = text[at + 2 :].split()
    end = len(words)
    if end > 1:
        folded = [word.casefold() for word in words]
        if not lexicon.label_heads.isdisjoint(folded):
            end = next(
                (
                    i
                    for i in range(1, end)
                    if folded[i] in lexicon.label_heads and _label_at(folded, i, lexicon)
                ),
                end,
            )
    if end == len(words):
        return Placed(text[:at].strip(), " ".join(words), "", at, len(text))
    tail_at = [found.start() for found in _WORD.finditer(text, at + 2)][end]
    return Placed(text[:at].strip(), " ".join(words[:end]), text[tail_at:], at, tail_at)


def _label_at(words: list[str], i: int, lexicon: Lexicon) -> bool:
    return any(
        tuple(words[i : i + size]) in lexicon.label_words
        for size in range(1, lexicon.longest_label + 1)
    )


_WORD = re.compile(r"\S+")


def _outside_quotes(text: str, wanted: str) -> int:
    """Where `wanted` first stands outside double quotes, or -1."""
    at = text.find(wanted)
    while at >= 0 and text.count('"', 0, at) % 2:
        at = text.find(wanted, at + 1)
    return at


_MEASURE_IN_PART = re.compile(
    rf"\d[ \t]*(?:{'|'.join(sorted(map(re.escape, BY_WRITING), key=len, reverse=True))})(?![\w/])"
)


@cache
def flaw_of_part(part: str) -> Misread | None:
    """What is wrong with a part of a tree: a measure in it, or two parts in one."""
    found = _MEASURE_IN_PART.search(part)
    if found is not None:
        return Misread(
            "measure-in-part",
            "a measure stands after the part",
            "Write it first: 3 mm Al on left 2.",
            found.start(),
            len(found[0]),
        )
    if " on " in part:
        return Misread(
            "two-parts",
            "two parts stand in one detail",
            "Part them with a comma, each with its measure: 2 mm Al on left 1, 2 mm Al on left 2.",
            part.index(" on ") + 1,
            2,
        )
    return None


def _labelled(items: list[Item], lexicon: Lexicon) -> tuple[list[Form], list[Item]] | None:
    """Find the longest known label among the words; return its forms and what is left.

    A longer phrase out of a form's closed list wins over a label inside it ("by hand").
    """
    words = [item.text.casefold() if item.sort == "word" else "" for item in items]
    text = f" {' '.join(words)} "
    best: tuple[int, int, list[Form], list[str]] | None = None
    for padded, parts, forms, longer in lexicon.labels:
        if padded in text:
            size = len(parts)
            at = next(i for i in range(len(words)) if tuple(words[i : i + size]) == parts)
            if best is None or (size, -at) > best[:2]:
                best = (size, -at, forms, longer)
    if best is None or any(phrase in text for phrase in best[3]):
        return None
    size, at = best[0], -best[1]
    return best[2], items[:at] + items[at + size :]


def _fit(form: Form, items: list[Item], loose: int = 0) -> Detail:
    """Hold what is left after the label against the form; Misread where it does not fit."""
    if form.reader:
        return READERS[form.reader](form, items)
    if form.list_of:
        return Detail(form.name, measure=_as_list(form, items))
    date, rest = _date_among(form, items) if form.date else ("", items)
    measure, words = _sorted_out(form, rest, loose)
    handle, words = _reference(form, words) if form.refers else ("", words)
    text = _written(words)
    if words and not _words_allowed(form, text):
        raise _wrong_words(form, words, text)
    if form.bound and measure is None:
        raise Misread("no-measure", f"{_named(form)} needs {_expected(form)}", "", *_extent(items))
    if form.labels:
        if form.refers and not handle:
            raise Misread(
                "no-handle",
                f"{_named(form)} needs the handle of a {' or a '.join(form.refers)}",
                "",
                *_extent(items),
            )
        if form.words == ANY_WORDS and not words and measure is None:
            raise Misread("no-words", f"nothing stands after {_named(form)}", "", *_extent(items))
    elif not (measure or handle or words or date):
        raise Misread("unknown-detail", "nothing is said here")
    elif form.refers and form.bound and not handle:
        raise Misread(
            "no-handle",
            f"{items[0].text} of what?",
            f"Name the {' or the '.join(form.refers)} by its handle.",
            *_extent(items),
        )
    return Detail(form.name, text, measure, handle, "", date)


def _extent(items: Sequence[Item]) -> tuple[int, int]:
    if not items:
        return 0, 0
    return items[0].offset, items[-1].stop - items[0].offset


def _written(items: Sequence[Item]) -> str:
    """The items as they were written, with single spaces where there was a gap."""
    if len(items) < 2:
        return items[0].text if items else ""
    text = items[0].text
    for before, item in pairwise(items):
        text += item.text if before.stop == item.offset else f" {item.text}"
    return text


def _named(form: Form) -> str:
    return f"“{form.labels[0]}”" if form.labels else "this act"


def _expected(form: Form) -> str:
    return form.wanted() or "no more words"


def _date_among(form: Form, items: list[Item]) -> tuple[str, list[Item]]:
    """Take the date out of the items; Misread where one is wanted and another thing stands."""
    if len(items) == 1 and (items[0].sort == "date" or _is_year(items[0])):
        return items[0].text, []
    measured = any(item.measure is not None and item.measure.sort in form.sorts for item in items)
    if not form.labels or measured:
        return "", items
    if not items:
        raise Misread("no-date", f"{_named(form)} needs {_expected(form)}", "")
    text = _written(items)
    try:
        read_span(text)
    except Misread as error:
        hint = error.hint
        if form.sorts:
            hint = f"Expected {_expected(form)}."
        raise Misread(error.code, error.message, hint, *_extent(items)) from None
    return text, []


def _is_year(item: Item) -> bool:
    return len(item.text) == 4 and item.text.isdecimal()


def _sorted_out(form: Form, items: list[Item], loose: int) -> tuple[Measure | None, list[Item]]:
    """Part the items into the one measure and the words.

    `loose`: free words take numbers too (1), or measures of any sort (2).
    """
    if all(item.sort in ("word", "quoted") for item in items):
        return None, items
    measure: Measure | None = None
    words: list[Item] = []
    for i, item in enumerate(items):
        if item.sort in ("word", "quoted"):
            if measure is not None and _is_count(items, i):
                continue
            words.append(item)
        elif form.free and not form.sorts and _is_word(item, 2 if not form.labels else loose):
            words.append(item)
        elif item.flaw is not None:
            raise item.flaw
        elif item.measure is None:
            raise Misread(
                "unexpected-date", "no date is expected here", "", item.offset, item.length
            )
        elif measure is not None:
            if not _is_count(items, i - 1):
                raise _two_measures(items[i - 1], item)
            measure = _counted(measure, item)
        else:
            measure = _accepted(form, item, items)
    return measure, words


def _is_word(item: Item, loose: int) -> bool:
    """Whether free words take a date, a number or a measure as one of them."""
    return item.sort == "date" or loose > 1 or (loose > 0 and _is_plain_number(item))


def _is_count(items: Sequence[Item], i: int) -> bool:
    """Whether `x 2` stands here, behind a measure and its metal: `2 mm Al x 2`."""
    return (
        0 < i + 1 < len(items)
        and items[i].text in ("x", "×")
        and _COUNT.fullmatch(items[i + 1].text) is not None
    )


_COUNT = re.compile(r"[1-9][0-9]{0,3}")


def _counted(measure: Measure, item: Item) -> Measure:
    return Measure(
        measure.numbers, measure.unit, measure.sort, measure.upper, measure.per, int(item.text)
    )


def _two_measures(before: Item, item: Item) -> Misread:
    if _thousands(before, item):
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


def _accepted(form: Form, item: Item, items: Sequence[Item]) -> Measure:
    measure = item.measure
    assert measure is not None
    if measure.sort in ("money", "money rate") and measure.unit not in CURRENCIES:
        raise Misread(
            "unknown-unit",
            f"“{measure.unit}” is no unit or ISO 4217 currency",
            partial(_hint_for_unit, measure.unit, form),
            item.offset,
            item.length,
        )
    if not form.negative and any(number < 0 for number in measure.numbers):
        raise Misread(
            "negative-measure",
            f"“{item.text}” is below zero",
            f"Expected {_expected(form)}." if form.sorts else "",
            item.offset,
            item.length,
        )
    if measure.sort == "number" and "number" not in form.sorts and form.sorts:
        if "money" in form.sorts:
            return _in_settings_currency(form, item, items)
        raise _without_unit(form, item, items)
    if measure.sort not in form.sorts:
        if not form.sorts:
            raise Misread(
                "unexpected-measure",
                f"{_named(form)} takes no measure",
                'Put a comma before it, or the words in "double quotes".',
                item.offset,
                item.length,
            )
        raise Misread(
            "wrong-measure",
            f"“{item.text}” is not what {_named(form)} takes",
            f"Expected {_expected(form)}.",
            item.offset,
            item.length,
        )
    if form.limits or form.whole:
        _check_limits(form, item, measure)
    return measure


def _check_limits(form: Form, item: Item, measure: Measure) -> None:
    numbers = [*measure.numbers, *([measure.upper] if measure.upper is not None else [])]
    if measure.sort == "fraction":
        numbers = [100 * numbers[0] / numbers[1]]
    if (
        form.limits
        and measure.sort in ("number", "share", "fraction", "angle")
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


def _in_settings_currency(form: Form, item: Item, items: Sequence[Item]) -> Measure:
    measure = item.measure
    assert measure is not None
    after = _word_after(item, items)
    if after is not None and form.words != ANY_WORDS:
        raise Misread(
            "unknown-unit",
            f"“{after.text}” is no ISO 4217 currency",
            partial(_hint_for_unit, after.text, form),
            after.offset,
            after.length,
        )
    try:
        read_number(item.text, money=True)
    except Misread as error:
        raise Misread(error.code, error.message, error.hint, item.offset, item.length) from None
    return Measure(measure.numbers, "", "money")


def _without_unit(form: Form, item: Item, items: Sequence[Item]) -> Misread:
    after = _word_after(item, items)
    if after is not None and after.text not in _own_words(form):
        return Misread(
            "unknown-unit",
            f"“{after.text}” is no unit known here",
            partial(_hint_for_unit, after.text, form),
            after.offset,
            after.length,
        )
    return Misread(
        "no-unit",
        f"“{item.text}” has no unit",
        f"Expected {_expected(form)}.",
        item.offset,
        item.length,
    )


def _word_after(item: Item, items: Sequence[Item]) -> Item | None:
    """The word that stands right behind a number, where its unit would be."""
    return next((i for i in items if i.sort == "word" and i.offset >= item.stop), None)


_SIGNS = {"€": "EUR", "£": "GBP", "¥": "JPY", "$": "USD", "euro": "EUR", "euros": "EUR"}


def _hint_for_unit(written: str, form: Form) -> str:
    """The unit that was meant, or what the form takes."""
    if "money" in form.sorts or "money rate" in form.sorts:
        code = _SIGNS.get(written.casefold()) or nearest(written, sorted(CURRENCIES))
        return f"Write {code}." if code else f"Expected {_expected(form)}."
    try:
        unit_named(written)
    except Misread as error:
        if not error.hint.startswith("Units:"):
            return error.hint
    return f"Expected {_expected(form)}."


def _as_list(form: Form, items: Sequence[Item]) -> Measure:
    """Twelve numbers with one unit; where it stands behind each, it is the same."""
    flaw = next((item.flaw for item in items if item.flaw is not None), None)
    if flaw is not None:
        raise flaw
    measures = [item.measure for item in items if item.measure is not None]
    if len(measures) != 12 or len(items) != 12:
        odd = next((item for item in items if item.measure is None), None)
        place = (odd.offset, odd.length) if odd else _extent(items)
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


def _reference(form: Form, words: list[Item]) -> tuple[str, list[Item]]:
    """The first word that is none of the form's own is the handle; `the` may stand before it."""
    own = _own_words(form)
    for i, item in enumerate(words):
        if item.text in NO_HANDLES:
            break
        if item.text not in own and not (item.text == "the" and i + 1 < len(words)):
            return item.text, [w for w in words[:i] if w.text != "the"] + words[i + 1 :]
    return "", words


def _own_words(form: Form) -> set[str]:
    return {word for phrase in form.words for word in phrase.split()}


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


# ------------------------------------------------------------------ what is not understood


def _error_of(items: list[Item], lexicon: Lexicon) -> Misread:
    """The one thing to tell of a detail that fits no form."""
    values, _ = _without_share(items)
    labelled = _labelled(values, lexicon)
    if labelled:
        error = _first_error(*labelled)
        if error is not None:
            if error.length == 0:
                error.offset, error.length = _extent(items)
            return error
    error = _first_error(_likely(lexicon.bare, values), values)
    known = {word.casefold() for form in lexicon.bare for word in _own_words(form)}
    odd = next(
        (
            i
            for i, item in enumerate(values)
            if item.sort in ("word", "quoted") and item.text.casefold() not in known
        ),
        None,
    )
    if error is None and len(lexicon.bare) == 1:
        error = _first_error(lexicon.bare, values)
    if error is not None and len(lexicon.bare) == 1 and error.code != "unknown-detail":
        return error
    measured = any(item.sort == "measure" for item in values)
    if measured and (odd is None or (odd and _is_plain_number(values[odd - 1]))):
        wrong = _first_error((_any_of(lexicon.bare),), values)
        if lexicon.bare and wrong and wrong.code not in ("unknown-detail", "unexpected-measure"):
            return wrong
    if error is not None and error.code in TELLING and odd is None:
        return error
    before = values[odd - 1].measure if odd else None
    if before is not None and any(before.sort in form.sorts for form in lexicon.bare):
        return _unknown(values[odd:], lexicon, before)
    start = odd if odd and before is None else 0
    return _unknown(values[start:], lexicon)


def _first_error(forms: Sequence[Form], items: list[Item]) -> Misread | None:
    """Why the first of the forms does not take the items."""
    for form in forms:
        try:
            _fit(form, items)
        except Misread as error:
            return error
    return None


# These say more than that something is unknown.
TELLING = ("no-measure", "no-handle", "out-of-range")


def _is_plain_number(item: Item) -> bool:
    return item.measure is not None and item.measure.sort == "number"


def _any_of(bare: Sequence[Form]) -> Form:
    """All bare forms of an act as one, to say what any of them would have taken."""
    return Form(
        "act",
        (),
        tuple(dict.fromkeys(sort for form in bare for sort in form.sorts)),
        words=tuple(word for form in bare for word in form.words),
        bound=True,
    )


def _unknown(items: Sequence[Item], lexicon: Lexicon, before: Measure | None = None) -> Misread:
    """The problem of items that are no detail; `before`: the measure that stands before them."""
    start, length = _extent(items)
    text = _written(items)
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


def _hint_for_unknown(
    text: str, items: Sequence[Item], lexicon: Lexicon, before: Measure | None
) -> str:
    for form in lexicon.forms:
        if form.reader == "wedges" and all(i.text.casefold() in WEDGES for i in items):
            return "Wedges stand together without commas: wedges N E S."
    if items[0].text == "on":
        return f"This act takes no part of the tree. {REMARK_HINT}"
    known = [label for form in lexicon.forms for label in form.labels]
    known += [word for form in lexicon.forms if form.words != ANY_WORDS for word in form.words]
    words = [text, *(item.text for item in items if item.sort == "word" and len(item.text) > 2)]
    near = next(filter(None, (did_you_mean(word, known) for word in words)), "")
    if near:
        return f"{near} {REMARK_HINT}"
    if lexicon.with_part and not _PART_WORDS.isdisjoint(words):
        return f"A part of the tree stands after “on”: on {text}."
    beside = [
        word
        for form in lexicon.bare
        if before is not None and before.sort in form.sorts
        for word in form.words
    ]
    if beside:
        return f"Here may follow: {', '.join(beside)}. {REMARK_HINT}"
    return f"{expected_of(lexicon.forms)} {REMARK_HINT}"


_PART_WORDS = frozenset(
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
        if form.name != "by"
    )
    shown = list(takes)[:SHOWN_DETAILS]
    more = ", …" if len(takes) > SHOWN_DETAILS else "."
    return f"Expected: {', '.join(shown)}{more}"


def _wrong_words(form: Form, words: Sequence[Item], text: str) -> Misread:
    if form.labels:
        return Misread(
            "unknown-word",
            f"“{text}” is not understood after {_named(form)}",
            partial(_hint_for_words, text, form),
            *_extent(words),
        )
    return Misread(
        "unknown-detail",
        f"“{text}” is not understood here",
        partial(did_you_mean, text, form.words, f"Expected: {_expected(form)}."),
        *_extent(words),
    )


def _hint_for_words(text: str, form: Form) -> str:
    near = did_you_mean(text, form.words)
    if near:
        return near
    wanted = form.wanted()
    after = f" and {wanted}" if wanted else ", and no more"
    return f"Expected: {form.labels[0]}{after}. {REMARK_HINT}"


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


# ------------------------------------------------------------------ readers of their own

# As seen from above with the front at the bottom; the clock has 6 at the front.
WEDGES: Mapping[str, str] = {
    **{name.lower(): name for name in ("N", "NE", "E", "SE", "S", "SW", "W", "NW")},
    **{str(hour): str(hour) for hour in range(1, 13)},
    "back": "N",
    "rear": "N",
    "right": "E",
    "front": "S",
    "left": "W",
    "front-left": "SW",
    "front-right": "SE",
    "back-left": "NW",
    "back-right": "NE",
}
_BETWEEN_WEDGES = ("o'clock", "o’clock", "and", "the", "&", "+")


def _wedges(form: Form, items: list[Item]) -> Detail:
    """`N E S`, `front left`, `6 o'clock`: the wedges, each in one way, in the order written."""
    found: dict[str, None] = {}
    for item in items:
        for at, word in _words_at(item):
            folded = word.casefold()
            if folded in _BETWEEN_WEDGES:
                continue
            if folded not in WEDGES:
                raise Misread(
                    "unknown-wedge",
                    f"“{word}” is no wedge of the root ball",
                    "Wedges: N NE E SE S SW W NW, front back left right, or the clock "
                    "1 to 12; the front is S or 6.",
                    at,
                    len(word),
                )
            found[WEDGES[folded]] = None
    if not found:
        raise Misread("no-words", "no wedge is named", "For example: wedges N E S.")
    return Detail(form.name, " ".join(found))


def _words_at(item: Item) -> Iterator[tuple[int, str]]:
    """The words of an item that commas without a space may hold: `N,E,S`."""
    at = item.offset
    for word in item.text.split(","):
        if word:
            yield at, word
        at += len(word) + 1


SCORES = {"1", "2", "3", "4", "5"}


def _ingredient(form: Form, items: list[Item]) -> Detail:
    """`akadama 2`, `pumice 3-6 mm 1/2`: a name, and last its parts by volume."""
    if items[-1].text in ("part", "parts"):
        items = items[:-1] or items
    last, name = items[-1], _written(items[:-1])
    if last.flaw is not None:
        raise last.flaw
    if last.measure is None:
        raise Misread(
            "no-measure",
            f"“{_written(items)}” does not say how much",
            "Its parts by volume stand last: akadama 2.",
            *_extent(items),
        )
    if not name:
        raise Misread(
            "no-words", "an ingredient has a name", "For example: akadama 2.", *_extent(items)
        )
    return Detail(form.name, name, _accepted(form, last, items))


def _zone(form: Form, items: list[Item]) -> Detail:
    """`apex 4`, `lower left weak`, `3`: a zone, and last how it grows."""
    items = [item for item in items if item.text != "on"]
    if not items:
        raise Misread("no-score", "nothing is said here", f"Expected {_expected(form)}.")
    last, rest = items[-1], items[:-1]
    if not _is_score(last) and rest and _is_score(items[0]):
        last, rest = items[0], items[1:]
    if last.text.isdecimal() and last.text not in SCORES and not _is_score(items[0]):
        raise Misread(
            "out-of-range",
            f"“{last.text}” is out of range",
            "Vigour is from 1 to 5.",
            last.offset,
            last.length,
        )
    if not _is_score(last):
        near = did_you_mean(last.text, STRENGTHS, "Write 1 to 5, or weak, fair, strong: apex 4.")
        raise Misread(
            "no-score", f"“{_written(items)}” does not say how it grows", near, *_extent(items)
        )
    zone = _written(rest)
    if last.text in SCORES:
        return Detail(form.name, zone, Measure((Decimal(last.text),), "", "number"))
    return Detail(form.name, f"{zone} {last.text.casefold()}".strip())


def _is_score(item: Item) -> bool:
    return item.text in SCORES or item.text.casefold() in STRENGTHS


_TIME = re.compile(r"([01]?\d|2[0-3]):([0-5]\d)", re.ASCII)


def _time(form: Form, items: list[Item]) -> Detail:
    """`14:30`: the time of day."""
    written = _written(items)
    found = _TIME.fullmatch(written)
    if found is None:
        raise Misread(
            "bad-time", f"“{written}” is no time of day", "Write it as 14:30.", *_extent(items)
        )
    return Detail(form.name, f"{int(found[1]):02}:{found[2]}")


READERS: Mapping[str, Callable[[Form, list[Item]], Detail]] = {
    "ingredient": _ingredient,
    "wedges": _wedges,
    "zone": _zone,
    "time": _time,
}
