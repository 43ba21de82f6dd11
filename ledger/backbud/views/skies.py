"""Works out the figures that the weather page shows of the air of each place.

The home place comes first, then each place with a sky of its own: its own days, or another cover
that shifts heat. Places that share a sky share its figures.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from functools import partial

from backbud.climate.air import DAY, OPEN_AIR, Air, PlaceAir
from backbud.climate.cold_turns import TENTHS
from backbud.climate.frost import (
    FrostRecord,
    first_autumn_frost,
    last_spring_frost,
    odds_by_day,
)
from backbud.climate.heat import Trace, heat_sums, heat_trace
from backbud.climate.outlook import Outlook
from backbud.climate.winter import BEFORE_NEW_YEAR, FEWEST_ON_RECORD, chill_trace
from backbud.collection.places import cover_of
from backbud.collection.state import Tree
from backbud.journal.read import Journal
from backbud.journal.weather.record import WeatherRecord
from backbud.journal.weather.records import Records
from backbud.plan.covers import cover_from
from backbud.plan.skies import MEANS_FROM, Skies
from backbud.plan.water import water_of
from backbud.species import Species
from backbud.views.ahead import ahead_of
from backbud.views.sky import (
    Against,
    AirWeek,
    Chilled,
    FrostOfWinter,
    Frosts,
    Odds,
    Sky,
    Sum,
    Weather,
    YearAir,
    YearSum,
)
from backbud.words import full_day, number
from backbud_grammar.dates import growing_year, growing_year_days

BASE_C = 5.0
WEEK = 7
FROST_C = 0.0
# Where the average year adds less a day than this, days ahead or behind say nothing.
LEAST_A_DAY = 2.0


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
    winter = _winter(outlook, today)
    return Sky(
        places,
        words,
        cover.light,
        growing_year(today, southern),
        tuple(_weeks(outlook, first, last)),
        len(_years_on_record(outlook, first)),
        outlook.mean(week, WEEK).celsius,
        _usual(outlook, first, week),
        sum(outlook.air.of(day).measured for day in _days(week, WEEK)),
        _heat(outlook, first, last),
        _chill(outlook, winter),
        tuple(
            Chilled(kind, portions, outlook.chill_met(winter, portions))
            for kind, portions in sorted(kinds.items(), key=lambda pair: (pair[1], pair[0]))
        ),
        _frosts(outlook),
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
    seen = [outlook.shift.under(outlook.air.of(day)) for day in _days(begins, days)]
    measured = [one for one in seen if one.measured]
    others = [_mean_of(outlook, year + after * DAY, days) for year in years]
    return AirWeek(
        begins,
        days,
        len(measured),
        _mean([one.mean_c for one in seen]),
        _mean(others) if others else _usual_of(outlook, begins, days),
        *_range(others),
        *_extremes(measured),
    )


def _mean_of(outlook: Outlook, first: date, days: int) -> float:
    """The mean of some days of a year on record."""
    air = (outlook.shift.under(outlook.air.of(day)) for day in _days(first, days))
    return sum(one.mean_c for one in air) / days


def _usual_of(outlook: Outlook, first: date, days: int) -> float:
    """The mean of some days by the monthly means."""
    return _mean(
        [outlook.shift.under(outlook.air.expected(day)).mean_c for day in _days(first, days)]
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


# ------------------------------------------------------------------ sums


def _heat(outlook: Outlook, first: date, last: date) -> Sum:
    """Degree-days over 5 °C from the first day of the growing year."""
    air, shift = outlook.air, outlook.shift
    sums = heat_sums(air, shift, BASE_C)
    years = {
        growing_year(begins, outlook.southern): sums.trace(begins)
        for begins in air.complete_years(first)
    }
    return _sum(
        growing_year(first, outlook.southern),
        outlook.heat(first, BASE_C),
        heat_trace(_average_year(air), shift, first, BASE_C),
        years,
        (last - first).days + 1,
        air,
    )


def _winter(outlook: Outlook, today: date) -> date:
    """The first day of the growing year whose winter is on, or was the last."""
    first, last = growing_year_days(today, outlook.southern)
    next_one = last + DAY
    return next_one if today >= next_one - BEFORE_NEW_YEAR else first


def _chill(outlook: Outlook, winter: date) -> Sum:
    """Chill portions of the winter round a day, against other winters."""
    air, this = outlook.air, outlook.chill(winter)
    years = {
        _winter_name(first): trace for first, trace in outlook.winters.on_record(winter).items()
    }
    average = chill_trace(_average_year(air), outlook.shift, winter, outlook.latitude)
    return _sum(_winter_name(winter), this, average, years, len(this.sums), air)


def _winter_name(first: date) -> str:
    """`2026/27` where a winter crosses New Year, `2026` where it does not."""
    begins = (first - BEFORE_NEW_YEAR).year
    return str(begins) if begins == first.year else f"{begins}/{first.year % 100:02}"


def _average_year(air: PlaceAir) -> PlaceAir:
    """The same place with nothing measured."""
    return PlaceAir({}, air.means, air.today, air.means_from)


def _sum(
    name: str, this: Trace, usual: Trace, years: Mapping[str, Trace], days: int, air: PlaceAir
) -> Sum:
    """`usual`: of the average year by the means, which stands where too few years are on record."""
    today = air.today
    among = list(years.values()) if len(years) >= FEWEST_ON_RECORD else []
    average = _average_of(this.first, among) if among else usual
    at = [*range(WEEK - 1, days - 1, WEEK), days - 1]
    now = min(max((today - this.first).days, -1), days - 1)
    sum_now = _at(this, now)
    measured = [day for day in _days(this.first, now + 1) if air.of(day).measured]
    reached = average.reaches(sum_now) if sum_now > 0 else None
    come = 0 <= (today - this.first).days < days
    gains = average.at(today + WEEK * DAY) - average.at(today) >= LEAST_A_DAY * WEEK
    is_told = come and gains and bool(measured)
    return Sum(
        name,
        tuple(
            Against(
                this.first + n * DAY,
                round(_at(this, n), 1),
                round(_at(average, n), 1),
                *_range([_at(year, n) for year in among]),
            )
            for n in at
        ),
        sum_now,
        _at(average, now),
        (reached - today).days if is_told and reached is not None else None,
        tuple(
            YearSum(year, _at(trace, now), _at(trace, days - 1))
            for year, trace in reversed(list(years.items()))
        ),
        len(among),
        now + 1,
        len(measured),
        max(measured, default=None),
    )


def _average_of(first: date, years: Sequence[Trace]) -> Trace:
    """The mean of the sums of some years, day by day."""
    days = zip(*(year.sums for year in years), strict=False)
    return Trace(first, tuple(sum(sums) / len(years) for sums in days))


def _days(first: date, count: int) -> list[date]:
    return [first + n * DAY for n in range(count)]


def _at(trace: Trace, days: int) -> float:
    return trace.at(trace.first + timedelta(days=days))


def _range(values: Sequence[float]) -> tuple[float | None, float | None]:
    return (round(min(values), 1), round(max(values), 1)) if values else (None, None)


# ------------------------------------------------------------------ frost


def _frosts(outlook: Outlook) -> Frosts | None:
    """Frost in the open, or as a thermometer under the cover found it; None where neither is."""
    in_the_open = outlook.shift == OPEN_AIR
    if not in_the_open and not outlook.air.felt:
        return None
    today = outlook.air.today
    known = outlook.frosts(FROST_C, in_the_open=in_the_open)
    first, last = growing_year_days(today, outlook.southern)
    turns = [outlook.cold_nights_begin(first, FROST_C)]
    # When nights are over, the open air tells under a cover too.
    turns += [outlook.cold_nights_end(last + DAY, FROST_C)] if in_the_open else []
    begins = _season_begins(known.southern, today)
    return Frosts(
        len(known.seasons),
        tuple(
            FrostOfWinter(_frost_name(one.begins), one.first_frost, one.last_frost)
            for one in known.seasons
        ),
        _this_frost(outlook, begins, in_the_open),
        begins,
        _odds(known, today) if len(known.seasons) >= FEWEST_ON_RECORD else (),
        tuple(first_autumn_frost(known, share, today) for share in TENTHS),
        tuple(last_spring_frost(known, share, today) for share in TENTHS),
        tuple(turn.because for turn in turns if turn is not None),
    )


def _season_begins(southern: bool, today: date) -> date:
    """The first day of the cold season that a day is in."""
    if southern:
        return date(today.year, 1, 1)
    return date(today.year if today.month >= 7 else today.year - 1, 7, 1)


def _frost_name(begins: date) -> str:
    """`2026/27` where a cold season crosses New Year, `2026` where it does not."""
    return str(begins.year) if begins.month == 1 else f"{begins.year}/{(begins.year + 1) % 100:02}"


def _this_frost(outlook: Outlook, begins: date, in_the_open: bool) -> FrostOfWinter:
    """The first and the last frost of a cold season that is not over, as far as it was measured."""
    air = outlook.air
    frosts = [
        seen.day
        for seen in air.measured.values()
        if seen.day >= begins
        and seen.low_c is not None
        and seen.low_c <= FROST_C
        and (seen.day in air.felt) != in_the_open
    ]
    return FrostOfWinter(_frost_name(begins), min(frosts, default=None), max(frosts, default=None))


def _odds(known: FrostRecord, today: date) -> tuple[Odds, ...]:
    """The odds week by week of the cold season that today is in."""
    by_day = {(odds.month, odds.day): odds for odds in odds_by_day(known)}
    begins = _season_begins(known.southern, today)
    found = []
    for n in range(0, 365, WEEK):
        day = begins + n * DAY
        odds = by_day[day.month, day.day]
        found.append(Odds(day, round(100 * odds.on_or_before, 1), round(100 * odds.on_or_after, 1)))
    return tuple(found)


# ------------------------------------------------------------------ sources


def _sources(journal: Journal, records: Records, record: WeatherRecord) -> Iterator[str]:
    """Where the figures come from: files, day lines, means, and the place's position."""
    names = {thing.handle: thing.title for thing in journal.things.of_kind("place")}
    for handle in (record.place, *record.days_from):
        where = f" (of {names.get(handle, handle)})" if handle != record.place else ""
        for source in records.record_of(handle).sources:
            station = f", {source.station}" if source.station else ""
            counted = [number(source.days, "day")] if source.days else []
            counted += [number(source.months, "month")] if source.months else []
            said = (
                f"{source.file}{where}: {source.form}{station}, {full_day(source.first)} to "
                f"{full_day(source.last)}, {' and '.join(counted)}"
            )
            if source.flagged_values:
                said += (
                    f"; {number(source.flagged_values, 'value')} left out that its publisher doubts"
                )
            if source.estimated_values:
                said += (
                    f"; {number(source.estimated_values, 'value')} that its publisher marks as "
                    "estimates, used"
                )
            yield f"{said}."
        written = sorted(
            {said.day for said in journal.weather if (said.place or records.home) == handle}
        )
        if written:
            yield (
                f"Day lines of the diary{where}: {number(len(written), 'day')}, "
                f"{full_day(written[0])} to {full_day(written[-1])}."
            )
    if record.means is not None:
        of = names.get(record.means_place, "") if record.means_place != record.place else ""
        yield (
            f"The average year: {MEANS_FROM[record.means_from]}"
            f"{f' (of {of})' if of else ''}, laid out by day."
        )
    position = record.position
    if position.latitude is None:
        yield "Nobody wrote where the place is: day length and sun are those of 45 degrees."
    else:
        yield (
            f"Day length and sun: latitude {position.latitude:g}, from its {position.known_from}."
        )
