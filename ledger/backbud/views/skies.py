"""Works out the figures that the weather page shows of the air of each place.

The home place comes first, then each place with a sky of its own: its own days, or another cover
that shifts heat. Places that share a sky share its figures.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from functools import partial

from backbud.climate.air import DAY, Air
from backbud.climate.outlook import Outlook
from backbud.climate.winter import FEWEST_ON_RECORD
from backbud.collection.places import cover_of
from backbud.collection.state import Tree
from backbud.journal.read import Journal
from backbud.journal.weather.record import WeatherRecord
from backbud.journal.weather.records import Records
from backbud.plan.covers import cover_from
from backbud.plan.skies import MEANS_FROM, Skies
from backbud.plan.water import water_of
from backbud.species import Species
from backbud.tongue import full_day, phrase
from backbud.views.ahead import ahead_of
from backbud.views.frosts import frosts_view
from backbud.views.sky import (
    AirWeek,
    Chilled,
    Sky,
    Weather,
    YearAir,
)
from backbud.views.sums import WEEK, chill_sum, days_from, heat_sum, least_and_most, winter_of
from backbud.words import number
from backbud_grammar.dates import growing_year, growing_year_days

# From what a place's latitude is known.
_KNOWN_FROM = {"card": "card", "town": "town", "weather file": "weather file", "": ""}


def weather_of(
    journal: Journal,
    trees: Iterable[Tree],
    species: Mapping[str, Species | None],
    records: Records,
    today: date,
) -> Weather:
    """Gather the weather of every place; `species` by the tree's handle."""
    trees = tuple(trees)
    skies = Skies(records, journal.settings.figures, journal.southern, today)
    kinds = {
        found.title: found.chill_portions.value
        for tree in trees
        if tree.here
        and (found := species.get(tree.handle)) is not None
        and found.chill_portions is not None
    }
    cards = journal.things.of_kind("place")
    order = sorted(cards, key=lambda card: card.handle != records.home)
    shared: dict[tuple[object, ...], list[str]] = {}
    outlooks: dict[tuple[object, ...], Outlook] = {}
    unknown: list[str] = []
    for card in order:
        outlook = skies.over(card.handle, cover_of(card, journal.things))
        if outlook is None:
            unknown.append(card.handle)
            continue
        key = _same_sky(records.record_of(card.handle), outlook)
        outlooks.setdefault(key, outlook)
        shared.setdefault(key, []).append(card.handle)
    known = tuple(
        records.reckoned(
            ("sky", tuple(places), tuple(kinds.items())),
            partial(_sky, journal, records, outlooks[key], tuple(places), kinds),
        )
        for key, places in shared.items()
    )
    home_known = bool(known) and records.home in known[0].places
    return Weather(
        records.home,
        home_known,
        known,
        tuple(unknown),
        water_of(journal, trees, species, records, today),
        tuple(_year_airs(known[0], journal.southern)) if home_known else (),
        journal.southern,
        ahead_of(trees, journal.things, records, skies, today),
        bool(records.home) and records.record_of(records.home).position.latitude is not None,
    )


def _year_airs(sky: Sky, southern: bool) -> Iterator[YearAir]:
    """The growing years of a sky, the latest first; each has the frosts that fell in it."""
    first: dict[str, date] = {}
    last: dict[str, date] = {}
    seasons = (*sky.frosts.seasons, sky.frosts.this) if sky.frosts else ()
    for one in seasons:
        if one.first:
            first[growing_year(one.first, southern)] = one.first
        # The last of a winter that is not over is none of spring.
        if one.last and one.last != one.first and one is not seasons[-1]:
            last[growing_year(one.last, southern)] = one.last
    for name, heat, whole in (
        (sky.heat.name, sky.heat.now, False),
        *((year.name, year.whole, True) for year in sky.heat.years),
    ):
        yield YearAir(name, round(heat), last.get(name), first.get(name), whole)


def _same_sky(record: WeatherRecord, outlook: Outlook) -> tuple[object, ...]:
    """What two places have alike that share a sky: days, means, latitude and shift."""
    days = (record.place, *record.days_from) if record.own_days else record.days_from
    return days, record.means_place, outlook.latitude, outlook.shift


def _sky(
    journal: Journal,
    records: Records,
    outlook: Outlook,
    places: tuple[str, ...],
    kinds: Mapping[str, float],
) -> Sky:
    record = records.record_of(places[0])
    today, southern = outlook.air.today, outlook.southern
    first, last = growing_year_days(today, southern)
    words = cover_of(journal.things.find(places[0]), journal.things)
    cover = cover_from(words, journal.settings.figures)
    week = today - (WEEK - 1) * DAY
    winter = winter_of(outlook, today)
    return Sky(
        places,
        words,
        cover.light,
        growing_year(today, southern),
        tuple(_weeks(outlook, first, last)),
        len(_years_on_record(outlook, first)),
        outlook.mean(week, WEEK).celsius,
        _usual(outlook, first, week),
        sum(outlook.air.of(day).measured for day in days_from(week, WEEK)),
        heat_sum(outlook, first, last),
        chill_sum(outlook, winter),
        tuple(
            Chilled(kind, portions, outlook.chill_met(winter, portions))
            for kind, portions in sorted(kinds.items(), key=lambda pair: (pair[1], pair[0]))
        ),
        frosts_view(outlook),
        tuple(_sources(journal, records, record)),
    )


# ------------------------------------------------------------------ temperature


def _years_on_record(outlook: Outlook, first: date) -> tuple[date, ...]:
    """The first days of the years that averages are of; none where they are too few."""
    years = outlook.air.complete_years(first)
    return years if len(years) >= FEWEST_ON_RECORD else ()


def _weeks(outlook: Outlook, first: date, last: date) -> Iterator[AirWeek]:
    """The weeks of a year; the day or two left over belong to the last."""
    whole = (last - first).days + 1
    years = _years_on_record(outlook, first)
    for n in range(whole // WEEK):
        days = WEEK if n + 1 < whole // WEEK else whole - n * WEEK
        yield _week(outlook, first, n * WEEK, days, years)


def _week(outlook: Outlook, first: date, after: int, days: int, years: Iterable[date]) -> AirWeek:
    """`after`: how many days after the first of its year it begins."""
    begins = first + after * DAY
    seen = [outlook.shift.under(outlook.air.of(day)) for day in days_from(begins, days)]
    measured = [one for one in seen if one.measured]
    others = [_mean_of(outlook, year + after * DAY, days) for year in years]
    return AirWeek(
        begins,
        days,
        len(measured),
        _mean([one.mean_c for one in seen]),
        _mean(others) if others else _usual_of(outlook, begins, days),
        *least_and_most(others),
        *_extremes(measured),
    )


def _mean_of(outlook: Outlook, first: date, days: int) -> float:
    """The mean of some days of a year on record."""
    air = (outlook.shift.under(outlook.air.of(day)) for day in days_from(first, days))
    return sum(one.mean_c for one in air) / days


def _usual_of(outlook: Outlook, first: date, days: int) -> float:
    """The mean of some days by the monthly means."""
    return _mean(
        [outlook.shift.under(outlook.air.expected(day)).mean_c for day in days_from(first, days)]
    )


def _usual(outlook: Outlook, first: date, week: date) -> float:
    """What the week from a day is on average: of the years on record, or by the monthly means."""
    years = _years_on_record(outlook, first)
    if not years:
        return outlook.usual_mean(week, WEEK).celsius
    return _mean([_mean_of(outlook, year + (week - first), WEEK) for year in years])


def _mean(values: Sequence[float]) -> float:
    return round(sum(values) / len(values), 1)


def _extremes(days: Sequence[Air]) -> tuple[float | None, float | None]:
    if not days:
        return None, None
    return round(min(d.low_c for d in days), 1), round(max(d.high_c for d in days), 1)


# ------------------------------------------------------------------ sources


def _sources(journal: Journal, records: Records, record: WeatherRecord) -> Iterator[str]:
    """Where the figures come from: files, day lines, means, and the place's position."""
    names = {thing.handle: thing.title for thing in journal.things.of_kind("place")}
    for handle in (record.place, *record.days_from):
        where = (
            phrase(" (of {handle})", handle=names.get(handle, handle))
            if handle != record.place
            else ""
        )
        for source in records.record_of(handle).sources:
            station = f", {source.station}" if source.station else ""
            counted = [number(source.days, "day")] if source.days else []
            counted += [number(source.months, "month")] if source.months else []
            said = phrase(
                "{file}{where}: {form}{station}, {full_day} to {full_day_2}, {counted}",
                file=source.file,
                where=where,
                form=source.form,
                station=station,
                full_day=full_day(source.first),
                full_day_2=full_day(source.last),
                counted=" and ".join(counted),
            )
            if source.flagged_values:
                said += phrase(
                    "; {values} left out that its publisher doubts",
                    values=number(source.flagged_values, "value"),
                )
            if source.estimated_values:
                said += phrase(
                    "; {values} that its publisher marks as estimates, used",
                    values=number(source.estimated_values, "value"),
                )
            yield f"{said}."
        written = sorted(
            {said.day for said in journal.weather if (said.place or records.home) == handle}
        )
        if written:
            yield (
                phrase(
                    "Day lines of the diary{where}: {days}, {full_day} to {full_day_2}.",
                    where=where,
                    days=number(len(written), "day"),
                    full_day=full_day(written[0]),
                    full_day_2=full_day(written[-1]),
                )
            )
    if record.means is not None:
        of = names.get(record.means_place, "") if record.means_place != record.place else ""
        yield (
            phrase(
                "The average year: {means_from}{value}, laid out by day.",
                means_from=phrase(MEANS_FROM[record.means_from]),
                value=phrase(" (of {of})", of=of) if of else "",
            )
        )
    position = record.position
    if position.latitude is None:
        yield phrase("Nobody wrote where the place is: day length and sun are those of 45 degrees.")
    else:
        yield (
            phrase(
                "Day length and sun: latitude {latitude:g}, from its {known_from}.",
                latitude=position.latitude,
                known_from=phrase(_KNOWN_FROM[position.known_from]),
            )
        )
