"""Makes lines of the diary of a row that tells of a day's work."""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec import Struct

from backbud.bring.card_rows import refer
from backbud.bring.days import day_of_cell
from backbud.bring.gathered import (
    LONGEST_ACT,
    Around,
    BroughtLine,
    Gathered,
    NewCard,
    RowOfList,
    ToldCell,
    pieces,
)
from backbud.bring.matched import OpenQuestion
from backbud.bring.wordings import LEFT_OUT, act_of_ing
from backbud_grammar.dates import read_date
from backbud_grammar.outline import read_act_line

_SEVERAL = re.compile(r"\s*(?:[,;/&+]|\band\b)\s*")
_ALL = frozenset(("all", "every", "everything", "each", "except"))
_POTTING = frozenset(("repotted", "repot", "potted-on", "pot-on", "potted", "slipped", "slip"))
_MOVING = frozenset(("moved", "move"))
# What a note marks for others' eyes is marked by the keeper, not by a list.
_MARKED = re.compile(r"for\s", re.IGNORECASE)
# Said of the act itself or of whose it is; each other column is a line of its own.
_OF_THE_ACT = frozenset(("date", "tree", "act", "details", "tree and act", "remark", LEFT_OUT))
_NO_HOME = "nothing says whose it is, and the journal has no home place to note it at"


class _WhoseAndWhat(Struct, frozen=True):
    """Whose a row is and what it says was done. `subject`: "" where the keeper must say first.
    `parts`: the act, then its details. `is_known`: whether the list says whose it is."""

    subject: str
    parts: tuple[str, ...]
    is_known: bool = True


def work_row(row: RowOfList, around: Around, into: Gathered) -> bool:
    """Add what a row says to what is gathered; whether anything of it is written."""
    day, why = _day(row, around)
    told = _whose(row, around, into) if day else _WhoseAndWhat("", ())
    if day and not told.subject and not told.is_known:
        why = _NO_HOME
    if why:
        filled = [(head, cell.text) for head, what, _, cell in row.cells if what != LEFT_OUT]
        words = "; ".join(f"{heading}: {text}" for heading, text in filled if text)
        into.told.append(ToldCell(row.place.sheet, row.place.row, "", words, why))
    if not told.subject:
        return False
    lines, used = _act(row, day, told, around, into)
    for heading, meaning, unit, cell in row.cells:
        if cell.text and meaning not in _OF_THE_ACT | used:
            lines += _of_cell(row, day, told, heading, meaning, unit, cell.text, around, into)
    # Even where nothing is said but whose and when, that was written down.
    into.lines += lines or _notes(row, row.heading("date"), day, told.subject, row.text("date"))
    return True


def _day(row: RowOfList, around: Around) -> tuple[str, str]:
    """The day of a row, or why there is none."""
    wrong = [cell.wrong for _, what, _, cell in row.cells if what == "date" and cell.wrong]
    cell = row.by("date")
    if wrong or cell is None:
        return "", wrong[0] if wrong else "no date stands there"
    day = day_of_cell(cell, row.order, around.today)
    if not day:
        return "", f"“{cell.text}” cannot be read as a date"
    if read_date(day).first > around.today:
        return "", f"{day} has not come yet; what is still to come is planned by you"
    return day, ""


# ------------------------------------------------------------------ whose it is


def _whose(row: RowOfList, around: Around, into: Gathered) -> _WhoseAndWhat:
    text, both = row.text("tree"), row.text("tree and act")
    act, details = row.text("act"), row.text("details")
    act = act_of_ing(act, around.known.words) or act
    handle, rest = _parted(both, around) if both and not text else ("", "")
    parts = (rest, act, details) if handle else (act, both, details)
    said = tuple(filter(None, parts))
    if text:
        return _WhoseAndWhat(_subject(text, row, around, into), said)
    return _WhoseAndWhat(handle or around.home, said, bool(handle))


def _parted(text: str, around: Around) -> tuple[str, str]:
    """`Old Nell: repotted` in two parts, where its first words are the name of a tree."""
    for end in reversed([found.end() for found in re.finditer(r"\S+", text)][:8]):
        name = text[:end].rstrip(" :,-–—")
        if name and (handle := around.names.find("tree", name)):
            return handle, text[end:].lstrip(" :,-–—")
    return "", ""


def _subject(text: str, row: RowOfList, around: Around, into: Gathered) -> str:
    """The subject line that is meant by a cell, "" where the keeper must say."""
    names = around.names
    said = names.told(text)
    if said and said[0].split()[0] in _ALL:
        return ", ".join(said)
    several = said or ((text,) if names.any_of(text) else tuple(filter(None, _SEVERAL.split(text))))
    found = [names.any_of(one) for one in several]
    if several and all(found):
        return ", ".join(dict.fromkeys(found))
    if said:
        return ", ".join(
            handle or _new_tree(one, row, around, into)
            for one, handle in zip(said, found, strict=True)
        )
    if len(several) != 1 or text.split()[0].casefold() in _ALL:
        names.ask(
            OpenQuestion(
                f"who is meant by “{text}”",
                f'below [names] in the mapping: "{text}" = "their handles, with commas"',
            )
        )
        return ""
    return "" if names.asked("tree", text) else _new_tree(text, row, around, into)


def _new_tree(text: str, row: RowOfList, around: Around, into: Gathered) -> str:
    handle = around.names.new("tree", text)
    into.cards.append(NewCard("tree", handle, text, row.place))
    if handle != text:
        heading = row.heading("tree")
        words = f"{heading}: {text}"
        into.lines.append(BroughtLine(row.place, heading, f"name {text}", words, "tree", handle))
    return handle


# ------------------------------------------------------------------ what was done


def _act(
    row: RowOfList, day: str, told: _WhoseAndWhat, around: Around, into: Gathered
) -> tuple[list[BroughtLine], frozenset[str]]:
    """The line of the act itself, or its words as a note; and which other columns stand in it."""
    remark, used = row.text("remark"), frozenset[str]()
    if _MARKED.match(remark):
        remark = f"{row.heading('remark')}: {remark}"
    first, *rest = told.parts or ("",)
    heads = [row.heading(one) for one in ("act", "tree and act", "details") if row.text(one)]
    heading = heads[0] if heads else row.heading("remark")
    words = ". ".join(filter(None, (*told.parts, remark)))
    if not words:
        return [], used
    if _MARKED.match(words):
        words = f"{heading}: {words}"
    read = read_act_line(first, 0, around.known)
    is_act = told.is_known and read.word.casefold() in around.known.words
    if not is_act and not (told.is_known and first):
        return list(_notes(row, heading, day, told.subject, words)), used
    if is_act:
        more, used = _more(row, read.word.casefold(), around, into)
        rest += more
        words = ". ".join(
            (words, *(f"{row.heading(one)}: {row.text(one)}" for one in sorted(used)))
        )
    bare = is_act and not read.text and not read.remark
    text = f"{first} {', '.join(rest)}".rstrip() if bare else ", ".join((first, *rest))
    # What stands behind the first remark of a line is no detail any more.
    hidden = bool(rest) and (" -- " in first or " — " in first)
    text = f"{text} -- {remark}" if remark else text
    if hidden or first[0] in "#-—" or len(text) > LONGEST_ACT:
        return list(_notes(row, heading, day, told.subject, words)), used
    details = ", ".join(rest)
    line = BroughtLine(
        row.place, heading, text, words, day=day, subject=told.subject, details=details
    )
    return [line], used


def _more(
    row: RowOfList, act: str, around: Around, into: Gathered
) -> tuple[list[str], frozenset[str]]:
    """What a column of its own adds to an act: the pot it goes into, the place it moves to."""
    for acts, meaning, into_it in ((_POTTING, "pot", "into "), (_MOVING, "place", "")):
        text = row.text(meaning)
        handle = refer(meaning, text, row, around, into) if act in acts and text else ""
        if handle:
            return [f"{into_it}{handle}"], frozenset((meaning,))
    return [], frozenset()


def _of_cell(
    row: RowOfList,
    day: str,
    told: _WhoseAndWhat,
    heading: str,
    meaning: str,
    unit: str,
    text: str,
    around: Around,
    into: Gathered,
) -> list[BroughtLine]:
    """The lines of a column beside the act."""
    words = f"{heading}: {text}"
    if meaning in ("worked", "used") and told.is_known:
        measure = f"{text} {unit}" if unit and re.fullmatch(r"[0-9.,]+", text) else text
        said = f"{meaning} {measure}"
        return [BroughtLine(row.place, heading, said, words, day=day, subject=told.subject)]
    if meaning == "kind" and _is_kind_of_new(told.subject, text, around, into):
        return [BroughtLine(row.place, heading, f"kind {text}", words, "tree", told.subject)]
    if meaning == "kind" and into.kinds.get(told.subject) == text:
        return []
    return list(_notes(row, heading, day, told.subject, words))


def _is_kind_of_new(subject: str, text: str, around: Around, into: Gathered) -> bool:
    """Whether a kind belongs on a card that this list makes and that says none yet."""
    if not around.names.is_new("tree", subject) or ("tree", subject) in into.described:
        return False
    return into.kinds.setdefault(subject, text) is text


def _notes(
    row: RowOfList, heading: str, day: str, subject: str, words: str
) -> Iterator[BroughtLine]:
    for piece in pieces(words):
        text = f"noted {piece}"
        yield BroughtLine(row.place, heading, text, piece, day=day, subject=subject, note=True)
