"""What went to a CalDAV server, and what was ticked off there, as it is shown to a program."""

from __future__ import annotations

from datetime import date

from msgspec import Struct

from backbud.views.problem import ProblemView


class SentView(Struct, frozen=True):
    """What became of one feed: its calendar's name, and how many entries were `written`, taken out
    (`removed`) or stayed as they were (`kept`). `waiting`: tasks that are ticked off there and not
    collected yet. `changed_there`: entries that somebody changed just then. `refused`: those that
    the server did not take. `unmarked`: titles that may not be of this journal. `odd`: what could
    not be understood, a sentence each."""

    name: str
    written: int
    removed: int
    kept: int
    waiting: int
    changed_there: int
    refused: int = 0
    unmarked: tuple[str, ...] = ()
    odd: tuple[str, ...] = ()


class PublishedView(Struct, frozen=True):
    """What `backbud publish` did: the server, each calendar, and the journal's problems."""

    server: str
    calendars: tuple[SentView, ...]
    problems: tuple[ProblemView, ...]


class OfferView(Struct, frozen=True):
    """A line that a tick became: the work's `id`, the `file`, the day (`date`) and the `tree` whose
    page it goes to."""

    id: str
    file: str
    date: date
    tree: str
    line: str


class CollectedView(Struct, frozen=True):
    """What a server's ticks come to. `offered`: lines for the diary. `not_to_be_written`: why one
    cannot be, a sentence each. `in_the_diary_already`: entries whose tick was dealt with.
    `not_marked`: what is ticked off and may not be of this journal. `not_understood`: a sentence
    each."""

    offered: tuple[OfferView, ...]
    not_to_be_written: tuple[str, ...]
    in_the_diary_already: tuple[str, ...]
    not_marked: tuple[str, ...]
    not_understood: tuple[str, ...]
