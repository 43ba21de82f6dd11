"""A journal with a page more, in memory: what new lines would do is tried, not guessed."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from msgspec.structs import replace

from backbud.jot.placing import DiaryPlace
from backbud.journal.dated import DatedPage
from backbud.journal.diary import DiaryReader
from backbud.journal.page_text import page_text
from backbud.journal.read import Journal
from backbud.journal.remember import Kept
from backbud.journal.said import ActReader
from backbud.journal.same_words import words_in
from backbud_grammar.dates import read_date
from backbud_grammar.languages import LANGUAGE
from backbud_grammar.outline import Known
from backbud_grammar.problems import Flaw


def page_of(
    journal: Journal, day: date, blocks: str, place: DiaryPlace
) -> tuple[DatedPage, tuple[Flaw, ...]]:
    """A page of a day with these blocks, read as the journal's pages are, and what is wrong in it.

    The blocks begin on its line 2 (0 first).
    """
    when = read_date(day.isoformat())
    text = f"{when.text}\n\n{blocks}"
    section = page_text(text)
    acts = ActReader(
        journal.things,
        journal.details,
        lambda word, text: None,
        {},
        journal.own_words,
        journal.settings.languages,
        LANGUAGE,
        journal.settings.gallon,
    )
    if section is None:
        raise ValueError(f"{day} does not begin a page")
    kept = Kept(b"", text.count("\n"), words_in(text.encode()), section)
    page, _, flaws = DiaryReader(acts).page(kept, when, place.file, place.at)
    return page, flaws


def known_on(journal: Journal, day: date) -> Known:
    """What a line of a day may begin with: the journal's acts, and own words that stand for one."""
    known = Known.of(journal.acts)
    own = {" ".join(run) for run in journal.own_words.on(day).runs()}
    return replace(known, words=known.words | own) if own else known


def with_page(pages: Iterable[DatedPage], page: DatedPage) -> tuple[DatedPage, ...]:
    """The pages with one more, behind those of its day."""
    return tuple(sorted((*pages, page), key=lambda one: one.when.first))
