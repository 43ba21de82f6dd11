"""The text of one detail goes in, with the forms that fit its act; details come out.

The words of a detail may stand in any order where that stays clear; the longest known label wins.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import partial

from msgspec import Struct

from backbud_grammar.forms import ANY_WORDS, EXAMPLES, Form
from backbud_grammar.measures import BY_WRITING, CURRENCIES, Measure
from backbud_grammar.problems import Misread, did_you_mean
from backbud_grammar.syntax import Detail

# After one of these a reference or a purpose follows, and a new detail begins without a comma.
PREPOSITIONS = frozenset(
    ["into", "from", "to", "for", "by", "as", "at", "in", "with", "against", "of", "until", "mix"]
)
SHARES = ("each", "together")
NUMERIC = ("number", "fraction")


class Item(Struct, frozen=True, gc=False):
    """One thing that stands in a detail. `sort`: word, quoted, date or measure."""

    sort: str
    text: str
    offset: int
    measure: Measure | None = None

    @property
    def length(self) -> int:
        return len(self.text)


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


def read_items(items: Sequence[Item], forms: Sequence[Form]) -> tuple[Detail, ...]:
    """Read one comma-free detail; Misread says what was not understood and where."""
    details: list[Detail] = []
    for phrase in _phrases(items, forms):
        details += _read_phrase(phrase, forms)
    return tuple(details)


def openers_of(forms: Sequence[Form]) -> frozenset[str]:
    """The prepositions that begin a new detail of this act without a comma."""
    return frozenset(label for form in forms for label in form.labels if label in PREPOSITIONS)


def _phrases(items: Sequence[Item], forms: Sequence[Form]) -> list[list[Item]]:
    """Begin a new phrase at each preposition that opens a form of this act."""
    openers = openers_of(forms)
    if not any(item.text.casefold() in openers for item in items[1:]):
        return [list(items)]
    longer = {
        tuple(phrase.split())
        for form in forms
        for phrase in (*form.labels, *form.words)
        if " " in phrase
    }
    phrases: list[list[Item]] = [[]]
    greedy = False
    for i, item in enumerate(items):
        word = item.text.casefold()
        if (
            item.sort == "word"
            and word in openers
            and phrases[-1]
            and not greedy
            and not _inside_label(items, i, longer)
        ):
            phrases.append([])
        phrases[-1].append(item)
        if len(phrases[-1]) == 1:
            # A form that takes any words keeps them all, prepositions included.
            greedy = any(
                form.words == ANY_WORDS and not form.refers and word in form.labels
                for form in forms
            )
    return phrases


def _inside_label(items: Sequence[Item], i: int, longer: Iterable[tuple[str, ...]]) -> bool:
    for label in longer:
        for at in range(len(label)):
            here = items[max(i - at, 0) : i - at + len(label)] if i >= at else ()
            if tuple(it.text.casefold() for it in here) == label:
                return True
    return False


def _read_phrase(items: list[Item], forms: Sequence[Form]) -> list[Detail]:
    """Read a phrase as one detail, or as two that follow each other without a comma."""
    try:
        return _read_one(items, forms)
    except Misread as error:
        for cut in range(len(items) - 1, 0, -1):
            try:
                return _read_one(items[:cut], forms) + _read_phrase(items[cut:], forms)
            except Misread:
                continue
        raise error


def _read_one(items: list[Item], forms: Sequence[Form]) -> list[Detail]:
    start, length = _extent(items)
    rest, share = _without_share(items)
    labelled = _labelled(rest, forms)
    bare = [form for form in forms if not form.labels]
    candidates = [labelled] if labelled else [(form, rest) for form in bare]
    for form, values in candidates:
        try:
            detail = _fit(form, values)
        except Misread:
            continue
        return [Detail(form.name, detail.words, detail.measure, detail.handle, "",
                       detail.date, share, start, length)]
    if labelled:
        _fit(*labelled)
    elif bare and any(item.measure for item in rest):
        _fit(_any_of(bare), rest)
    raise _unknown(items, forms, start, length)


def _any_of(forms: Sequence[Form]) -> Form:
    """All bare forms of an act as one, to say what any of them would have taken."""
    return Form(
        "act",
        (),
        tuple(dict.fromkeys(sort for form in forms for sort in form.sorts)),
        words=tuple(word for form in forms for word in form.words),
        date=any(form.date for form in forms),
    )


def _unknown(items: Sequence[Item], forms: Sequence[Form], start: int, length: int) -> Misread:
    text = " ".join(item.text for item in items)
    if not forms:
        return Misread("unknown-detail", "this act takes no details",
                       "Write it as a remark, after “ -- ”.", start, length)
    return Misread("unknown-detail", f"“{text}” is not understood here",
                   partial(_expected_of, text, items, forms), start, length)


def _expected_of(text: str, items: Sequence[Item], forms: Sequence[Form]) -> str:
    known = [label for form in forms for label in form.labels]
    known += [word for form in forms if form.words != ANY_WORDS for word in form.words]
    words = [text, *(item.text for item in items if item.sort == "word" and len(item.text) > 2)]
    hint = next(filter(None, (did_you_mean(word, known) for word in words)), "")
    if not hint:
        expected = dict.fromkeys(
            form.labels[0] if form.labels else form.shown() for form in forms if form.name != "by"
        )
        hint = f"Expected: {', '.join(expected)}."
    return f"{hint} Free words go after “ -- ”."


def _without_share(items: list[Item]) -> tuple[list[Item], str]:
    kept = [item for item in items if item.text not in SHARES]
    shares = [item.text for item in items if item.text in SHARES]
    return (kept, shares[0]) if shares and kept else (items, "")


def without_part(text: str, forms: Sequence[Form]) -> tuple[str, str, str]:
    """Part a detail into what stands before `on`, the part of the tree, and what follows it.

    The part ends where a preposition of this act opens another detail.

    >>> without_part("3 mm Al on left 2", ())
    ('3 mm Al', 'left 2', '')
    """
    head, _, tail = f" {text}".partition(" on ")
    words = tail.split()
    openers = openers_of(forms)
    end = next((i for i, word in enumerate(words) if i and word.casefold() in openers), len(words))
    return head.strip(), " ".join(words[:end]), " ".join(words[end:])


def _labelled(items: list[Item], forms: Sequence[Form]) -> tuple[Form, list[Item]] | None:
    """Find the longest known label among the words; return its form and what is left.

    A longer phrase out of a form's closed list wins over a label inside it ("by hand").
    """
    words = [item.text.casefold() if item.sort == "word" else "" for item in items]
    text = f" {' '.join(words)} "
    best: tuple[int, int, Form, str] | None = None
    for form in forms:
        for label in form.labels:
            folded = label.casefold()
            if f" {folded} " in text:
                parts = folded.split()
                at = next(i for i in range(len(words)) if words[i : i + len(parts)] == parts)
                if best is None or (len(parts), -at) > best[:2]:
                    best = (len(parts), -at, form, folded)
    if best is None or _inside_phrase(best[3], text, forms):
        return None
    size, at = best[0], -best[1]
    return best[2], items[:at] + items[at + size :]


def _inside_phrase(label: str, text: str, forms: Sequence[Form]) -> bool:
    return any(
        len(phrase) > len(label) and f" {label} " in f" {phrase} " and f" {phrase} " in text
        for form in forms
        for phrase in form.words
    )


def _fit(form: Form, items: list[Item]) -> Detail:
    """Hold what is left after the label against the form; Misread where it does not fit."""
    measure, words, date = _sorted_out(form, items)
    handle, words = _reference(form, words)
    text = " ".join(item.text for item in words)
    if words and not _words_allowed(form, text):
        raise _wrong_words(form, words, text)
    if form.bound and measure is None:
        raise Misread("no-measure", f"{_named(form)} needs {_expected(form)}",
                      f"Expected {_expected(form)}.", *_extent(items))
    if not form.labels and not (measure or handle or words or date):
        raise Misread("unknown-detail", "nothing is said here")
    if form.labels and form.date and not (date or measure):
        raise Misread("no-date", f"{_named(form)} needs a date",
                      "Write it as 2027-03-06, 2027-03 or 2027.", *_extent(items))
    if form.labels and form.refers and not handle:
        raise Misread("no-handle", f"{_named(form)} needs a {' or '.join(form.refers)}",
                      "Give its handle.", *_extent(items))
    if form.labels and form.words == ANY_WORDS and not words and not measure:
        raise Misread("no-words", f"nothing stands after “{form.labels[0]}”", "", *_extent(items))
    return Detail(form.name, text, measure, handle, "", date)


def _extent(items: Sequence[Item]) -> tuple[int, int]:
    if not items:
        return 0, 0
    return items[0].offset, items[-1].offset + items[-1].length - items[0].offset


def _named(form: Form) -> str:
    return f"“{form.labels[0]}”" if form.labels else f"this {form.name}"


def _expected(form: Form) -> str:
    return " or ".join(EXAMPLES[sort] for sort in form.sorts)


def _sorted_out(form: Form, items: list[Item]) -> tuple[Measure | None, list[Item], str]:
    """Part the items into the one measure, the words, and the date."""
    if form.sorts == ("list",):
        return _as_list(items), [], ""
    measure: Measure | None = None
    words: list[Item] = []
    date = ""
    for item in items:
        numeric = item.measure is not None and item.measure.sort in NUMERIC
        if form.date and not date and (item.sort == "date" or (numeric and len(item.text) == 4)):
            date = item.text
        elif item.sort == "date":
            if form.words == ANY_WORDS:
                words.append(item)
            else:
                raise Misread("unexpected-date", "no date is expected here", "",
                              item.offset, item.length)
        elif item.measure is None or (form.words == ANY_WORDS and numeric and "number" not in form.sorts):
            words.append(item)
        elif measure is not None:
            raise Misread("two-measures", "a detail holds one measure",
                          "Part them with a comma and a space.", item.offset, item.length)
        else:
            measure = _accepted(form, item, items)
    return measure, words, date


def _accepted(form: Form, item: Item, items: Sequence[Item]) -> Measure:
    measure = item.measure
    assert measure is not None
    if measure.sort == "money" and measure.unit not in CURRENCIES:
        raise Misread("unknown-unit", f"“{measure.unit}” is no unit or ISO 4217 currency",
                      partial(did_you_mean, measure.unit, [*BY_WRITING, *CURRENCIES]),
                      item.offset, item.length)
    if not form.negative and any(number < 0 for number in measure.numbers):
        raise Misread("negative-measure", f"“{item.text}” is below zero",
                      f"Expected {_expected(form)}." if form.sorts else "",
                      item.offset, item.length)
    sort = measure.sort
    if sort == "number" and "money" in form.sorts and "number" not in form.sorts:
        return Measure(measure.numbers, "", "money", measure.upper)
    if sort == "number" and sort not in form.sorts and form.sorts:
        after = next((i for i in items if i.sort == "word" and i.offset >= item.offset), None)
        if after is not None and after.text not in form.words:
            raise Misread("unknown-unit", f"“{after.text}” is no unit known here",
                          partial(did_you_mean, after.text, BY_WRITING,
                                  f"Expected {_expected(form)}."),
                          after.offset, after.length)
        raise Misread("no-unit", f"“{item.text}” has no unit", f"Expected {_expected(form)}.",
                      item.offset, item.length)
    if sort not in form.sorts:
        if not form.sorts:
            raise Misread("unexpected-measure", f"{_named(form)} takes no measure", "",
                          item.offset, item.length)
        raise Misread("wrong-measure", f"“{item.text}” is not what {_named(form)} takes",
                      f"Expected {_expected(form)}.", item.offset, item.length)
    return measure


def _as_list(items: Sequence[Item]) -> Measure:
    measures = [item.measure for item in items if item.measure is not None]
    if len(measures) != 12 or len(items) != 12:
        raise Misread("wrong-list", f"{len(measures)} numbers stand here, not twelve",
                      f"Expected {EXAMPLES['list']}.", *_extent(items))
    numbers = tuple(m.numbers[0] for m in measures)
    return Measure(numbers, measures[-1].unit, "list")


def _reference(form: Form, words: list[Item]) -> tuple[str, list[Item]]:
    """The first word that is none of the form's own is the handle."""
    if not form.refers:
        return "", words
    own = {word for phrase in form.words for word in phrase.split()}
    for i, item in enumerate(words):
        if item.text not in own:
            return item.text, words[:i] + words[i + 1 :]
    return "", words


def _words_allowed(form: Form, text: str) -> bool:
    if form.words == ANY_WORDS:
        return True
    return _made_of(text.casefold(), [word.casefold() for word in form.words])


def _made_of(text: str, phrases: list[str]) -> bool:
    """Whether the text is one or more of the phrases, one after another."""
    if not text:
        return True
    return any(
        (text == phrase or text.startswith(phrase + " "))
        and _made_of(text[len(phrase) :].lstrip(), phrases)
        for phrase in phrases
    )


def _wrong_words(form: Form, words: Sequence[Item], text: str) -> Misread:
    if form.labels:
        return Misread("unknown-word", f"“{text}” is not understood after “{form.labels[0]}”",
                       partial(did_you_mean, text, form.words, f"Expected: {form.shown()}."),
                       *_extent(words))
    return Misread("unknown-detail", f"“{text}” is not understood here",
                   partial(did_you_mean, text, form.words), *_extent(words))
