"""Lays out what stands together in a week as one calendar entry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from backbud.calendar import notes
from backbud.calendar.entries import (
    BEFORE_DUSK,
    CalendarEntry,
    alarms,
    entry_of,
    joint_uid_of,
    url_of,
)
from backbud.calendar.lines import content_line, day_value, one_line, text_line
from backbud.climate.ahead import NightAhead, celsius, colder_later
from backbud.journal.settings import Settings
from backbud.pages.links import anchor_of, tree_page
from backbud.tongue import phrase
from backbud.views.week_entries import WeekEntry, WeekWork
from backbud.words import day, monday_of, number, sentence, weekday

_DAY = timedelta(days=1)
_LAST_DAY = date.max - _DAY


# They stand on their days, not on those of a week.
_OF_THEIR_OWN_DAYS = ("late", "foretold")


def joint_event_of(entry: WeekEntry, settings: Settings) -> CalendarEntry:
    """Return the event of works that stand together.

    It stands on its day, or through its week where calendars show windows. Its words depend on the
    works alone, and so on today only where these do.
    """
    uid = joint_uid_of(entry.name, settings.journal_id)
    first, last = entry.first, min(entry.last, _LAST_DAY)
    if settings.show == "window" and entry.sort not in _OF_THEIR_OWN_DAYS:
        first = monday_of(first)
        last = min(first + 6 * _DAY, _LAST_DAY)
    said = _title(entry)
    lines = [
        text_line("UID", uid),
        text_line("SUMMARY", said),
        text_line("CATEGORIES", one_line(_category(entry))),
        text_line("DESCRIPTION", _note(entry, settings)),
        *_where(entry),
        content_line("DTSTART;VALUE=DATE", day_value(first)),
        content_line("DTEND;VALUE=DATE", day_value(last + _DAY)),
        content_line("TRANSP", "TRANSPARENT"),
    ]
    if settings.base_url:
        lines.append(content_line("URL", _page(entry, settings)))
    if entry.sort == "foretold":
        hour = timedelta(hours=settings.alarm_hour)
        lines += alarms(said, settings, "START", (hour, BEFORE_DUSK))
    elif entry.sort != "late":
        lines += alarms(said, settings, "START")
    return entry_of("VEVENT", first, uid, lines)


def _where(entry: WeekEntry) -> Iterator[bytes]:
    if entry.place_name:
        yield text_line("LOCATION", one_line(entry.place_name))


def _category(entry: WeekEntry) -> str:
    """The sort of its work, where it has one."""
    return entry.work.split()[0] if entry.work else entry.sort


def _title(entry: WeekEntry) -> str:
    works, trees = entry.works, entry.trees
    count = number(len(works), "work")
    match entry.sort:
        case "foretold":
            told = tuple(_foretold(entry))
            return notes.first_that_fits(*told) or notes.title(told[-1])
        case "must" if len(works) == 1:
            return notes.tree_first(works[0].called, works[0].title)
        case "must" if len(trees) == 1:
            return notes.tree_first(trees[0], _named(entry), "", f" × {len(works)}")
        case "must":
            return notes.names_counted(_named(entry), f" {len(trees)}", trees)
        case "may" if len(works) == 1:
            return notes.tree_first(
                works[0].called, phrase("chance to {title}", title=works[0].title)
            )
        case "may":
            return _chance(_named(entry), works[0].named, len(trees), entry.kind)
        case "kind":
            return notes.led(phrase("chances: "), f"{count}, {entry.kind}")
        case "chances":
            return phrase(
                "chances: {count}, {trees}", count=count, trees=number(len(trees), "tree")
            )
        case "place" if entry.place_name:
            return notes.led("", entry.place_name, f": {count}")
        case "late" if len(works) == 1:
            return _late(works[0])
        case "late":
            return phrase("past its time: {count}", count=count)
    return phrase("{count} at several places", count=count)


def _foretold(entry: WeekEntry) -> Iterator[str]:
    """`Frost −6, then −11: protect 7 at glass`: what comes, what to do, for how many and where;
    the fullest first, then briefer ones. When it comes is the day that the entry stands on."""
    first = entry.works[0]
    work = phrase(_FORETOLD_WORKS.get(entry.work, first.named))
    trees = len({one.tree for one in entry.works})
    lead = (
        f"{sentence(phrase(entry.work))} {_bare(first.foretold.figure if first.foretold else '')}"
    )
    leads = [lead]
    coldest = _coldest(entry)
    if coldest is not None and first.foretold is not None:
        figure = celsius(coldest.low_c)
        if figure != first.foretold.figure:
            leads = [
                phrase("{lead}, then {bare}", lead=lead, bare=_bare(figure)),
                phrase("{work} to {bare}", work=sentence(phrase(entry.work)), bare=_bare(figure)),
            ]
    whole = first.called if trees == 1 else f"{trees}"
    places = () if trees == 1 or not entry.place else (entry.place_name, entry.place)
    for said in leads:
        yield from (
            phrase(
                "{said}: {work} {whole} at {place}", said=said, work=work, whole=whole, place=place
            )
            for place in places
        )
    yield from (f"{said}: {work} {whole}" for said in leads)


# What is done where the act alone does not say it.
_FORETOLD_WORKS = {"cold": "move in", "rain": "check drainage of"}


def _bare(figure: str) -> str:
    """A night's figure without its unit, which everybody knows."""
    return figure.removesuffix(" °C")


def _coldest(entry: WeekEntry) -> NightAhead | None:
    """The coldest of the nights that it is about."""
    nights = [
        NightAhead(said.coldest_on, said.coldest_c)
        for one in entry.works
        if (said := one.foretold) and said.coldest_on is not None and said.coldest_c is not None
    ]
    return min(nights, key=lambda one: (one.low_c, one.day), default=None)


def _foretold_days(entry: WeekEntry) -> str:
    """`In the night to Monday 30 November −6 °C, −11 °C in the next.`: what comes when."""
    said = entry.works[0].foretold
    if said is None:
        return _days(entry)
    on = f"{weekday(said.on)} {day(said.on, said.on.year)}"
    if said.what not in ("frost", "cold"):
        return phrase(
            "{what} of {figure} on {on}.",
            what=sentence(phrase(said.what)),
            figure=said.figure,
            on=on,
        )
    coldest = _coldest(entry)
    colder = colder_later(said.on, said.figure, coldest) if coldest else ""
    return phrase(
        "In the night to {on} {figure}{colder}.",
        on=on,
        figure=said.figure,
        colder=colder and f", {colder}",
    )


def _chance(title: str, named: str, count: int, kind: str) -> str:
    """`chance: pinch the tips 16 trident maple`; of a longer work its sort, or trees for the kind:
    what is to be done, and to how many, stays."""
    trees = f" {number(count, 'tree')}"
    return notes.first_that_fits(
        phrase("chance: {title} {count} {kind}", title=title, count=count, kind=kind),
        phrase("chance: {named} {count} {kind}", named=named, count=count, kind=kind),
    ) or notes.led(phrase("chance: "), named, trees)


def _late(work: WeekWork) -> str:
    """`past its time: gale: unwire`; of a longer work `puffin: late: release from quarantine`."""
    whole = notes.first_that_fits(
        phrase("past its time: {called}: {title}", called=work.called, title=work.title)
    )
    return whole or notes.tree_first(work.called, work.title, phrase("late: "))


def _named(entry: WeekEntry) -> str:
    """The work in words: its title where all have one that is short, else what sort it is."""
    titles = {work.title for work in entry.works}
    brief = notes.title(entry.works[0].title, 24)
    return brief if len(titles) == 1 and "…" not in brief else entry.works[0].named


def _note(entry: WeekEntry, settings: Settings) -> str:
    takes = sum(work.minutes for work in entry.works)
    cautions = tuple(dict.fromkeys(one for work in entry.works for one in work.cautions))
    page = _page(entry, settings) if settings.base_url else ""
    if entry.sort == "foretold":
        return notes.note_of_trees(entry.trees, _foretold_days(entry), takes, cautions, page)
    return notes.note(_days(entry), takes, cautions, _after(entry, settings), page)


def _after(entry: WeekEntry, settings: Settings) -> Sequence[str]:
    """Whose works these are, or of one the reason."""
    if len(entry.works) == 1:
        return notes.reasons(entry.works[0].because)
    names = notes.names_line(_names(entry), 90 if settings.base_url else 120)
    return (names,) if names else ()


def _names(entry: WeekEntry) -> tuple[str, ...]:
    """Whose works these are; of more than one sort, with what is to be done."""
    if entry.work:
        return entry.trees
    by_work: dict[str, list[WeekWork]] = {}
    for work in entry.works:
        by_work.setdefault(work.named, []).append(work)
    return tuple(
        f"{named}: {some[0].called}" + (f" +{len(some) - 1}" if some[1:] else "")
        for named, some in by_work.items()
    )


def _days(entry: WeekEntry) -> str:
    """By when all of it is to be done."""
    if entry.sort == "late":
        since = min(work.closes for work in entry.works)
        return phrase("The oldest was to be done by {day}.", day=day(since, entry.first.year))
    closes = min(work.closes for work in entry.works)
    if closes == date.max:
        return phrase("No last day.")
    if all(work.stays_on for work in entry.works):
        return phrase("Stays on until {day}.", day=day(closes, entry.first.year))
    lead = phrase("By") if len(entry.works) == 1 else phrase("The first by")
    return f"{lead} {day(closes, entry.first.year)}."


def _page(entry: WeekEntry, settings: Settings) -> str:
    """The work on its tree's page, or the first page where there are several."""
    if len(entry.works) > 1:
        return url_of(settings.base_url, "index.html")
    (work,) = entry.works
    return url_of(settings.base_url, tree_page(work.tree), anchor_of(work.id))
