"""Reads a journal with some of its files as they would be, and tells whether it says the same."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from datetime import date
from typing import Any

from backbud.journal.copies import RESTS_AND_STANDS
from backbud.journal.events import Event
from backbud.journal.find import Found
from backbud.journal.load import Loaded, loaded_from
from backbud.journal.read import Journal, read_journal
from backbud.journal.source import OnDisk
from backbud.publish.memory import MemoryOf

# A run that was stopped is finished; how many short pages are alike is counted by file.
_MAY_CHANGE = (RESTS_AND_STANDS, "repeated-pages")


class WithTexts(OnDisk):
    """The files on the disk, but for some that hold something else or, with None, nothing."""

    def __init__(self, folder: str, texts: Mapping[str, bytes | None]) -> None:
        super().__init__(folder)
        self._texts = texts

    def found(self) -> Found:
        found = super().found()
        names = {*found.files, *self._texts} - {
            n for n, text in self._texts.items() if text is None
        }
        return Found(tuple(sorted(names)), found.passed_over)

    def loaded(self, name: str) -> Loaded:
        text = self._texts.get(name)
        return loaded_from(text) if text is not None else super().loaded(name)


def reads_the_same(journal: Journal, today: date, texts: Mapping[str, bytes | None]) -> bool:
    """Whether the journal says the very same once these files hold these bytes: every page, line
    and day's weather in its order, and as many problems of each sort."""
    folder = journal.folder
    acts = tuple(dict.fromkeys(journal.acts.values()))
    then = read_journal(
        folder,
        today,
        acts=acts,
        memory=MemoryOf(folder, keeps=False),
        source=WithTexts(folder, texts),
    )
    return _said(then) == _said(journal)


def _said(journal: Journal) -> tuple[Any, ...]:
    """All that is read, without where it stands."""
    pages = [
        (page.when.text, [(block.text, [_event(e) for e in block.events]) for block in page.blocks])
        for page in journal.pages
    ]
    weather = [(one.day, one.place, one.name, one.value, one.unit) for one in journal.weather]
    codes = Counter(f.flaw.code for f in journal.flaws if f.flaw.code not in _MAY_CHANGE)
    return pages, weather, codes, sorted(journal.things.by_handle)


def _event(event: Event) -> tuple[Any, ...]:
    named = (event.act, event.text, event.remark, event.named, event.held, event.kept, event.own)
    return (*named, event.hour, event.details)
