"""Lining up the details of a journal's text.

Nothing is sorted and no word is touched. What the lines say is read before and after, and where
it differs the file is left alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise
from typing import Any, Literal

from msgspec import Struct
from msgspec.structs import replace

from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.dates import read_date
from backbud_grammar.details import part_at_commas
from backbud_grammar.forms import ActForm, KindForm
from backbud_grammar.kinds import KINDS
from backbud_grammar.outline import LONGEST_LINE, Known, read_section, sections
from backbud_grammar.parse import Details
from backbud_grammar.problems import Flaw, Misread
from backbud_grammar.shown import cells
from backbud_grammar.syntax import Act, Block, Card, CardLine, Detail, Page, Section

INDENT = "  "
# One column for the whole journal, so that a new line moves no other line. A longer word pushes
# the details of its own block to the right, but a very long one only its own.
COLUMN = 14
WIDEST_COLUMN = 32
GAP = 2
DATE_GAP = "   "

_LINE_END = re.compile(r"(\r\n|\r|\n)")
_BOM = "\N{ZERO WIDTH NO-BREAK SPACE}"
# These flaws are about where a line stands; moving it would hide them.
_INDENT_FLAWS = ("mixed-indent", "deeper-act", "deeper-label")

Sort = Literal["date", "card", "subject", "inside", "remark", "blank"]
# For each section: the line it begins on, and what it says.
Parsed = list[tuple[int, Section]]


class TidyError(Exception):
    """Raised with one sentence when a text is better left alone."""


class _Line(Struct):
    """A line without its end, and what it is."""

    text: str
    end: str
    sort: Sort = "inside"


class _Lead(Struct, frozen=True):
    """The first line of an act or of a card's line: its word or label, and what follows.

    `rest` is "" where nothing follows or where nobody meant it to stand apart.
    """

    lead: str
    rest: str = ""


def tidy_text(text: str, acts: Mapping[str, ActForm] | None = None) -> str:
    """Return the text with its details lined up; TidyError where that would change its meaning.

    Line ends and a byte order mark are kept. `acts`: every act by its words.
    """
    bom, body = (_BOM, text[1:]) if text.startswith(_BOM) else ("", text)
    details = Details(by_word(ACTS) if acts is None else acts)
    lines = _lines(body)
    parsed = _parsed(lines, details)
    if not _of_a_journal(parsed, details):
        raise TidyError("no line in it is a card, a dated page or a known act")
    before = _meaning(parsed, details)
    _line_up(lines, parsed, details)
    spaced = list(_spaced(lines))
    for above, line in pairwise(spaced):
        if above.end == "\r" and not line.text and line.end == "\n":
            # Side by side the two would be the end of one line.
            line.end = "\r"
    tidied = "".join(line.text + line.end for line in spaced)
    if tidied != body:
        _compare(before, _meaning(_parsed(spaced, details), details))
        if body.split() != tidied.split():
            raise TidyError("tidying would change one of its words")
    return bom + tidied


# ------------------------------------------------------------------ read


def _lines(text: str) -> list[_Line]:
    pieces = _LINE_END.split(text)
    lines = [_Line(line, end) for line, end in zip(pieces[::2], pieces[1::2], strict=False)]
    if pieces[-1]:
        lines.append(_Line(pieces[-1], lines[-1].end if lines else "\n"))
    return lines


def _parsed(lines: list[_Line], details: Details) -> Parsed:
    known = Known.of(details.acts)
    data = "".join(f"{line.text}\n" for line in lines).encode()
    return [(line, read_section(piece, known)) for line, piece in sections(data)]


def _of_a_journal(parsed: Parsed, details: Details) -> bool:
    """Whether at least one line is what a journal holds; other files end in .txt too."""
    said = False
    for _, section in parsed:
        if isinstance(section, Card) or any(
            act.word.casefold() in details.acts for block in section.blocks for act in block.acts
        ):
            return True
        if isinstance(section, Page) and _is_day(section, details):
            return True
        said = said or isinstance(section, Page) or bool(section.blocks)
    return not said


def _is_day(page: Page, details: Details) -> bool:
    try:
        read_date(page.date)
    except Misread:
        return False
    return not page.weather or not any(_weather(page, details)[1])


# ------------------------------------------------------------------ line up


def _line_up(lines: list[_Line], parsed: Parsed, details: Details) -> None:
    """Set each line's sort and its place from the left."""
    for i, (start, section) in enumerate(parsed):
        end = parsed[i + 1][0] if i + 1 < len(parsed) else len(lines)
        here = lines[start:end]
        for line in here:
            if len(line.text) <= LONGEST_LINE:
                line.text = line.text.rstrip()
                line.sort = _sort(line.text)
        if isinstance(section, Page):
            here[0].sort = "date"
            if section.weather:
                date, weather = _date_and_weather(here[0].text, section)
                here[0].text = f"{date}{DATE_GAP}{weather}"
        elif isinstance(section, Card):
            here[0].sort = "card"
            here[0].text = f"{section.kind} {section.handle}".rstrip()
            border = section.blocks[0].line if section.blocks else len(here)
            if not _is_doubtful(section.flaws, 1, border):
                _line_up_group(
                    here[1:border],
                    {
                        line.line - 1: _lead_of_card_line(
                            line, here[line.line].text, section, details
                        )
                        for line in section.lines
                    },
                )
        for block, end in _with_ends(section.blocks, len(here)):
            _line_up_block(here, block, end, section.flaws, details)


def _date_and_weather(line: str, page: Page) -> tuple[str, str]:
    """The date with its hour, each as written and parted by one blank, and the weather."""
    at = page.weather_column - 1
    return " ".join(line[:at].split()), line[at:]


def _sort(text: str) -> Sort:
    if not text:
        return "blank"
    return "remark" if text.lstrip().startswith("#") else "inside"


def _with_ends(blocks: tuple[Block, ...], end: int) -> Iterator[tuple[Block, int]]:
    """Each block with the line after its last."""
    return zip(blocks, [*(block.line for block in blocks[1:]), end], strict=False)


def _line_up_block(
    here: list[_Line], block: Block, end: int, flaws: Iterable[Flaw], details: Details
) -> None:
    if block.subjects:
        here[block.line].sort = "subject"
    doubtful = _is_doubtful(flaws, block.line, end) or any(act.left_out for act in block.acts)
    if not block.acts or doubtful:
        return
    first = block.acts[0].line
    _line_up_group(
        here[first:end],
        {act.line - first: _lead_of_act(act, here[act.line].text, details) for act in block.acts},
    )


def _is_doubtful(flaws: Iterable[Flaw], begin: int, end: int) -> bool:
    """Whether it is not sure of one of these lines how deep it stands."""
    return any(flaw.code in _INDENT_FLAWS and begin <= flaw.line < end for flaw in flaws)


def _line_up_group(here: list[_Line], leads: dict[int, _Lead]) -> None:
    """Line up acts that belong together, or the lines of a card; `leads` by their line in `here`.

    All other lines but remarks continue the one above. A remark that stood as deep as one of
    the leads goes with it, any other stays.
    """
    column = max(COLUMN, *(_column(lead) for lead in leads.values()), 0)
    indents = {_indent(here[at].text) for at in leads}
    for at, line in enumerate(here):
        body = line.text.lstrip()
        if at in leads:
            line.text = _set(leads[at], column)
        elif line.sort == "remark":
            if _indent(line.text) in indents:
                line.text = INDENT + body
        elif line.sort == "inside" and len(line.text) <= LONGEST_LINE:
            line.text = " " * column + body


def _indent(text: str) -> str:
    return text[: len(text) - len(text.lstrip())]


def _column(lead: _Lead) -> int:
    """The column that a lead asks for; 0 where it does not matter."""
    column = _width(INDENT + lead.lead) + GAP
    return column if lead.rest and column <= WIDEST_COLUMN else 0


def _set(lead: _Lead, column: int) -> str:
    text = INDENT + lead.lead
    return f"{text}{' ' * max(column - _width(text), GAP)}{lead.rest}" if lead.rest else text


def _width(text: str) -> int:
    return sum(map(cells, text))


def _lead_of_act(act: Act, line: str, details: Details) -> _Lead:
    gap = line[act.column - 1 + len(act.word) : act.text_column - 1]
    if act.word.casefold() not in details.acts and not _stands_apart(gap):
        return _Lead(line.lstrip())
    # An hour stands in front of the word, or of the details.
    before, behind = line[: act.column - 1].split(), line[act.column - 1 + len(act.word) :]
    return _Lead(" ".join((*before, act.word)), behind.lstrip())


def _lead_of_card_line(line: CardLine, text: str, card: Card, details: Details) -> _Lead:
    label = _label_of(KINDS[card.kind], line.text, details)
    body = text.lstrip()
    words = max(len(label.split()), 1)
    parts = re.match(rf"((?:\S+\s+){{{words - 1}}}\S+)(\s*)(.*)", body)
    if parts is None or not (label or _stands_apart(parts[2])):
        return _Lead(body)
    return _Lead(" ".join(parts[1].split()), parts[3])


def _stands_apart(gap: str) -> bool:
    """Whether a hand set the words apart; where the word is not known, that alone tells."""
    return len(gap) > 1 or gap == "\t"


def _label_of(kind: KindForm, text: str, details: Details) -> str:
    """The words of a card's line that are its label, "" where none is known."""
    folded = f"{' '.join(text.split()).casefold()} "
    labels = [label for form in kind.forms for label in form.labels]
    known = max(
        (la for la in labels if folded.startswith(f"{la.casefold()} ")), key=len, default=""
    )
    if known:
        return known
    read = details.card_line(kind, text).details
    return read[0].words if read and folded.startswith(f"{read[0].words.casefold()} ") else ""


# ------------------------------------------------------------------ blank lines


def _spaced(lines: list[_Line]) -> Iterator[_Line]:
    """Give the lines with one blank line between blocks and at most one inside them."""
    above: _Line | None = None
    gap: list[_Line] = []
    for line in lines:
        if line.sort in ("blank", "remark"):
            gap.append(line)
            continue
        yield from _gap(above, gap, line)
        yield line
        above, gap = line, []
    yield from _gap(above, gap, None)


def _gap(above: _Line | None, gap: list[_Line], below: _Line | None) -> list[_Line]:
    """What stands between two lines: remarks to oneself, and blank lines as they should be."""
    if below is not None and above is not None:
        if below.sort == "inside" and above.sort in ("card", "subject"):
            return [line for line in gap if line.sort == "remark"]
        if below.sort != "inside" and not any(line.sort == "blank" for line in gap):
            gap.insert(_place_of_blank(above, gap), _Line("", (gap or [above])[-1].end, "blank"))
    kept: list[_Line] = []
    for line in gap:
        before = kept[-1] if kept else above
        if line.sort == "remark" or (before is not None and before.sort != "blank"):
            kept.append(line)
    while below is None and kept and kept[-1].sort == "blank":
        kept.pop()
    return kept


def _place_of_blank(above: _Line, gap: list[_Line]) -> int:
    """Where a blank line parts the remarks: those on the left margin belong to what follows.

    Below a date they belong to the day.
    """
    if above.sort != "date":
        for i, line in enumerate(gap):
            if line.text.startswith("#"):
                return i
    return len(gap)


# ------------------------------------------------------------------ compare


def _meaning(parsed: Parsed, details: Details) -> list[tuple[int, Any]]:
    """What each section says, without where it stands; each with the line it begins on."""
    out: list[tuple[int, Any]] = []
    for line, section in parsed:
        said: tuple[Any, ...] = (
            [_block(block, details) for block in section.blocks],
            [flaw.code for flaw in section.flaws],
        )
        if isinstance(section, Page):
            day = section.date, section.hour
            said = ("page", day, section.weather, _weather(section, details), *said)
        elif isinstance(section, Card):
            said = (
                "card",
                section.kind,
                section.handle,
                [_card_line(line, section.kind, details) for line in section.lines],
                *said,
            )
        if any(said):
            out.append((line, said))
    return out


def _block(block: Block, details: Details) -> tuple[Any, ...]:
    subjects = details.subjects(block.subjects) if block.subjects else None
    return (
        block.subjects,
        subjects,
        [
            (act.hour, act.word, act.text, act.remark, act.left_out, _act(act, details))
            for act in block.acts
        ],
    )


def _act(act: Act, details: Details) -> Any:
    form = details.acts.get(act.word.casefold())
    if form is None:
        return "unknown"
    read = details.of(form, act.text)
    return read.named, _placeless(read.details), [flaw.code for flaw in read.flaws]


def _card_line(line: CardLine, kind: str, details: Details) -> tuple[Any, ...]:
    read = details.card_line(KINDS[kind], line.text)
    # The gap after a label is part of the line's text; it is what tidying changes.
    return line.text.split(), _placeless(read.details), read.flaw and read.flaw.code


def _weather(page: Page, details: Details) -> tuple[list[Any], list[str]]:
    """What the day's weather is read as, and the codes of its flaws."""
    if not page.weather:
        return [], []
    reads = [details.weather(piece) for _, piece in part_at_commas(page.weather)]
    return (
        [_placeless(read.details) for read in reads],
        [read.flaw.code for read in reads if read.flaw],
    )


def _placeless(details: Iterable[Detail]) -> list[Detail]:
    return [replace(detail, offset=0, length=0) for detail in details]


def _compare(before: list[tuple[int, Any]], after: list[tuple[int, Any]]) -> None:
    """Raise TidyError where two texts do not say the same."""
    for (line, was), (_, now) in zip(before, after, strict=False):
        if was != now:
            raise TidyError(f"tidying would change what is read from line {line + 1} on")
    if len(before) != len(after):
        raise TidyError("tidying would change how many pages and cards it has")
