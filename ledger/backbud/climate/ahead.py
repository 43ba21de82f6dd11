"""The forecast of a place goes in; the nights of frost, the hot days, the wind and the rain that it
holds come out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date, timedelta
from functools import cached_property
from typing import Literal, NamedTuple, TypeVar

from backbud.climate.air import Shift
from backbud.climate.datum import Datum
from backbud.climate.degrees import degrees
from backbud.climate.forecast import Forecast, ForecastDay, low_error_k
from backbud.tongue import day_and_month, phrase

# Nights with no more than one milder night between them are one spell; ours, no source.
_GAP = timedelta(days=2)
_A_DAY = timedelta(days=1)
Sure = Literal["comes", "is close"]
_T = TypeVar("_T")


class NightAhead(NamedTuple):
    """A night to come: the day on whose morning it ends, and its low in °C."""

    day: date
    low_c: float


class FrostSpell(NamedTuple):
    """Nights to come that are too cold, one after the other: the first, the last and the coldest of
    them; and whether they are too cold as foretold, or only within the error of the forecast.
    `again`: where all nights that are foretold are told at once, those after milder ones,
    and `until_milder` the last before them."""

    first: NightAhead
    last: NightAhead
    coldest: NightAhead
    sure: Sure
    again: tuple[NightAhead, ...] = ()
    until_milder: NightAhead | None = None

    @property
    def because(self) -> Datum:
        """What the forecast says of these nights, in a sentence or two."""
        first, coldest = self.first, self.coldest
        last = self.until_milder or self.last
        said = phrase(
            "Foretold are {celsius} in the night to {day}.",
            celsius=celsius(first.low_c),
            day=_day(first.day),
        )
        if last != first:
            colder = (
                phrase(", the coldest {celsius}", celsius=celsius(coldest.low_c))
                if coldest != first
                else ""
            )
            said += phrase(
                " Such nights last until {day}{colder}.", day=_day(last.day), colder=colder
            )
        if self.again:
            nights = ", ".join(f"{_day(one.day)} ({celsius(one.low_c)})" for one in self.again)
            said += phrase(" After milder ones they come again: {nights}.", nights=nights)
        if self.sure == "is close":
            said += phrase(" It bears that, but a forecast may be off by as much.")
        return Datum(said, True)


def celsius(low_c: float) -> str:
    """`−5 °C`, to the whole degree, with a minus that is one."""
    return degrees(low_c, ".0f")


def colder_later(first: date, first_said: str, coldest: NightAhead) -> str:
    """`−11 °C in the next`, or `the coldest −11 °C in the night to 3 December`; "" where to the
    whole degree no night is colder than the first."""
    figure = celsius(coldest.low_c)
    if figure == first_said:
        return ""
    if coldest.day - first == _A_DAY:
        return phrase("{figure} in the next", figure=figure)
    return phrase(
        "the coldest {figure} in the night to {day}", figure=figure, day=_day(coldest.day)
    )


def _day(on: date) -> str:
    return day_and_month(on)


class SkyAhead:
    """What a forecast says of the days ahead at a place and under its cover; nothing else of its
    weather need be known.

    `shift`: what the cover does to warm days. Of nights only `night_shift_c` counts, how much
    milder a thermometer under the cover found them, and what a heater keeps.
    """

    def __init__(
        self, forecast: Forecast, today: date, shift: Shift, night_shift_c: float = 0.0
    ) -> None:
        self.forecast, self.today, self.shift = forecast, today, shift
        self.days = forecast.ahead(today)
        self._milder_c = night_shift_c
        self._spells: dict[float, FrostSpell | None] = {}

    @cached_property
    def nights(self) -> tuple[NightAhead, ...]:
        """The nights to come, under the cover as far as a thermometer there or a heater says."""
        least_c = self.shift.least_c
        lows = (
            (day, said.low_c + self._milder_c)
            for day, said in self.days.items()
            if said.low_c is not None
        )
        return tuple(
            NightAhead(day, low_c if least_c is None else max(low_c, least_c))
            for day, low_c in lows
        )

    @cached_property
    def clear_until(self) -> date:
        """The last day up to which each night from tomorrow on is told of; else today."""
        day = self.today
        while (said := self.days.get(day + _A_DAY)) is not None and said.low_c is not None:
            day += _A_DAY
        return day

    def frost(self, limit_c: float) -> FrostSpell | None:
        """The next spell of nights at or under a temperature, leaning to the cold side by the
        usual error of a forecast; None where none is foretold."""
        if limit_c not in self._spells:
            self._spells[limit_c] = frost_spell(self.nights, limit_c, self.today)
        return self._spells[limit_c]

    def every_frost(self, limit_c: float) -> FrostSpell | None:
        """All nights of the forecast at or under a temperature as one, however mild some between
        them are; None where none is foretold."""
        first = self.frost(limit_c)
        cold = _cold(self.nights, limit_c, self.today)
        again = tuple(one for one in cold if first is not None and one.day > first.last.day)
        if first is None or not again:
            return first
        coldest = min(first.coldest, *again, key=lambda night: (night.low_c, night.day))
        sure: Sure = "comes" if coldest.low_c <= limit_c else "is close"
        return FrostSpell(first.first, again[-1], coldest, sure, again, first.last)


def _cold(nights: Iterable[NightAhead], limit_c: float, today: date) -> list[NightAhead]:
    return [
        night for night in nights if night.low_c <= limit_c + low_error_k((night.day - today).days)
    ]


def frost_spell(nights: Iterable[NightAhead], limit_c: float, today: date) -> FrostSpell | None:
    """The next spell of nights at or under a temperature, leaning to the cold side by the usual
    error of a forecast; None where none is foretold."""
    spell = _first_run(_cold(nights, limit_c, today), lambda night: night.day)
    if not spell:
        return None
    coldest = min(spell, key=lambda night: (night.low_c, night.day))
    sure: Sure = "comes" if coldest.low_c <= limit_c else "is close"
    return FrostSpell(spell[0], spell[-1], coldest, sure)


class DaysAhead(NamedTuple):
    """Days to come that have something in common: the first, the last, the worst of them, and its
    figure."""

    first: date
    last: date
    worst: date
    figure: float


def days_over(
    days: Mapping[date, ForecastDay],
    least: float,
    figure_of: Callable[[ForecastDay], float | None],
) -> DaysAhead | None:
    """The next days, one after the other, whose figure reaches a value; None where none does."""
    found = [
        (day, figure)
        for day, said in sorted(days.items())
        if (figure := figure_of(said)) is not None and figure >= least
    ]
    run = _first_run(found, lambda one: one[0])
    if not run:
        return None
    worst, figure = max(run, key=lambda one: (one[1], -one[0].toordinal()))
    return DaysAhead(run[0][0], run[-1][0], worst, figure)


def _first_run(found: Sequence[_T], day_of: Callable[[_T], date]) -> list[_T]:
    """The first of them, and those that follow it without a gap worth the name."""
    run: list[_T] = []
    for one in found:
        if run and day_of(one) - day_of(run[-1]) > _GAP:
            break
        run.append(one)
    return run
