"""Says the days ahead and their water in words: on the first page in brief, and on the sky's."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, timedelta

from msgspec import Struct

from backbud.climate.ahead import celsius
from backbud.climate.forecast import OLDEST_DAYS
from backbud.tongue import phrase
from backbud.views.ahead import Ahead, DayAhead, ForecastView, WaterAhead
from backbud.words import day, days, number, short_weekday, weekday

# The nights that stand on the first page.
_NIGHTS = timedelta(days=3)
FROST_C = 0.0
ESTIMATE = (
    "Beside the same days of the average year, by their warmth and light alone. Canopies shed "
    "rain; a finger in the soil decides."
)


class ForecastPart(Struct, frozen=True):
    """A forecast as a table: a row a day. `said`: whose it is and how old."""

    place: str
    said: str
    rows: tuple[tuple[str, ...], ...]


class AheadPart(Struct, frozen=True):
    """What the page of the sky shows of the days ahead."""

    forecasts: tuple[ForecastPart, ...]
    water: tuple[str, ...]
    estimate: str


def in_brief(view: Ahead, today: date) -> Iterator[str]:
    """The frost of the next nights at the first place with a forecast, and that it is too old."""
    for one in view.forecasts[:1]:
        if not one.days:
            yield phrase("the forecast is {age} and is not used", age=_age(one))
            return
        soon = [said for said in one.days if said.day <= today + _NIGHTS]
        cold = [(said.low_c, said.day) for said in soon if _is_frost(said)]
        if cold:
            low_c, on = min(cold)
            night = phrase("the night to {weekday}", weekday=weekday(on))
            yield (
                phrase("{celsius} foretold for {night}", celsius=celsius(low_c), night=night)
                if low_c is not None
                else ""
            )
        if one.age_days:
            yield phrase("the forecast is {age}", age=_age(one))


def _is_frost(said: DayAhead) -> bool:
    return said.low_c is not None and said.low_c <= FROST_C


def ahead_part(view: Ahead, name_of: Callable[[str], str], today: date) -> AheadPart | None:
    """The days ahead in full; None where there is no forecast."""
    if not view.forecasts:
        return None
    return AheadPart(
        tuple(_forecast(one, name_of, today) for one in view.forecasts),
        tuple(f"{name_of(one.place)}: {water_said(one)}" for one in view.water),
        phrase(ESTIMATE),
    )


def _forecast(one: ForecastView, name_of: Callable[[str], str], today: date) -> ForecastPart:
    by = phrase(" by {source}", source=one.source) if one.source else ""
    made = one.made_at or day(one.made, today.year)
    said = phrase("Foretold{by}, made {made}. Expected, not measured.", by=by, made=made)
    if not one.days:
        said = phrase(
            "The last forecast{by}, made {made}, is {age} and is not used.",
            by=by,
            made=made,
            age=_age(one),
        )
    elif one.age_days:
        said += phrase(
            " It is {age}, and is used for {oldest_days} days.",
            age=_age(one),
            oldest_days=OLDEST_DAYS,
        )
    return ForecastPart(name_of(one.place), said, tuple(_row(said, today) for said in one.days))


def _age(one: ForecastView) -> str:
    return phrase("{days} old", days=number(one.age_days, "day"))


def _row(said: DayAhead, today: date) -> tuple[str, ...]:
    """A number never stands apart from its unit."""
    wind = _figure(said.wind_m_per_s, "m/s")
    if said.gust_m_per_s is not None:
        wind = phrase(
            "{wind}, gusts {figure}", wind=wind, figure=_figure(said.gust_m_per_s, "m/s")
        ).removeprefix(", ")
    return (
        f"{short_weekday(said.day)} {day(said.day, today.year)}",
        "" if said.low_c is None else _whole(celsius(said.low_c)),
        "" if said.high_c is None else _whole(celsius(said.high_c)),
        "" if said.rain_mm is None else f"{said.rain_mm:.0f}",
        wind,
    )


def _figure(value: float | None, unit: str) -> str:
    return "" if value is None else _whole(f"{value:.0f} {unit}")


def _whole(text: str) -> str:
    return text.replace(" ", "\N{NO-BREAK SPACE}")


def water_said(one: WaterAhead) -> str:
    """`more water than usual for the next 5 days, about 130 % of it; no rain that counts.`"""
    than = {
        "more": phrase("more water than usual"),
        "as usual": phrase("water as usual"),
        "less": phrase("less water than usual"),
    }[one.says]
    span = days((one.last - one.first).days + 1)
    said = phrase("{than} for the next {span}", than=than, span=span)
    if one.says != "as usual":
        said += phrase(", about {percent} % of it", percent=one.percent)
    if not one.rain_days:
        return phrase("{said}; no rain that counts.", said=said)
    on = ", ".join(map(weekday, one.rain_days))
    return phrase(
        "{said}; {rain_mm:.0f} mm of rain that counts ({on}).",
        said=said,
        rain_mm=one.rain_mm,
        on=on,
    )
