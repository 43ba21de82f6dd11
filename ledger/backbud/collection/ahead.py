"""Begins the replay of a check while later pages of a large new diary are still being read.

It needs to know before its first page who comes, goes or is corrected on any page: pages that look
as if they told of that are read before all others. Whether none was missed is seen as the pages
come; where one was, all is replayed anew.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from itertools import groupby
from operator import itemgetter
from threading import Thread

from backbud.collection.comings import TURNS, turns_of
from backbud.collection.moments import FromBeginning
from backbud.journal.dated import DatedPage
from backbud.journal.read import journal_so_far
from backbud.journal.steps import SoFar
from backbud_grammar.forms import ActForm


class ReplayAhead:
    """A replay that goes on page by page as they are read; `found` once it has begun, and as long
    as all pages were as they seemed."""

    def __init__(self) -> None:
        self.found: FromBeginning | None = None
        self._seen = 0
        self._writing: Thread | None = None
        # It lasts as long as this: to take it apart takes a while, and the command ends soon.
        self._reading: SoFar | None = None

    def comes_first(self, acts: Mapping[str, ActForm]) -> Callable[[str], object]:
        """Asks whether some line of a page begins with the word of one of `TURNS`.

        In capital letters it is found too late, and all replayed anew: to look for letters in any
        case takes four times as long.
        """
        words = sorted([word for word, form in acts.items() if form.word in TURNS])
        one_of = "|".join(
            f"[{first.upper()}{first}](?:{'|'.join([re.escape(word[1:]) for word in some])})"
            for first, some in groupby(words, itemgetter(0))
        )
        return re.compile(rf"\n[ \t]+(?:{one_of})\b").search

    def begin(self, reading: SoFar, known: Sequence[DatedPage], so_many: int) -> None:
        """Put every tree where it stands before the first page."""
        self._reading = reading
        self.found = FromBeginning(journal_so_far(reading), known, turns_of(known), so_many)

    def go_on(self, pages: Sequence[DatedPage]) -> None:
        """Replay the pages of the next days, if they hold no other turns than were known."""
        if self.found is None:
            return
        turns = turns_of(pages)
        known = self.found.turns[self._seen : self._seen + len(turns)]
        self._seen += len(turns)
        if [id(event) for _, event in turns] == [id(event) for _, event in known]:
            self.found.go_on(pages)
        else:
            self.found = None

    def write(self, write: Callable[[], None]) -> None:
        """Let a thread write what is remembered; this one goes on, and has all the more to do."""
        self._writing = Thread(target=write)
        try:
            self._writing.start()
        except RuntimeError:
            # The system gives no more of them.
            self._writing = None
            write()

    def end(self) -> None:
        """Wait until all is written."""
        if self._writing is not None:
            self._writing.join()
            self._writing = None
