"""The history of a tree as it is shown: its entries, what was corrected, and what is private."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from functools import lru_cache

from msgspec import Struct
from msgspec.structs import replace

from backbud.collection.batch import ARRIVALS, GOINGS, RAISED
from backbud.collection.state import Entry, Tree
from backbud.journal.events import Event
from backbud.journal.late_lines import late_lines
from backbud.journal.read import Journal
from backbud.journal.written_when import written_when
from backbud.tongue import phrase
from backbud.views.for_keeper import is_entry_for_keeper
from backbud.views.life import Sign, sign_of
from backbud.views.marked import for_owner
from backbud_grammar.act_words import ActWord
from backbud_grammar.by_row import by_row
from backbud_grammar.dates import WrittenDate
from backbud_grammar.forms import ANY_WORDS, ActForm


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
    understood, so it changes nothing. `kept`: the words of it that were not used. `free_words`:
    some of its details may hold any words at all. `private`: for the keeper's eyes only.
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
    free_words: bool
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
    def written(self) -> str:
        """The act as a line, in the keeper's own words where there are such."""
        return self.own_words or self.as_read


def entry_view(entry: Entry) -> EntryView:
    """An entry of a tree's history as it is shown."""
    event = entry.event
    row, held, remark = event.row, event.held, event.remark
    free = row.prose
    if not free and event.details and (names := free_names(row)):
        for detail in event.details:
            if detail.name in names:
                free = True
                break
    shown = EntryView(
        date=event.when.text,
        when=date_view(event.when),
        act=held or event.act,
        details=event.text,
        text=_details(event) if event.named else event.text,
        remark=remark,
        at=f"{event.file}:{event.line}",
        done=not (held or entry.undone),
        held_back=bool(held),
        kept=event.kept,
        free_words=free,
        private=is_entry_for_keeper(entry),
        sign=sign_of(row),
    )
    # Few lines have any of what follows, and every line of every page comes by here.
    more = _more_of(entry)
    if (remark or row.prose) and (said := for_owner(event.text if row.prose else remark)):
        more["for_owner"] = said
    return replace(shown, **more) if more else shown


def _more_of(entry: Entry) -> dict[str, object]:
    """What is shown of few entries, by the name of the field."""
    event = entry.event
    more: dict[str, object] = {}
    if event.own:
        more["own_words"] = event.own
    if event.hour:
        more["hour"] = event.hour
    if entry.among != 1:
        more["shared_among"] = entry.among
    if entry.corrected_by is not None:
        more |= _corrected(entry, entry.corrected_by)
    if entry.batch is not None and event.act in _MOVE_COUNTS:
        more["count"] = entry.batch.said
    if entry.of is not None:
        more["of"] = entry.of
    if entry.within:
        more["within"] = entry.within
        if entry.of is not None:
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


# Lines that tell how many there are now; others tell it in their own words, or leave it as it was.
_TELL_COUNTS: frozenset[ActWord] = frozenset({"germinated", "counted", "parted-off"})
_MOVE_COUNTS = {*GOINGS, *ARRIVALS, *_TELL_COUNTS} - RAISED


@by_row
def free_names(row: ActForm) -> frozenset[str]:
    """Which details of an act may hold any words at all."""
    return frozenset(form.name for form in row.forms if form.prose or form.words == ANY_WORDS)


@lru_cache(maxsize=16384)
def date_view(when: WrittenDate) -> DateView:
    """A written date as it is shown; thousands of trees share the same."""
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
