"""Works out the twelve monthly means of a place.

The card counts first, then the station text, then the daily series if it has a full year. Rain on
the card goes with temperatures from elsewhere, and the other way round.
"""

from __future__ import annotations

from calendar import monthrange
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence

from msgspec.structs import replace

from backbud.climate.days import MonthlyMeans, WeatherDay
from backbud.journal.problems import PlacedFlaw, WithFlaws, flaw_at
from backbud.journal.things import Line, Thing
from backbud.journal.weather.limits import OF_A_MONTH, impossible
from backbud.journal.weather.record import MeansFrom
from backbud.journal.weather.series import MonthWeather
from backbud.words import MONTHS
from backbud_grammar.act_words import DetailName, LabelName

# The World Meteorological Organization's normals are of thirty years, and a month with more than
# ten days missing has no mean in them (from memory of WMO-No. 1203).
NORMAL_YEARS = 30
MOST_DAYS_MISSING = 10
_LABELS: Mapping[DetailName | LabelName, tuple[str, str]] = {
    "low": ("low_c", "C"),
    "high": ("high_c", "C"),
    "rain": ("rain_mm", "mm"),
}
# Each of them says nothing without the other.
_BOTH: tuple[tuple[LabelName, LabelName], ...] = (("low", "high"), ("high", "low"))


def means_of_place(
    place: Thing, days: Iterable[WeatherDay], months: Iterable[MonthWeather]
) -> WithFlaws[tuple[MonthlyMeans | None, MeansFrom]]:
    """Return the means, and where the temperatures are from; and what is wrong on the card."""
    card, flaws = _on_card(place)
    low, high, rain = (card.get(label, ()) for label in _LABELS)
    found = MonthlyMeans(low, high, rain) if low and high else None
    known_from: MeansFrom = "card" if found else ""
    for name, measured_months in _measured(days, months):
        if found and found.rain_mm:
            break
        measured = monthly_means(measured_months)
        if measured and found:
            found = replace(found, rain_mm=measured.rain_mm)
        elif measured:
            found, known_from = replace(measured, rain_mm=rain or measured.rain_mm), name
    return WithFlaws((found, known_from), flaws)


def _measured(
    days: Iterable[WeatherDay], months: Iterable[MonthWeather]
) -> Iterator[tuple[MeansFrom, Iterable[MonthWeather]]]:
    """The months of each source, and its name; the days are summed only when they are asked for."""
    yield "station months", months
    yield "daily series", _without_running(months_of_days(days), days)


def _without_running(
    found: list[MonthWeather], days: Iterable[WeatherDay]
) -> Iterable[MonthWeather]:
    """The months without the last, where that is not over: else the means, and all that hangs on
    them, would move every day."""
    last = max((seen.day for seen in days), default=None)
    if last is None or last.day == monthrange(last.year, last.month)[1]:
        return found
    return [month for month in found if (month.year, month.month) != (last.year, last.month)]


def _on_card(place: Thing) -> WithFlaws[dict[str, tuple[float, ...]]]:
    """The lists of twelve on a card, by label, in °C and mm; one with a slip in it is left out."""
    lists: dict[str, tuple[float, ...]] = {}
    lines: dict[str, Line] = {}
    flaws: list[PlacedFlaw] = []
    for line in place.lines:
        label, measure = line.detail.name, line.detail.measure
        if label not in _LABELS or measure is None:
            continue
        field, unit = _LABELS[label]
        values = measure.sizes_in(unit)
        why = next(filter(None, (impossible(field, value, OF_A_MONTH) for value in values)), "")
        if why:
            hint = "Is the unit right? The line was left out."
            flaws.append(flaw_at(line.origin, "impossible-value", why, hint, 0, len(label)))
        else:
            lists[label], lines[label] = values, line
    for here, other in _BOTH:
        if here in lists and place.detail(other) is None:
            at = lines.pop(here).origin
            message = f"“{here}” stands on this card without “{other}”, so it was left out"
            hint = f"Add a line: {other}, twelve numbers, January first."
            flaws.append(flaw_at(at, "missing-label", message, hint, 0, len(here), "warning"))
            del lists[here]
    if "low" not in lists or "high" not in lists:
        return WithFlaws(lists, tuple(flaws))
    pairs = zip(MONTHS, lists["low"], lists["high"], strict=True)
    wrong = [month for month, low, high in pairs if low > high]
    if wrong:
        message = f"the low of {wrong[0]} is above its high"
        hint = "Are two numbers swapped? Both lines were left out."
        at = lines["low"].origin
        flaws.append(flaw_at(at, "contradiction", message, hint, 0, len("low")))
        del lists["low"], lists["high"]
    return WithFlaws(lists, tuple(flaws))


def months_of_days(days: Iterable[WeatherDay]) -> list[MonthWeather]:
    """Return the months of a daily series: means of low and high (°C), rain (mm), sun (h).

    A mean is known where at most ten days of the month lack it, a total where none does.
    """
    by_month: defaultdict[tuple[int, int], list[WeatherDay]] = defaultdict(list)
    for day in days:
        by_month[day.day.year, day.day.month].append(day)
    return [
        MonthWeather(
            *month,
            _mean([day.low_c for day in found], month),
            _mean([day.high_c for day in found], month),
            _total([day.rain_mm for day in found], month),
            _total([day.sun_hours for day in found], month),
        )
        for month, found in sorted(by_month.items())
    ]


def _mean(values: Sequence[float | None], month: tuple[int, int]) -> float | None:
    known = [value for value in values if value is not None]
    if len(known) < monthrange(*month)[1] - MOST_DAYS_MISSING:
        return None
    return sum(known) / len(known)


def _total(values: Sequence[float | None], month: tuple[int, int]) -> float | None:
    known = [value for value in values if value is not None]
    return sum(known) if len(known) == monthrange(*month)[1] else None


def monthly_means(months: Iterable[MonthWeather]) -> MonthlyMeans | None:
    """Return the means of each month over the last thirty years in which it is known.

    None unless the low and the high of every one of the twelve months are known at least once; the
    rain is left unknown unless each month's is.
    """
    found = sorted(months, key=lambda month: (month.year, month.month))
    low = _over_years([(month.month, month.low_c) for month in found])
    high = _over_years([(month.month, month.high_c) for month in found])
    if not low or not high:
        return None
    return MonthlyMeans(low, high, _over_years([(month.month, month.rain_mm) for month in found]))


def _over_years(values: Sequence[tuple[int, float | None]]) -> tuple[float, ...]:
    """The mean of each of the twelve months, or () where one is never known."""
    means: list[float] = []
    for number in range(1, 13):
        known = [value for month, value in values if month == number and value is not None]
        if not known:
            return ()
        last = known[-NORMAL_YEARS:]
        means.append(sum(last) / len(last))
    return tuple(means)
