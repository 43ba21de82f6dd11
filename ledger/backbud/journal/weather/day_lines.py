"""Gathers what the diary's dates say of the weather, by place and day, in one set of units."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal

from msgspec import Struct

from backbud.climate.days import WeatherDay
from backbud.journal.dated import DayWeather
from backbud.journal.line_order import line_order
from backbud.journal.problems import PlacedFlaw, WithFlaws, flaw_at
from backbud.journal.weather.limits import OF_A_DAY, impossible
from backbud_grammar.measures import convert

_UNITS = {
    "low": ("low_c", "C"),
    "high": ("high_c", "C"),
    "rain": ("rain_mm", "mm"),
    "humidity": ("humidity_percent", "%"),
    "wind": ("wind_m_per_s", "m/s"),
    "sun": ("sun_hours", "h"),
}


class DayLines(Struct, frozen=True):
    """What one place's day lines say. `words`: of frost, snow and hail, by day."""

    days: Mapping[date, WeatherDay] = {}
    words: Mapping[date, frozenset[str]] = {}


def read_day_lines(weather: Iterable[DayWeather], home: str) -> WithFlaws[dict[str, DayLines]]:
    """Return what the day lines of each place say; `home`: the place of those that name none.

    Of two lines that say another thing of one day the first counts, and the second is a flaw.
    """
    values: dict[str, dict[date, dict[str, float]]] = {}
    words: dict[str, dict[date, set[str]]] = {}
    first: dict[tuple[str, date, str], DayWeather] = {}
    flaws: list[PlacedFlaw] = []
    for said in weather:
        place = said.place or home
        if said.name not in _UNITS:
            words.setdefault(place, {}).setdefault(said.day, set()).add(said.name)
            continue
        field, unit = _UNITS[said.name]
        value = said.value
        if said.unit != unit:
            value = float(convert(Decimal(str(value)), said.unit, unit))
        why = impossible(field, value, OF_A_DAY)
        if why:
            hint = "Is the unit right? The value was left out."
            flaws.append(flaw_at(said.origin, "impossible-value", why, hint, 0, len(said.name)))
            continue
        before = first.setdefault((place, said.day, field), said)
        if before is said:
            values.setdefault(place, {}).setdefault(said.day, {})[field] = value
        elif (before.value, before.unit) != (said.value, said.unit):
            message = (
                f"the {said.name} of {said.day} stands in {before.origin} and again in "
                f"{said.origin}"
            )
            hint = f"What stands in {before.origin} was kept; take one of the two out."
            flaws.append(flaw_at(said.origin, "repeated-day", message, hint, 0, len(said.name)))
    days: dict[str, dict[date, WeatherDay]] = {}
    for place in {**values, **words}:
        days[place] = {}
        for day, found in sorted(values.get(place, {}).items()):
            believed, wrong = _believed(found, first, (place, day))
            days[place][day] = WeatherDay(day, **believed)
            flaws += wrong
    return WithFlaws(
        {
            place: DayLines(
                of_place,
                {day: frozenset(found) for day, found in sorted(words.get(place, {}).items())},
            )
            for place, of_place in days.items()
        },
        tuple(flaws),
    )


def _believed(
    values: dict[str, float],
    first: Mapping[tuple[str, date, str], DayWeather],
    day: tuple[str, date],
) -> WithFlaws[dict[str, float]]:
    """The values of a day; of a low above its high neither is believed.

    On one line that was told when it was read.
    """
    if "low_c" not in values or "high_c" not in values or values["low_c"] <= values["high_c"]:
        return WithFlaws(values)
    low, high = first[(*day, "low_c")].origin, first[(*day, "high_c")].origin
    believed = {field: value for field, value in values.items() if not field.endswith("_c")}
    if low == high:
        return WithFlaws(believed)
    flaw = flaw_at(
        max(low, high, key=line_order),
        "contradiction",
        f"the low of {day[1]} in {low} is above the high in {high}",
        "Are the two swapped? Both were left out.",
        0,
        len("low"),
    )
    return WithFlaws(believed, (flaw,))
