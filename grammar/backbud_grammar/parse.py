"""Text goes in, syntax and flaws come out; nothing raises, and every line stands for itself."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from typing import TYPE_CHECKING, Any, Literal

from msgspec import Struct

from backbud_grammar.acts import DAY_FORMS
from backbud_grammar.details import Item, part_at_commas, read_items, without_part
from backbud_grammar.forms import ANY_WORDS, ActForm, Form, KindForm
from backbud_grammar.kinds import KINDS
from backbud_grammar.measures import BY_WRITING, Measure, read_number, unit_named
from backbud_grammar.problems import Flaw, Misread, did_you_mean, nearest
from backbud_grammar.syntax import (
    Act,
    Block,
    Card,
    CardLine,
    Detail,
    Page,
    Seam,
    Section,
    Selection,
    Stray,
    Subjects,
)

if TYPE_CHECKING:
    from lark import Lark, Token, Tree

Start = Literal["page", "card", "stray", "subjects", "detail"]

# No line that a hand wrote is longer; what is, is some other file.
LONGEST_LINE = 10_000

# Where a section begins: a date, or a card's first line (the same as HEAD in journal.lark).
_SECTION = re.compile(
    rf"^(?=[0-9]|(?:{'|'.join(KINDS)})[ \t]+[^ \t,\n]+[ \t]*$)".encode(), re.MULTILINE
)
_INDENT = re.compile(r"[ \t]*")
_REMARK = re.compile(r"(?:^|\s)(?:--|—)(?:\s+|$)")


def sections(data: bytes) -> list[tuple[int, bytes]]:
    """Part a file into sections: for each the line it begins on (0 first) and its bytes.

    The bytes are UTF-8 with `\\n` line ends. Each section ends with one. They are parted before
    they are decoded, so that a section already known is never decoded at all.
    """
    if not data.endswith(b"\n"):
        data += b"\n"
    starts = [m.start() for m in _SECTION.finditer(data)]
    if not starts or starts[0] != 0:
        starts.insert(0, 0)
    out: list[tuple[int, bytes]] = []
    line = 0
    for start, end in zip(starts, [*starts[1:], len(data)], strict=True):
        piece = data[start:end]
        out.append((line, piece))
        line += piece.count(b"\n")
    return out


class Known(Struct, frozen=True):
    """What the outline needs to know of the table of acts: every word, and those of prose."""

    words: frozenset[str]
    prose: frozenset[str]

    @staticmethod
    def of(acts: Mapping[str, ActForm]) -> Known:
        return Known(
            frozenset(acts), frozenset(word for word, act in acts.items() if act.prose)
        )


def read_section(section: bytes, known: Known) -> Section:
    """Read one section's outline. Lines too long to be a journal's are set aside with a flaw."""
    text, flaws = _without_long_lines(section.decode())
    start: Start = "stray"
    if section[:1].isdigit() and text[:1] != "\n":
        start = "page"
    elif _SECTION.match(section):
        start = "card"
    tree = _parser().parse(text, start=start)
    return _section(tree, known, flaws)


def _without_long_lines(text: str) -> tuple[str, list[Flaw]]:
    if len(text) <= LONGEST_LINE:
        return text, []
    flaws: list[Flaw] = []
    lines = text.split("\n")
    for i, line in enumerate(lines):
        if len(line) > LONGEST_LINE:
            flaws.append(Flaw("long-line", i, 1, 1, f"a line of {len(line)} characters",
                              f"Nothing in a journal is longer than {LONGEST_LINE}; "
                              "this line was left out."))
            lines[i] = ""
    return "\n".join(lines), flaws


def _section(tree: Tree[Token], known: Known, flaws: list[Flaw]) -> Section:
    children: list[Any] = list(tree.children)
    head: Token | None = None
    if tree.data != "stray":
        head = children.pop(0)
    blocks: list[Block] = []
    loose: list[CardLine] = []
    for child in children:
        tokens = child.children
        if child.data == "loose":
            if tree.data == "card":
                loose += [_card_line(token) for token in tokens]
            else:
                blocks.append(Block("", 0, _acts(tokens, known, flaws)))
        else:
            subject = tokens[0]
            acts = _acts(tokens[1:], known, flaws)
            blocks.append(Block(subject.rstrip(), subject.line - 1, acts))
    if tree.data == "page":
        assert head is not None
        date, weather, column = _day(head)
        return Page(date, weather, column, tuple(blocks), tuple(flaws))
    if tree.data == "card":
        assert head is not None
        kind, handle = head.split()
        return Card(kind, handle, head.index(handle, len(kind)) + 1, tuple(loose), tuple(blocks),
                    tuple(flaws))
    return Stray(tuple(blocks), tuple(flaws))


def _day(token: str) -> tuple[str, str, int]:
    line = token.rstrip()
    date, _, weather = line.partition(" ") if "\t" not in line else _at_blank(line)
    stripped = weather.lstrip()
    return date, stripped, len(line) - len(stripped) + 1


def _at_blank(line: str) -> tuple[str, str, str]:
    parts = line.split(None, 1)
    return parts[0], "", parts[1] if len(parts) > 1 else ""


def _card_line(token: Token) -> CardLine:
    lines = _continued(token)
    first = lines[0][1]
    text = " ".join(line.strip() for _, line in lines)
    return CardLine(text, (token.line or 1) - 1, len(first) - len(first.lstrip()) + 1)


def _continued(token: Token) -> list[tuple[int, str]]:
    """The lines of a token with their numbers, remarks to oneself left out."""
    line = (token.line or 1) - 1
    return [
        (line + i, text.rstrip())
        for i, text in enumerate(token.rstrip().split("\n"))
        if not text.lstrip().startswith("#")
    ]


def _acts(tokens: list[Token], known: Known, flaws: list[Flaw]) -> tuple[Act, ...]:
    acts: list[Act] = []
    first_indent = ""
    for token in tokens:
        text = token.rstrip()
        if "\n" not in text:
            acts.append(_act(text, (token.line or 1) - 1, known))
        else:
            acts += _joined(_continued(token), known, flaws)
        indent = text[: len(text) - len(text.lstrip())]
        first_indent = first_indent or indent
        if "\t" in indent or "\t" in first_indent:
            _mixed_indent(indent, first_indent, (token.line or 1) - 1, flaws)
    return tuple(acts)


def _mixed_indent(indent: str, first: str, line: int, flaws: list[Flaw]) -> None:
    if (" " in indent.lstrip(" ") and "\t" in indent) or "\t" in indent.lstrip("\t") or (
        not indent.startswith(first) and not first.startswith(indent)
    ):
        flaws.append(Flaw("mixed-indent", line, 1, len(indent),
                          "tabs and spaces are mixed in front of this line",
                          "It was read as an act of its own. Use one of the two in a block.",
                          "warning"))


def _act(text: str, line: int, known: Known) -> Act:
    """An act that stands on one line, the common case."""
    body = text.lstrip()
    column = len(text) - len(body) + 1
    word, _, rest = body.partition(" ") if "\t" not in body else _at_blank(body)
    rest = rest.lstrip()
    text_column = column + len(body) - len(rest)
    remark = ""
    if ("--" in rest or "—" in rest) and word.casefold() not in known.prose:
        rest, remark = _without_remark(rest)
    return Act(word, rest, remark, line, column, text_column)


def _without_remark(rest: str) -> tuple[str, str]:
    mark = _REMARK.search(rest)
    if mark is None:
        return rest, ""
    return rest[: mark.start()].rstrip(), rest[mark.end() :]


def _joined(
    lines: list[tuple[int, str]], known: Known, flaws: list[Flaw]
) -> list[Act]:
    """Join an act's lines; a deeper line that begins with an act word is an act and a flaw."""
    groups: list[list[tuple[int, str]]] = []
    for line, text in lines:
        words = text.split(None, 1)
        if groups and words[0].casefold() not in known.words:
            groups[-1].append((line, text))
            continue
        if groups:
            column = len(text) - len(text.lstrip()) + 1
            flaws.append(Flaw("deeper-act", line, column, len(words[0]),
                              f"“{words[0]}” is an act, but stands deeper than the act above",
                              "It was read as an act of its own. Move it left; if it goes on with "
                              "the line above, begin this line with another word."))
        groups.append([(line, text)])
    return [_join(group, known) for group in groups]


def _join(group: list[tuple[int, str]], known: Known) -> Act:
    first = _act(group[0][1], group[0][0], Known(known.words, known.words))
    text, seams = first.text, []
    for line, more in group[1:]:
        body = more.lstrip()
        offset = len(text) + 1 if text else 0
        seams.append(Seam(offset, line, len(more) - len(body) + 1))
        text = f"{text} {body}" if text else body
    remark = ""
    if first.word.casefold() not in known.prose:
        text, remark = _without_remark(text)
    return Act(first.word, text, remark, first.line, first.column, first.text_column, tuple(seams))


# ------------------------------------------------------------------ details and subject lines


def read_card_line(kind: KindForm, text: str) -> Reading:
    """Read a card's line: the longest known label that opens it, then its value."""
    folded = " ".join(text.split()).casefold()
    found: tuple[int, Form] | None = None
    for form in kind.forms:
        for label in form.labels:
            opens = folded == label.casefold() or folded.startswith(label.casefold() + " ")
            if opens and (found is None or len(label) > found[0]):
                found = (len(label), form)
    if found is None:
        free = next((form for form in kind.forms if form.free_label), None)
        return _ingredient(text, free) if free else Reading(flaw=_unknown_label(kind, text))
    form = found[1]
    value = re.sub(r"^" + r"\s+".join(["\\S+"] * (folded[: found[0]].count(" ") + 1)), "", text).strip()
    if not value:
        return Reading(flaw=Flaw("no-value", 0, 0, len(text), f"nothing stands after “{text}”",
                                 f"Expected: {form.shown()}."))
    if form.prose:
        at = len(text) - len(value)
        return Reading((Detail(form.name, words=value, offset=at, length=len(value)),))
    return read_detail(text, (form,))


def _ingredient(text: str, form: Form) -> Reading:
    """A free label and a measure: `akadama 2`."""
    read = read_detail(text, (Form(form.name, (), form.sorts, form.bound, words=ANY_WORDS),))
    if read.details and not read.details[0].words:
        return Reading(flaw=Flaw("no-words", 0, 0, len(text), "an ingredient has a name",
                                 "For example: akadama 2"))
    return read


def _unknown_label(kind: KindForm, text: str) -> Flaw:
    word = text.split(None, 1)[0]
    labels = [label for form in kind.forms for label in form.labels]
    return Flaw("unknown-label", 0, 0, len(word), f"“{word}” is no label of a {kind.kind}",
                did_you_mean(word, labels, f"Labels: {', '.join(labels)}."))


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
        self._parts: dict[str, frozenset[str]] = {}

    @property
    def learned(self) -> bool:
        """Whether anything was read that was not handed over at the start."""
        return self._recalled != (len(self.kept), len(self.kept_subjects))

    def weather(self, piece: str) -> Reading:
        """Read one piece of a day's weather."""
        return self._kept("day", piece, DAY_FORMS)

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
        if not form.names_act:
            flaws = () if text or not form.needs_detail else (_nothing_said(form),)
            return self._pieces("", form.word, text, form.forms, flaws)
        word = text.split(None, 1)[0].rstrip(",") if text else ""
        named = self.acts.get(word.casefold())
        if named is None:
            example = f"For example: {form.word} {form.example}."
            hint = did_you_mean(word, self.acts, example) if word else example
            return ActReading("", (), (), (Flaw("unknown-act", 0, 0, len(word) or 1,
                                                f"“{form.word}” needs an act after it", hint),))
        # What stood before the details of the named act is blanked, so that offsets stay.
        rest = " " * len(word) + text[len(word) :]
        if rest.lstrip().startswith(","):
            rest = rest.replace(",", " ", 1)
        if named.prose:
            return _corrected_prose(named, rest)
        key = f"{form.word} {named.word}"
        return self._pieces(named.word, key, rest, (*form.forms, *named.forms), ())

    def _pieces(
        self, named: str, key: str, text: str, forms: tuple[Form, ...], found: tuple[Flaw, ...]
    ) -> ActReading:
        details: list[Detail] = []
        starts: list[int] = []
        flaws: list[Flaw] = list(found)
        if text.strip():
            with_part = self._with_part(key, forms)
            for start, piece in part_at_commas(text):
                reading = self._piece(key, piece, forms, with_part)
                details += reading.details
                starts += [start] * len(reading.details)
                flaw = reading.flaw
                if flaw is not None:
                    flaws.append(Flaw(flaw.code, 0, flaw.column + start, flaw.length,
                                      flaw.message, flaw.hint))
        return ActReading(named, tuple(details), tuple(starts), tuple(flaws))


    def _with_part(self, key: str, forms: tuple[Form, ...]) -> frozenset[str]:
        """The names of an act's forms that may be followed by a part of the tree."""
        if key not in self._parts:
            self._parts[key] = frozenset(form.name for form in forms if form.part)
        return self._parts[key]

    def _piece(
        self, key: str, piece: str, forms: tuple[Form, ...], with_part: frozenset[str]
    ) -> Reading:
        """Read one piece; the part of the tree is taken off first, so that few readings differ."""
        if not with_part or "on " not in f"{piece} " or '"' in piece:
            return self._kept(key, piece, forms)
        head, part, tail = without_part(piece, forms)
        if not part:
            if piece.split()[-1] == "on":
                return Reading(flaw=Flaw("no-part", 0, len(piece) - 2, 2,
                                         "nothing stands after “on”",
                                         "Name the part: on apex, on left 2."))
            return self._kept(key, piece, forms)
        details: tuple[Detail, ...] = ()
        flaw: Flaw | None = None
        if head:
            details, flaw = (read := self._kept(key, head, forms)).details, read.flaw
        if details and details[-1].name in with_part:
            d = details[-1]
            placed = Detail(d.name, d.words, d.measure, d.handle, part, d.date, d.share, d.offset,
                            len(piece) - d.offset)
            details = (*details[:-1], placed)
        else:
            details = (*details, Detail("part", part=part, length=len(piece)))
        if tail:
            more = self._kept(key, tail, forms)
            details += more.details
            flaw = flaw or more.flaw
        return Reading(details, flaw)

    def _kept(self, key: str, piece: str, forms: tuple[Form, ...]) -> Reading:
        kept_as = f"{key}\0{piece}"
        reading = self.kept.get(kept_as)
        if reading is None:
            reading = self.kept[kept_as] = read_detail(piece, forms)
        return reading


def prose_reading(text: str) -> ActReading:
    """The reading of an act that takes everything as prose."""
    details = (Detail("text", words=text, length=len(text)),) if text else ()
    return ActReading("", details, (0,) * len(details), ())


def _corrected_prose(named: ActForm, rest: str) -> ActReading:
    """`corrected noted 2027-03-06 the left one`: the date, then prose."""
    words = rest.split(None, 1)
    details: list[Detail] = []
    if words:
        details.append(Detail("date", date=words[0].rstrip(",")))
    if len(words) > 1:
        details.append(Detail("text", words=words[1]))
    return ActReading(named.word, tuple(details), (0,) * len(details), ())


def _nothing_said(form: ActForm) -> Flaw:
    return Flaw("no-detail", 0, 0, 0, f"“{form.word}” says nothing yet",
                f"Expected: {', '.join(f.shown() for f in form.forms if f.name != 'by')}.")


def read_detail(text: str, forms: tuple[Form, ...]) -> Reading:
    """Read one comma-free detail; a Flaw where it is not understood."""
    if not text:
        return Reading(flaw=Flaw("empty-detail", 0, 0, 1, "nothing stands between the commas",
                                 "Take the comma out, or say what belongs here."))
    try:
        return Reading(read_items(read_item_list(text), forms))
    except Misread as error:
        return Reading(flaw=Flaw(error.code, 0, error.offset, error.length or len(text),
                                 error.message, error.hint))


def read_item_list(text: str) -> list[Item]:
    """Read the items of a detail: words, quoted text, dates, measures. Misread where none fits."""
    from lark import UnexpectedInput

    try:
        tree = _parser().parse(text, start="detail")
    except UnexpectedInput as error:
        # Only an unclosed quotation mark has no reading at all.
        offset = max(error.pos_in_stream or 0, 0)
        raise Misread("not-understood", "this cannot be read",
                      'A text with a comma stands in "double quotes"; is one missing?',
                      offset, max(len(text) - offset, 1)) from None
    return [item_of(child, text) for child in tree.children]


def item_of(node: Any, text: str) -> Item:
    from lark import Token

    if isinstance(node, Token):
        start = node.start_pos or 0
        if node.type == "QUOTED":
            # A cultivar keeps its quotes, a text loses them.
            return Item("quoted", str(node) if node[0] == "'" else str(node[1:-1]), start)
        return Item("word", str(node), start)
    tokens: list[Token] = node.children
    start, end = tokens[0].start_pos or 0, tokens[-1].end_pos or 0
    written = text[start:end]
    if node.data == "date":
        return Item("date", written, start)
    try:
        return Item("measure", written, start, _measure(node.data, tokens))
    except Misread as error:
        raise Misread(error.code, error.message, error.hint, start, len(written)) from None


def _measure(rule: str, tokens: list[Token]) -> Measure:
    first = tokens[0]
    rest = {token.type: str(token) for token in tokens[1:]}
    count = int(rest["COUNT"].lstrip("x× \t")) if "COUNT" in rest else 1
    unit = unit_named(rest["UNIT"]) if "UNIT" in rest else None
    symbol, sort = (unit.symbol, unit.dimension) if unit else ("", "number")
    per = rest.get("PER", "").strip().lstrip("/").strip()
    numbers = _numbers(first, money=rule in ("money", "money_rate"))
    if rule in ("number_range", "quantity_range") or first.type == "RANGE":
        if numbers[1] <= numbers[0]:
            raise Misread("falling-range", f"“{first}” does not rise",
                          "Write the smaller number first.")
        return Measure(numbers[:1], symbol, "rate" if per else sort, numbers[1],
                       _per(per), count)
    if rule == "rate":
        return Measure(numbers, symbol, "rate", None, _per(per))
    if rule in ("money", "money_rate"):
        sort = "money rate" if per else "money"
        return Measure(numbers, rest["CURRENCY"], sort, None, _per(per))
    if rule == "sizes":
        return Measure(numbers, symbol, "size", None, "", count)
    if rule == "hours":
        return Measure((numbers[0] * 60 + numbers[1],), "min", "duration")
    if rule in ("fraction", "ratio"):
        if not all(numbers):
            raise Misread("zero-ratio", f"“{first}” has a nought in it", "")
        return Measure(numbers, "", rule)
    if rule == "npk":
        return Measure(numbers, "", "npk")
    return Measure(numbers, symbol, sort, None, "", count)


def _per(written: str) -> str:
    if not written:
        return ""
    return unit_named(written).symbol if written in BY_WRITING else _unknown_per(written)


def _unknown_per(written: str) -> str:
    near = nearest(written, BY_WRITING)
    raise Misread("unknown-unit", f"“{written}” is no unit known here",
                  f"Did you mean “{near}”?" if near else "A rate is 2 g/L or 45 EUR/h.")


_NUMBER = re.compile(r"(?:(?<![\d.,])[-−])?\d+(?:[.,]\d+)*")
_RANGE_PARTS = re.compile(r"\d+(?:[.,]\d+)*")


def _numbers(token: Token, *, money: bool) -> tuple[Any, ...]:
    if token.type in ("NPK", "HOURS", "FRACTION", "RATIO", "SIZES") or (
        token.type == "RANGE" and " to " not in token.replace("\t", " ")
    ):
        return tuple(read_number(n) for n in _RANGE_PARTS.findall(token))
    return tuple(read_number(n, money=money) for n in _NUMBER.findall(token))


def read_subjects(text: str) -> Subjects | Flaw:
    """Read a subject line."""
    from lark import UnexpectedInput

    try:
        tree: Any = _parser().parse(text, start="subjects")
    except UnexpectedInput as error:
        offset = max(error.pos_in_stream or 0, 0) if error.pos_in_stream != -1 else len(text)
        return Flaw("bad-subjects", 0, min(offset, max(len(text) - 1, 0)) + 1, 1,
                    "this line does not say which trees",
                    "Write handles with commas, or all in PLACE, all of PERSON, all KIND, "
                    "and then except …")
    chosen: list[Selection] = []
    left_out: list[Selection] = []
    # `except` is not in the tree; whatever stands after it is left out.
    mark = re.search(r"(?i)(?:^|[\s,])except(?=[\s,])", text)
    border = mark.end() if mark else len(text)
    for node in tree.children:
        by = {"handle": "handle", "all_in": "in", "all_of": "of", "all_kind": "kind",
              "everything": "all"}[node.data]
        offset = node.children[0].start_pos if node.children else 0
        item = Selection(by, " ".join(map(str, node.children)), offset or 0)
        (chosen if item.offset < border else left_out).append(item)
    return Subjects(tuple(chosen), tuple(left_out))


# ------------------------------------------------------------------ the parser itself


@cache
def _parser() -> Lark:
    from backbud_grammar.tables import load_parser

    return load_parser()
