"""The text of an act, a card's line or a subject line goes in; details and flaws come out."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from decimal import Decimal
from functools import cache
from typing import TYPE_CHECKING, Any, Literal

from msgspec import Struct
from msgspec.structs import replace

from backbud_grammar.acts import DAY_FORMS
from backbud_grammar.details import (
    REMARK_HINT,
    SHARES,
    Item,
    Lexicon,
    expected_of,
    flaw_of_part,
    part_at_commas,
    read_items,
    slip_in,
    without_part,
)
from backbud_grammar.forms import ActForm, Form, KindForm
from backbud_grammar.measures import BY_WRITING, Measure, read_number, unit_named
from backbud_grammar.problems import Flaw, Misread, did_you_mean, nearest
from backbud_grammar.syntax import (
    Detail,
    Selection,
    Subjects,
)

if TYPE_CHECKING:
    from lark import Lark, Token

Start = Literal["subjects", "detail"]

# ------------------------------------------------------------------ details and subject lines


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
        return Reading((Detail(form.name, words=value, offset=at, length=len(value)),))
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
    words = text.split()
    best: tuple[int, Form | None] = 0, None
    for form in kind.forms:
        for label in form.labels:
            size = label.count(" ") + 1
            if size > best[0] and " ".join(words[:size]).casefold() == label.casefold():
                best = size, form
    size, found = best
    written = re.match(rf"(?:\S+\s*){{{size}}}(?<=\S)", text) if size else None
    return (written[0] if written else ""), found


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
        did_you_mean(word, labels, f"Labels: {', '.join(labels)}."),
    )


class ActReading(Struct, frozen=True, gc=False):
    """The details of an act as read; `named` is the act that a plan, a skip, a correction names.

    `starts`: for each detail where its piece begins in the text; a detail's own offset counts
    from there. Flaws have `line` 0 and count from the text's first character.
    """

    named: str
    details: tuple[Detail, ...]
    starts: tuple[int, ...]
    flaws: tuple[Flaw, ...]


class Reading(Struct, frozen=True, array_like=True, gc=False):
    """What one piece between commas was read as: its details, or the flaw it has."""

    details: tuple[Detail, ...] = ()
    flaw: Flaw | None = None


# To find the act that a detail was meant for takes some milliseconds.
MOST_SOUGHT = 50


class Details:
    """Reads the details of acts, each piece once; `kept` can be handed on to the next run."""

    def __init__(
        self,
        acts: Mapping[str, ActForm],
        kept: dict[str, Reading] | None = None,
        kept_subjects: dict[str, Subjects] | None = None,
    ) -> None:
        self.acts = acts
        self.kept: dict[str, Reading] = {} if kept is None else kept
        self.kept_subjects: dict[str, Subjects] = {} if kept_subjects is None else kept_subjects
        self._recalled = (len(self.kept), len(self.kept_subjects))
        self._whole: dict[tuple[str, str], ActReading] = {}
        self._lexicons: dict[str, Lexicon] = {}
        self._sought = 0

    @property
    def learned(self) -> bool:
        """Whether anything was read that was not handed over at the start."""
        return self._recalled != (len(self.kept), len(self.kept_subjects))

    def weather(self, piece: str) -> Reading:
        """Read one piece of a day's weather."""
        return self._kept("day", piece, self._lexicon("day", DAY_FORMS))

    def subjects(self, text: str) -> Subjects | Flaw:
        """Read a subject line."""
        subjects = self.kept_subjects.get(text)
        if subjects is None:
            read = read_subjects(text)
            if isinstance(read, Flaw):
                return read
            subjects = self.kept_subjects[text] = read
        return subjects

    def card_line(self, kind: KindForm, text: str) -> Reading:
        """Read a card's line."""
        kept_as = f"card {kind.kind}\0{text}"
        reading = self.kept.get(kept_as)
        if reading is None:
            reading = self.kept[kept_as] = read_card_line(kind, text)
        return reading

    def of(self, form: ActForm, text: str) -> ActReading:
        """Read the text after an act word."""
        key = (form.word, text)
        reading = self._whole.get(key)
        if reading is None:
            reading = self._whole[key] = self._read(form, text)
        return reading

    def _read(self, form: ActForm, text: str) -> ActReading:
        if form.prose:
            return prose_reading(text)
        if form.names_act:
            return self._read_of_act(form, text)
        flaws = () if text or not form.needs_detail else (_nothing_said(form),)
        return self._pieces("", form.word, text, form.forms, flaws)

    def _read_of_act(self, form: ActForm, text: str) -> ActReading:
        """Read what is planned, skipped, put off or corrected: an act and its details."""
        word = text.split(None, 1)[0].rstrip(",") if text else ""
        named = self.acts.get(word.casefold())
        corrects = any(detail.date and not detail.labels for detail in form.forms)
        no_work = named is not None and (named.prose or named.names_act)
        if named is None or named is form or (no_work and not corrects):
            example = f"For example: {form.word} {form.example}."
            works = [bare for bare, act in self.acts.items() if not act.names_act]
            hint = did_you_mean(word, works, example) if word and named is None else example
            message = (
                f"“{word}” is no act known here"
                if word and named is None
                else f"“{form.word}” needs a work after it"
            )
            return ActReading("", (), (), (Flaw("unknown-act", 0, 0, len(word), message, hint),))
        # What stood before the details of the named act is blanked, so that offsets stay.
        rest = " " * len(word) + text[len(word) :]
        if rest.lstrip().startswith(","):
            rest = rest.replace(",", " ", 1)
        if named.prose:
            reading = _corrected_prose(named, rest)
        else:
            reading = self._pieces(
                named.word, f"{form.word} {named.word}", rest, (*form.forms, *named.forms), ()
            )
        if corrects and not any(d.name == "date" for d in reading.details):
            return ActReading(
                named.word,
                reading.details,
                reading.starts,
                (
                    *reading.flaws,
                    Flaw(
                        "no-date",
                        0,
                        0,
                        len(word),
                        f"which “{word}” is corrected? Its date is missing",
                        f"For example: {form.word} {word} 2027-03-06, not done.",
                    ),
                ),
            )
        return reading

    def _pieces(
        self, named: str, key: str, text: str, forms: tuple[Form, ...], found: tuple[Flaw, ...]
    ) -> ActReading:
        details: list[Detail] = []
        starts: list[int] = []
        flaws: list[Flaw] = list(found)
        if text.strip():
            lexicon = self._lexicon(key, forms)
            with_part = lexicon.with_part
            for start, piece in part_at_commas(text):
                if with_part and "on " in f"{piece} ":
                    reading = self._placed(key, piece, lexicon)
                else:
                    reading = self._kept(key, piece, lexicon)
                if not reading.details and piece in SHARES and details and details[-1].measure:
                    details[-1] = replace(details[-1], share=piece)
                    continue
                details += reading.details
                starts += [start] * len(reading.details)
                flaw = reading.flaw
                if flaw is not None:
                    flaws.append(self._explained(flaw, start, piece, text))
            if len(details) > 1:
                names = {detail.name for detail in details}
                if len(names) < len(details) or not lexicon.watched.isdisjoint(names):
                    flaws += _contradictions(details, starts, lexicon)
        return ActReading(named, tuple(details), tuple(starts), tuple(flaws))

    def _explained(self, flaw: Flaw, start: int, piece: str, text: str) -> Flaw:
        """A piece's flaw in its place in the act; a detail of another act is said to be one."""
        message, hint = flaw.message, flaw.hint
        if flaw.code == "empty-detail":
            return Flaw(flaw.code, 0, max(text.rfind(",", 0, start), 0), 1, message, hint)
        if flaw.code == "unknown-detail" and hint.startswith("Expected"):
            act = self._act_that_says(piece)
            if act:
                hint = f"“{piece}” is said of {act}: write a line “{act} …”."
        return Flaw(flaw.code, 0, flaw.column + start, flaw.length, message, hint)

    def _act_that_says(self, piece: str) -> str:
        """The first act of the table that takes this detail, or ""; it is sought but so often."""
        self._sought += 1
        if self._sought > MOST_SOUGHT:
            return ""
        for act in self.acts.values():
            lexicon = self._lexicon(act.word, act.forms)
            if act.names_act or any(form.free or form.reader for form in lexicon.bare):
                continue
            placed = without_part(piece, lexicon) if lexicon.with_part else None
            read = read_detail(placed.head if placed else piece, lexicon)
            if read.flaw is None and any(
                d.words or lexicon.said(d.name) != "this" for d in read.details
            ):
                return act.word
        return ""

    def _lexicon(self, key: str, forms: tuple[Form, ...]) -> Lexicon:
        lexicon = self._lexicons.get(key)
        if lexicon is None:
            lexicon = self._lexicons[key] = Lexicon(forms)
        return lexicon

    def _placed(self, key: str, piece: str, lexicon: Lexicon) -> Reading:
        """Read a piece with a part of the tree, taken off first, so that few readings differ."""
        placed = without_part(piece, lexicon)
        if placed is None:
            return self._kept(key, piece, lexicon)
        if not placed.part:
            return Reading(
                flaw=Flaw(
                    "no-part",
                    0,
                    placed.at,
                    2,
                    "nothing stands after “on”",
                    "Name the part: on apex, on left 2.",
                )
            )
        details: tuple[Detail, ...] = ()
        flaw: Flaw | None = None
        if placed.head:
            read = self._kept(key, placed.head, lexicon)
            details, flaw = read.details, read.flaw
        if details and details[-1].name in lexicon.with_part:
            d = details[-1]
            details = (
                *details[:-1],
                Detail(
                    d.name,
                    d.words,
                    d.measure,
                    d.handle,
                    placed.part,
                    d.date,
                    d.share,
                    d.offset,
                    placed.tail_at - d.offset,
                ),
            )
        else:
            details = (
                *details,
                Detail(
                    "part", "", None, "", placed.part, "", "", placed.at, placed.tail_at - placed.at
                ),
            )
        wrong = flaw_of_part(placed.part)
        if wrong is not None and flaw is None:
            at = piece.index(placed.part.split(" ", 1)[0], placed.at + 2)
            flaw = Flaw(wrong.code, 0, at + wrong.offset, wrong.length, wrong.message, wrong.hint)
        if placed.tail:
            more = self._kept(key, placed.tail, lexicon)
            details += tuple(replace(d, offset=d.offset + placed.tail_at) for d in more.details)
            if flaw is None and more.flaw is not None:
                flaw = replace(more.flaw, column=more.flaw.column + placed.tail_at)
        return Reading(details, flaw)

    def _kept(self, key: str, piece: str, lexicon: Lexicon) -> Reading:
        kept_as = f"{key}\0{piece}"
        reading = self.kept.get(kept_as)
        if reading is None:
            reading = self.kept[kept_as] = read_detail(piece, lexicon)
        return reading


def _contradictions(details: list[Detail], starts: list[int], lexicon: Lexicon) -> Iterator[Flaw]:
    """What is said twice where only the first would count, or cannot stand together."""
    names = [detail.name for detail in details]
    if len(set(names)) < len(names) and not lexicon.single.isdisjoint(names):
        for i, name in enumerate(names):
            if name in lexicon.single and name in names[:i]:
                said = lexicon.said(name)
                yield Flaw(
                    "said-twice",
                    0,
                    starts[i] + details[i].offset,
                    details[i].length,
                    f"{said} stands here twice, and the first counts",
                    "Take one out, or write the second on an act line of its own.",
                )
    for name, other in lexicon.not_with:
        if name in names and other in names:
            i = max(names.index(name), names.index(other))
            yield Flaw(
                "contradiction",
                0,
                starts[i] + details[i].offset,
                details[i].length,
                f"“{name}” and “{other}” cannot both be so",
                "Take one of them out.",
            )
    if "part" in names and not lexicon.placed.isdisjoint(names):
        i = names.index("part")
        if any(d.name in lexicon.placed and not d.part for d in details):
            yield Flaw(
                "part-first",
                0,
                starts[i] + details[i].offset,
                details[i].length,
                "this part has no measure, and a measure has no part",
                "Write the measure first: 3 mm Al on left 2.",
            )


def prose_reading(text: str) -> ActReading:
    """The reading of an act that takes everything as prose."""
    details = (Detail("text", words=text, length=len(text)),) if text else ()
    return ActReading("", details, (0,) * len(details), ())


def _corrected_prose(named: ActForm, rest: str) -> ActReading:
    """`corrected noted 2027-03-06 the left one`: the date, then prose."""
    found = re.match(r"\s*([0-9]\S*?),?(?:\s+(.*))?$", rest)
    if found is None:
        return ActReading(named.word, (), (), ())
    details = [Detail("date", date=found[1], offset=found.start(1), length=len(found[1]))]
    if found[2]:
        name = "not done" if found[2].casefold() == "not done" else "text"
        words = "" if name == "not done" else found[2]
        details.append(Detail(name, words=words, offset=found.start(2), length=len(found[2])))
    return ActReading(named.word, tuple(details), (0,) * len(details), ())


def _nothing_said(form: ActForm) -> Flaw:
    return Flaw("no-detail", 0, 0, 0, f"“{form.word}” says nothing yet", expected_of(form.forms))


def read_detail(text: str, lexicon: Lexicon) -> Reading:
    """Read one comma-free detail; a Flaw where it is not understood."""
    if not text:
        return Reading(
            flaw=Flaw(
                "empty-detail",
                0,
                0,
                1,
                "nothing stands behind this comma",
                "Take the comma out, or say what belongs here.",
            )
        )
    try:
        return Reading(read_items(read_item_list(text), lexicon))
    except Misread as error:
        if error.code in ("unknown-detail", "unknown-word"):
            error = slip_in(text, error)
        return Reading(
            flaw=Flaw(
                error.code, 0, error.offset, error.length or len(text), error.message, error.hint
            )
        )


def read_item_list(text: str) -> list[Item]:
    """Read the items of a detail: words, quoted text, dates, measures. Misread where none fits."""
    if _MORE_THAN_WORDS.search(text) is None:
        # Nothing but the grammar's WORDs can stand there; this saves a third of all parsing.
        return [Item("word", found[0], found.start()) for found in _WORD.finditer(text)]
    from lark import UnexpectedInput

    try:
        tree = _parser().parse(text, start="detail")
    except UnexpectedInput:
        # Only a quotation mark that is never closed has no reading at all.
        at = max(text.rfind('"'), 0)
        if at and text[at - 1].isdigit():
            raise Misread(
                "unknown-unit", '“"” is no unit known here', "Write inch.", at, 1
            ) from None
        raise Misread(
            "unclosed-quote",
            "this quotation mark is never closed",
            'A text with a comma stands in "double quotes".',
            at,
            max(len(text) - at, 1),
        ) from None
    return [item_of(child, text) for child in tree.children]


_MORE_THAN_WORDS = re.compile(r"[\d\"']")
_WORD = re.compile(r"[^ \t]+")


def item_of(node: Any, text: str) -> Item:
    """Return one node of the tree of a detail as an item; `text` is what was parsed."""
    from lark import Token

    if isinstance(node, Token):
        start = node.start_pos or 0
        if node.type == "QUOTED":
            # A cultivar keeps its quotes, a text loses them.
            return Item(
                "quoted",
                str(node) if node[0] == "'" else str(node[1:-1]),
                start,
                None,
                start + len(node),
            )
        return Item("word", str(node), start)
    tokens: list[Token] = node.children
    start, end = tokens[0].start_pos or 0, tokens[-1].end_pos or 0
    written = text[start:end]
    if node.data == "date":
        return Item("date", written, start)
    try:
        return Item("measure", written, start, _measure(node.data, tokens))
    except Misread as error:
        error.offset, error.length = start, len(written)
        return Item("measure", written, start, flaw=error)


def _measure(rule: str, tokens: list[Token]) -> Measure:
    first = tokens[0]
    rest = {token.type: str(token) for token in tokens[1:]}
    count = _count(rest.get("COUNT", ""))
    unit = unit_named(rest["UNIT"]) if "UNIT" in rest else None
    symbol, sort = (unit.symbol, unit.dimension) if unit else ("", "number")
    per = _per(rest.get("PER", "").strip().lstrip("/").strip())
    numbers = _numbers(first, money=rule in ("money", "money_rate"))
    if first.type == "RANGE":
        if numbers[1] <= numbers[0]:
            raise Misread(
                "falling-range", f"“{first}” does not rise", "Write the smaller number first."
            )
        return Measure(numbers[:1], symbol, "rate" if per else sort, numbers[1], per, count)
    if rule == "sizes":
        if sort != "length":
            raise Misread(
                "no-unit" if unit is None else "wrong-measure",
                f"“{' '.join(tokens)}” has no unit of length",
                "The unit stands last: 38 x 27 x 7 cm.",
            )
        return Measure(numbers, symbol, "size", None, "", count)
    if rule == "hours":
        if numbers[1] >= 60:
            raise Misread(
                "too-many-minutes",
                f"“{first}” has 60 minutes and more behind its hours",
                "Write 1 h 20, or 80 min.",
            )
        return Measure((numbers[0] * 60 + numbers[1],), "min", "duration")
    if rule in ("fraction", "ratio", "part_of_unit"):
        if not all(numbers):
            raise Misread(
                "zero-ratio",
                f"“{first}” has a nought in it",
                "No number of a fraction or a ratio is 0.",
            )
        if rule == "part_of_unit":
            return Measure((_exact(first, *numbers),), symbol, sort, None, "", count)
        return Measure(numbers, "", rule)
    if rule == "npk":
        if sum(numbers) > 100:
            raise Misread(
                "out-of-range",
                f"“{first}” adds up to more than 100",
                "N-P-K are percent, as printed on the label.",
            )
        return Measure(numbers, "", "npk")
    if rule in ("money", "money_rate"):
        return Measure(numbers, rest["CURRENCY"], "money rate" if per else "money", None, per)
    return Measure(numbers, symbol, "rate" if per else sort, None, per, count)


def _count(written: str) -> int:
    digits = written.lstrip("x× \t")
    if not digits:
        return 1
    if len(digits) > 4 or not digits.isascii() or int(digits) == 0:
        raise Misread("bad-number", f"“{digits}” is no count", "Write one from 1 to 9999.")
    return int(digits)


def _exact(written: str, upper: Decimal, lower: Decimal) -> Decimal:
    """A part of a unit as a decimal: `1/2 L` is 0.5 L."""
    number = upper / lower
    if number * lower != upper:
        raise Misread("bad-number", f"“{written}” is no exact decimal", "Write it as one: 0.33.")
    return number


def _per(written: str) -> str:
    if not written:
        return ""
    if written in BY_WRITING:
        return unit_named(written).symbol
    near = nearest(written, BY_WRITING)
    raise Misread(
        "unknown-unit",
        f"“{written}” is no unit known here",
        f"Did you mean “{near}”?" if near else "A rate is 2 g/L or 45 EUR/h.",
    )


_NUMBER = re.compile(r"(?:(?<![\d.,])[-+−])?(?:\d+(?:[.,]\d+)*|[.,]\d+)")
_UNSIGNED = re.compile(r"\d+(?:[.,]\d+)*")


def _numbers(token: Token, *, money: bool) -> tuple[Decimal, ...]:
    if token.type in ("NPK", "HOURS", "RATIO", "SIZES") or (
        token.type == "RANGE" and " to " not in token.replace("\t", " ")
    ):
        return tuple(read_number(n) for n in _UNSIGNED.findall(token))
    if token.type == "FRACTION":
        *whole, upper, lower = (read_number(n) for n in _UNSIGNED.findall(token))
        return (upper + lower * sum(whole), lower)
    return tuple(read_number(n, money=money) for n in _NUMBER.findall(token))


def read_subjects(text: str) -> Subjects | Flaw:
    """Read a subject line."""
    if _NOT_ONLY_HANDLES.search(text) is None:
        # Handles with commas need no parser.
        return Subjects(
            tuple(Selection("handle", found[0], found.start()) for found in _HANDLE.finditer(text))
        )
    from lark import UnexpectedInput

    try:
        tree: Any = _parser().parse(text, start="subjects")
    except UnexpectedInput:
        return _flaw_of_subjects(text)
    chosen: list[Selection] = []
    left_out: list[Selection] = []
    # `except` is not in the tree; whatever stands after it is left out.
    mark = re.search(r"(?i)(?:^|[\s,])except(?=[\s,])", text)
    border = mark.end() if mark else len(text)
    for node in tree.children:
        by = {
            "handle": "handle",
            "all_in": "in",
            "all_of": "of",
            "all_kind": "kind",
            "everything": "all",
        }[node.data]
        offset = node.children[0].start_pos if node.children else 0
        item = Selection(by, " ".join(map(str, node.children)), offset or 0)
        (chosen if item.offset < border else left_out).append(item)
    return Subjects(tuple(chosen), tuple(left_out))


_HANDLE = re.compile(r"[^\s,]+")
_NOT_ONLY_HANDLES = re.compile(
    r"(?i)(?:^|[\s,])(?:all|except)(?:[\s,]|$)|[^\s,][ \t]+[^\s,]|,[ \t]*(?:,|$)|^[ \t]*,|^[ \t]*$"
    r"|[^\S \t]"
)

# What a subject line may have wrong, the first that is found: pattern, message, hint.
_WRONG_SUBJECTS = (
    (re.compile(r"[;/&+]"), "only a comma parts handles", "For example: hoshi, yuki"),
    (
        re.compile(r",(?=\s*(?:,|$))|^,"),
        "nothing stands at this comma",
        "Take it out, or write a handle.",
    ),
    (
        re.compile(r"(?i)^\s*except(?=\s|$)"),
        "“except” has nothing to take from",
        "For example: all in tunnel except hoshi",
    ),
    (
        re.compile(r"(?i)(?<=[\s,])except\s*$"),
        "nothing stands after “except”",
        "Name what is left out: except hoshi, yuki",
    ),
    (
        re.compile(r"(?i)\ball\s+(?:in|of)(?=\s*(?:,|$|except\s))"),
        "a handle is missing here",
        "Write all in PLACE, or all of PERSON.",
    ),
    (
        re.compile(r"(?i)(?<=\s)except(?=\s.*\sexcept\s)"),
        "“except” stands here twice",
        "Once is enough: except hoshi, yuki",
    ),
    (
        re.compile(r"(?<=[^\s,])\s+[^\s,]"),
        "no comma stands before this",
        "Write handles with commas, or all in PLACE, all of PERSON, all KIND, and then except …",
    ),
)


def _flaw_of_subjects(text: str) -> Flaw:
    for pattern, message, hint in _WRONG_SUBJECTS:
        found = pattern.search(text)
        if found is not None:
            blanks = len(found[0]) - len(found[0].lstrip())
            return Flaw(
                "bad-subjects", 0, found.start() + blanks + 1, len(found[0]) - blanks, message, hint
            )
    return Flaw(
        "bad-subjects",
        0,
        1,
        len(text),
        "this line does not say which trees",
        "Write handles with commas, or all in PLACE, all of PERSON, all KIND.",
    )


# ------------------------------------------------------------------ the parser itself


@cache
def _parser() -> Lark:
    from backbud_grammar.tables import load_parser

    return load_parser()
