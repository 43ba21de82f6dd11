"""Lays out species, and the year of one, for a terminal."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from textwrap import wrap

from backbud.views.kind import KindName, KindView
from backbud.words import between, day, number

_WIDE = 96


def list_lines(known: Iterable[KindName]) -> Iterator[str]:
    """Every species: its common name, its botanical name, its other names, where it comes from."""
    rows = [(one.common, one.botanical, ", ".join(one.also), one.origin) for one in known]
    wide = [max((len(row[at]) for row in rows), default=0) for at in range(2)]
    for title, botanical, also, origin in rows:
        more = f"; also {also}" if also else ""
        yield f"{title:<{wide[0]}}  {botanical:<{wide[1]}}  {origin}{more}"
    yield f"\n{number(len(rows), 'species', 'species')}. Its year: backbud species NAME"


def sheet_lines(kind: KindView) -> Iterator[str]:
    """A species' year as a kind."""
    first = kind.first_day.year
    yield f"{kind.common} ({kind.botanical})"
    if kind.also:
        yield from _text(f"also {', '.join(kind.also)}")
    yield f"  {kind.origin}{', evergreen' if kind.evergreen else ''}"
    if kind.habit:
        yield from _text(kind.habit)
    if kind.unsuited:
        yield from _text(kind.unsuited, "  ! ")
    yield from _heading("Facts")
    wide = max(len(fact.label) for fact in kind.facts)
    for fact in kind.facts:
        source = f" ({fact.source})" if fact.source else ""
        yield from _text(f"{fact.value}{source}", f"  {fact.label:<{wide}}  ")
    where = f"at {kind.place}" if kind.place else "by the months of the northern hemisphere"
    yield from _heading(f"Its year {kind.year}, {where}")
    is_one_datum = len({stage.because for stage in kind.stages}) == 1
    for stage in kind.stages:
        days = between(stage.opens, stage.closes, first)
        yield f"  {stage.bbch:02}  {stage.name}: {days}, about {day(stage.best, first)}"
        if not is_one_datum:
            yield from _text(stage.because, "      ")
    if kind.stages and is_one_datum:
        yield from _text(kind.stages[0].because, "      ")
    if kind.stages:
        yield from _text(f"{kind.stages_from}.", "      ")
    yield from _heading(
        "What falls due on a strong tree; one in its year of repotting, and one that is not"
    )
    for work in kind.works:
        window = between(work.opens, work.closes, first)
        yield f"  {window}: {work.title}"
        yield from _text(_with_source(work.because, work.source), "      ")
        for caution in work.cautions:
            yield from _text(caution, "    ! ")
    if kind.afterwards:
        yield from _heading("After a work")
    for after in kind.afterwards:
        yield f"  {', '.join(after.after)}: {after.title}, {_later(after.days)}"
        yield from _text(_with_source(after.because, after.source), "      ")
    for title, sentences in (("What must not be done", kind.never), ("Advice", kind.advice)):
        if sentences:
            yield from _heading(title)
        for sentence in sentences:
            yield from _text(sentence, "  - ")


def _with_source(because: str, source: str) -> str:
    """The reason, and where it comes from unless it names that itself."""
    return because if source in because else f"{because} ({source})"


def _heading(text: str) -> Iterator[str]:
    yield ""
    yield text


def _text(text: str, lead: str = "  ") -> Iterator[str]:
    """A text in lines, the first behind its lead, the others under it."""
    room = max(_WIDE - len(lead), 40)
    for at, line in enumerate(wrap(text, room, break_on_hyphens=False)):
        yield f"{lead if at == 0 else ' ' * len(lead)}{line}"


def _later(days: tuple[int, int, int]) -> str:
    """`4 to 7 weeks later`, `within 3 days`, `at once`."""
    first, _, last = days
    if last <= 0:
        return "at once"
    if first >= 14:
        return f"{round(first / 7)} to {round(last / 7)} weeks later"
    return f"{first} to {last} days later" if first > 0 else f"within {number(last, 'day')}"
