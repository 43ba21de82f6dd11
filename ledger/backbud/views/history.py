"""The history of a tree as it is shown: its entries, what was corrected, and what is private."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import NamedTuple

from msgspec import Struct
from msgspec.structs import replace

from backbud.collection.state import Entry, Tree
from backbud.journal.events import Event
from backbud.journal.late_lines import late_lines
from backbud.journal.read import Journal
from backbud.journal.written_when import written_when
from backbud.tongue import phrase
from backbud.views.for_keeper import is_entry_for_keeper
from backbud.views.life import Sign
from backbud.views.lines_of_act import LinesOfAct, lines_of_act
from backbud.views.marked import for_owner
from backbud.words import number
from backbud_grammar.dates import WrittenDate


class DateView(Struct, frozen=True, gc=False):
    """A date as written, and the days it can mean, both ends included.

    `text`: as written (ISO 8601; EDTF where it is rough). An open end of a span is 0001-01-01 or
    9999-12-31. `exact`: it is one day; `approximate`, `uncertain`: as EDTF has it.
    """

    text: str
    first: date
    last: date
    exact: bool
    approximate: bool
    uncertain: bool


# Before the first line.
_NO_DAY = DateView("", date.min, date.min, False, False, False)


class CorrectionView(Struct, frozen=True, gc=False):
    """A later line that changed an entry.

    `undone`: it says that the entry never happened. `was`: how the entry first read, and `was_at`
    where that stands (`diary/2027.txt:12`).
    """

    when: DateView
    at: str
    remark: str
    undone: bool
    was: str
    was_at: str


class LateView(Struct, frozen=True, gc=False):
    """The day of the revision by which a line stood there as it is, long after its own day.

    `changed`: it had stood there otherwise before.
    """

    on: date
    changed: bool


class EntryView(Struct, frozen=True, kw_only=True, gc=False):
    """One line of a tree's history.

    `date`: as written, `when` the days it can mean. `act`: in its past form; `details`: as written;
    `text`: the same, with the act in front that a plan or a correction speaks of, where it is not
    among them. `at`: where it stands (`diary/2027.txt:12`). `shared_among`: how many trees share
    what is a total in it. `corrected`, `corrected_at`, `first_written`: whether a later line
    changed it, which, and the details as they first stood there; `correction`: all of that.
    `count`: where a line counted a batch, how many there are after it, as a person says it, else
    ""; `of`: to how many of it the line was done, null where to all. `within`: the handle of the
    batch that the tree was one of then, else "".
    `plainly`: what an owner reads in place of act and details, else "".
    `done`: it counts; neither taken back nor held back. `held_back`: not all of the line was
    understood, so it changes nothing. `kept`: the words of it that were not used. `private`: for
    the keeper's eyes only.
    `own_words`: the line as written, where own words of the keeper stand in it, or where it was
    said in other words than those of the language, else ""; `act`, `details` and `text` are what
    was read. `sign`: what it is drawn as. `hour`: its own, or its page's, as written (`10:30`), ""
    where none. `late`: where the journal's git repository tells that it was written, or changed,
    long after its day, else null. `for_owner`: its words, or
    its remark, that are marked for the tree's owner to read.
    """

    date: str
    when: DateView
    act: str
    details: str
    text: str
    remark: str
    at: str
    shared_among: int = 1
    corrected: bool = False
    corrected_at: str | None = None
    first_written: str | None = None
    correction: CorrectionView | None = None
    done: bool
    held_back: bool
    kept: tuple[str, ...]
    private: bool
    own_words: str = ""
    sign: Sign = ""
    count: str = ""
    of: int | None = None
    within: str = ""
    for_owner: str = ""
    plainly: str = ""
    late: LateView | None = None
    hour: str = ""

    @property
    def as_read(self) -> str:
        """The act as a line in words of the language: `repotted same pot, 2 cm off below`."""
        return f"{self.act} {self.details}".rstrip()

    @property
    def beside(self) -> str:
        """The words that were kept and do not stand in the text."""
        if not self.kept:
            return ""
        return "; ".join(words for words in self.kept if words not in self.text)

    @property
    def whose(self) -> str:
        """How many there are after the line, and of what batch the tree was one, in words."""
        told = [phrase("{count} now", count=self.count)] if self.count else []
        if self.within and self.of is not None:
            told = [phrase("said of {of} of {within}", of=self.of, within=self.within)]
        elif self.within:
            told = [phrase("as one of {within}", within=self.within)]
        return "; ".join(told)

    @property
    def shared(self) -> str:
        """Among how many trees it is shared, and how many of a batch it is said of, in words."""
        among = self.shared_among
        if among == 1 and not self.count and not self.within:
            return ""
        trees = phrase("shared among {trees}", trees=number(among, "tree")) if among > 1 else ""
        return "; ".join(filter(None, (trees, self.whose)))

    @property
    def written(self) -> str:
        """The act as a line, in the keeper's own words where there are such."""
        return self.own_words or self.as_read


class ToldHistory(NamedTuple):
    """The lines of a history as they are shown; and of its entries, in their order, those that may
    put wire on or take it off, that may tell how a zone grows, and that stand beside another year:
    done on a known day, and not the keeper's alone."""

    lines: tuple[EntryView, ...]
    of_wire: tuple[Entry, ...]
    of_zones: tuple[Entry, ...]
    beside: tuple[Entry, ...]


def entry_view(entry: Entry) -> EntryView:
    """An entry of a tree's history as it is shown."""
    return entry_views((entry,))[0]


def entry_views(entries: Iterable[Entry]) -> tuple[EntryView, ...]:
    """The entries of a history as they are shown."""
    return told_history(entries).lines


def told_history(entries: Iterable[Entry]) -> ToldHistory:
    """All that a tree's page tells of its history, from going through it once."""
    lines: list[EntryView] = []
    of_wire: list[Entry] = []
    of_zones: list[Entry] = []
    beside: list[Entry] = []
    written: WrittenDate | None = None
    when = _NO_DAY
    of_rows: dict[int, LinesOfAct] = {}
    for entry in entries:
        event = entry.event
        # What is done on a day mostly stands on one page of the diary, which has one date.
        if event.when is not written:
            written = event.when
            when = date_view(written)
        row = event.row
        of_act = of_rows.get(id(row))
        if of_act is None:
            of_act = of_rows[id(row)] = lines_of_act(row)
        text, remark = event.text, event.remark
        marked = text if of_act.prose else remark
        # Every line of every page comes by here, and few have any of what is asked in full.
        if (
            entry.corrected_by is not None
            or entry.as_written is not None
            or entry.within
            or entry.of is not None
            or entry.batch is not None
            or event.held
            or event.named
            or event.own
            or event.hour
            or (marked and marked[0] in "fF")
        ):
            line, undone = _told_in_full(entry, when, of_act, for_owner(marked))
        else:
            undone = False
            line = EntryView(
                date=when.text,
                when=when,
                act=event.act,
                details=text,
                text=text,
                remark=remark,
                at=f"{event.file}:{event.line}",
                shared_among=entry.among,
                done=True,
                held_back=False,
                kept=event.kept,
                private=of_act.may_be_private and event.is_for_keeper,
                sign=of_act.sign,
            )
        lines.append(line)
        if of_act.is_sorted:
            if of_act.of_wire:
                of_wire.append(entry)
            if of_act.of_zones:
                of_zones.append(entry)
            if of_act.stands_beside and when.exact and not (undone or line.private):
                beside.append(entry)
    return ToldHistory(tuple(lines), tuple(of_wire), tuple(of_zones), tuple(beside))


def _told_in_full(
    entry: Entry, when: DateView, of_act: LinesOfAct, said: str
) -> tuple[EntryView, bool]:
    """A line of which all is asked; and whether it never happened. `said`: to the owner."""
    event, by = entry.event, entry.corrected_by
    held, undone = event.held, by is not None and entry.undone
    line = EntryView(
        date=when.text,
        when=when,
        act=held or event.act,
        details=event.text,
        text=_details(event),
        remark=event.remark,
        at=f"{event.file}:{event.line}",
        shared_among=entry.among,
        done=not (held or undone),
        held_back=held != "",
        kept=event.kept,
        private=is_entry_for_keeper(entry),
        sign=of_act.sign,
        own_words=event.own,
        hour=event.hour,
        of=entry.of,
        within=entry.within,
        for_owner=said,
    )
    if by is not None or (entry.batch is not None and of_act.moves_count) or entry.within:
        line = replace(line, **_more_of(entry, of_act.moves_count))
    return line, undone


def _more_of(entry: Entry, moves_count: bool) -> dict[str, object]:
    """What is shown of few entries, by the name of the field."""
    more: dict[str, object] = {}
    if entry.corrected_by is not None:
        more |= _corrected(entry, entry.corrected_by)
    if entry.batch is not None and moves_count:
        more["count"] = entry.batch.said
    if entry.within and entry.of is not None:
        # Of what was done to some of its batch nobody knows whether the tree was among them.
        more |= {"held_back": False, "kept": ()}
    return more


def _corrected(entry: Entry, by: Event) -> dict[str, object]:
    first = entry.as_written
    return {
        "corrected": True,
        "corrected_at": str(by.origin),
        "first_written": first.text if first else None,
        "correction": _correction(entry, by),
    }


def late_in(journal: Journal, today: date) -> dict[str, LateView]:
    """The lines that were written, or changed, long after their day, by where they stand: as the
    git repository of the journal's folder tells."""
    found = late_lines(journal.texts, written_when(journal.folder, journal.memory), today)
    return {at: LateView(one.on, one.changed) for at, one in found.items()}


def late_by_tree(
    trees: Iterable[Tree], late: Mapping[str, LateView]
) -> dict[str, dict[str, LateView]]:
    """By the handle of each tree that has some, its lines that were written late, by where they
    stand. `late`: those of all."""
    if not late:
        return {}
    found: dict[str, dict[str, LateView]] = {}
    for tree in trees:
        for entry in tree.history:
            at = f"{entry.event.file}:{entry.event.line}"
            if at in late:
                found.setdefault(tree.handle, {})[at] = late[at]
    return found


def date_view(when: WrittenDate) -> DateView:
    """A written date as it is shown."""
    # Made as quickly as it would be found again among thousands.
    return DateView(when.text, when.first, when.last, when.exact, when.approximate, when.uncertain)


def _correction(entry: Entry, by: Event) -> CorrectionView:
    first = entry.as_written or entry.event
    return CorrectionView(
        date_view(by.when),
        str(by.origin),
        by.remark,
        by.has("not done"),
        f"{first.act} {_details(first)}".rstrip(),
        str(first.origin),
    )


def _details(event: Event) -> str:
    """The details as written, with the act they speak of in front where it is not among them."""
    if not event.named:
        return event.text
    act, head = event.named_row, event.text.partition(" ")[0].rstrip(",").casefold()
    if head in (act.word, act.bare, *act.also):
        return event.text
    return f"{event.named} {event.text}".rstrip()
