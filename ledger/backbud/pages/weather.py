"""Lays out the weather page: what is known of the air of each place, and of the trees' water."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from backbud.climate.stages import FEWEST_YEARS
from backbud.climate.winter import FEWEST_ON_RECORD
from backbud.pages.ahead import AheadPart, ahead_part
from backbud.pages.drawings import against_years, frost, temperature
from backbud.pages.drawings.axes import Drawing
from backbud.pages.water import WaterPart, water_part
from backbud.tongue import full_day, phrase
from backbud.views.nursery import Nursery
from backbud.views.sky import Sky, Sum
from backbud.views.sums import BASE_C, WEEK
from backbud.words import day, figure, number, sentence


class SumPart(Struct, frozen=True):
    """A sum: what it comes to, its drawing, and each year on record by now and whole.

    `by_now`: the day of today; "" where the sum is whole by then.
    """

    said: tuple[str, ...]
    drawing: Drawing
    years: tuple[tuple[str, str, str], ...]
    by_now: str


class FrostPart(Struct, frozen=True):
    """Frost: sentences, the drawing where it says something, and the days by which it comes."""

    said: tuple[str, ...]
    drawing: Drawing | None
    days: tuple[tuple[str, str, str, str], ...]


class SkyPart(Struct, frozen=True):
    """Everything shown of one sky."""

    ident: str
    heading: str
    said: tuple[str, ...]
    temperature: Drawing
    warmth: str
    heat: SumPart
    chill: SumPart
    frost: FrostPart | None
    sources: tuple[str, ...]


class WeatherSheet(Struct, frozen=True):
    """All that the weather page shows. `home`: its sky, None where nothing is known of it;
    `placed`: it is known where home lies."""

    place: str
    handle: str
    home: SkyPart | None
    others: tuple[SkyPart, ...]
    unknown: tuple[str, ...]
    water: WaterPart
    ahead: AheadPart | None = None
    placed: bool = False


def _heat_unit() -> str:
    return phrase("degree-days over {base_c:g} °C", base_c=BASE_C)


def sheet(view: Nursery) -> WeatherSheet:
    """Gather everything that the weather page shows."""
    weather = view.weather
    parts = [_sky(view, sky, n) for n, sky in enumerate(weather.skies)]
    home, others = (parts[0], parts[1:]) if weather.home_known else (None, parts)
    others = [_in_short(part) for part in others]
    return WeatherSheet(
        view.name(weather.home),
        weather.home or "yard",
        home,
        tuple(others),
        tuple(view.name(handle) for handle in weather.unknown),
        water_part(view),
        ahead_part(weather.ahead, view.name, view.today),
        weather.placed,
    )


# ------------------------------------------------------------------ one sky


def _sky(view: Nursery, sky: Sky, n: int) -> SkyPart:
    ident = f"sky-{n}"
    names = [view.name(handle) for handle in sky.places]
    at = names[0]
    today = view.today
    return SkyPart(
        ident,
        sentence(", ".join(names)),
        tuple(_under(sky)),
        temperature.draw(
            f"{ident}-air",
            phrase("Temperature of {year} at {at}, by week", year=sky.year, at=at),
            sky.weeks,
            sky.among,
            today,
        ),
        _warmth(sky),
        _sum(
            f"{ident}-heat",
            (
                phrase("Heat sum of {name} at {at}", name=sky.heat.name, at=at),
                _heat_unit(),
                sky.heat.name,
                "year",
            ),
            sky.heat,
            _heat_said(sky.heat, today),
            today,
        ),
        _sum(
            f"{ident}-chill",
            (
                phrase("Chill of the winter {name} at {at}", name=sky.chill.name, at=at),
                phrase("chill portions"),
                phrase("winter {name}", name=sky.chill.name),
                "winter",
            ),
            sky.chill,
            _chill_said(sky, today),
            today,
        ),
        _frost(sky, ident, at, today),
        sky.sources,
    )


def _in_short(part: SkyPart) -> SkyPart:
    """The same with no figures by week but every fourth of the chill: the drawings tell them, and
    nobody reads the weeks of three yards one after another."""
    chill = part.chill.drawing
    kept = (*chill.table.rows[3:-1:4], *chill.table.rows[-1:])
    return replace(
        part,
        temperature=_without_figures(part.temperature),
        heat=replace(part.heat, drawing=_without_figures(part.heat.drawing), years=()),
        chill=replace(
            part.chill, drawing=chill._replace(table=chill.table._replace(rows=kept)), years=()
        ),
    )


def _without_figures(drawing: Drawing) -> Drawing:
    return drawing._replace(table=drawing.table._replace(rows=()))


def _warmth(sky: Sky) -> str:
    """How warm the last week was, as far as somebody measured it."""
    of = (
        phrase("the average of {years} on record", years=number(sky.among, "year"))
        if sky.among
        else phrase("the average year")
    )
    usual = phrase("{of} has {c} then", of=of, c=_c(sky.usual_c))
    if not sky.measured:
        return phrase("Nothing was measured in the last seven days; {usual}.", usual=usual)
    rest = WEEK - sky.measured
    known = (
        phrase(
            " ({days} measured, {rest} as expected)", days=number(sky.measured, "day"), rest=rest
        )
        if rest
        else ""
    )
    return phrase(
        "The last seven days averaged {c}{known}; {usual}.",
        c=_c(sky.mean_c),
        known=known,
        usual=usual,
    )


def _sum(
    ident: str, called: tuple[str, str, str, str], found: Sum, said: Iterable[str], today: date
) -> SumPart:
    """`called`: the drawing's title, the unit, this year, and what it is one of."""
    title, unit, this, one = called
    years = phrase("{among} on record", among=number(found.among, one))
    drawing = against_years.draw(
        ident,
        against_years.Words(title, unit, this, years, _average(found, one)),
        found.points,
        today,
        found.measured_until,
    )
    is_over = today > found.points[-1].day
    return SumPart(tuple(said), drawing, _years(found), "" if is_over else day(today, today.year))


def _average(found: Sum, one: str) -> str:
    """What the average is of: the same years as the least and the most, or the means."""
    if found.among:
        return phrase("the average of {among} on record", among=number(found.among, one))
    return phrase("the average {one}", one=one)


def _c(celsius: float) -> str:
    return f"{figure(celsius, '.1f')} °C"


def _under(sky: Sky) -> Iterator[str]:
    if not sky.cover or sky.cover == "open":
        return
    yield (
        phrase(
            "Under {article}{cover}, which lets in about {light:.0%} of the light.",
            article=_article(sky.cover),
            cover=sky.cover,
            light=sky.light,
        )
    )
    if sky.frosts is None:
        yield (
            phrase(
                "What a cover does to heat is a setting of ours; it raises no night "
                "for frost, since no thermometer hangs under it. For frost see the "
                "open air."
            )
        )


def _article(cover: str) -> str:
    return "a " if cover.startswith(("shade", "cold frame", "tunnel")) else ""


def _heat_said(heat: Sum, today: date) -> Iterator[str]:
    yield f"{_so_far(heat, _heat_unit(), 'year', day(today, today.year))}{_ahead(heat.ahead_days)}"


def _so_far(found: Sum, unit: str, one: str, until: str) -> str:
    """The sum by a day, and how much of it was measured."""
    by = phrase("by {until}", until=until)
    average = phrase(
        "{average} has {average_now} by then.",
        average=_average(found, one),
        average_now=figure(found.average_now, ".0f"),
    )
    if found.measured == found.days:
        return f"{figure(found.now, '.0f')} {unit} {by}; {average}"
    if found.measured:
        known = phrase(
            "{measured} of {days} measured, the rest as expected",
            measured=found.measured,
            days=number(found.days, "day"),
        )
        return f"{figure(found.now, '.0f')} {unit} {by} ({known}); {average}"
    expected = phrase(
        "{now} {unit} are expected {by}", now=figure(found.now, ".0f"), unit=unit, by=by
    )
    return phrase(
        "{expected}: nothing was measured. {average}", expected=expected, average=sentence(average)
    )


def _ahead(days: int | None) -> str:
    if days is None:
        return ""
    if days == 0:
        return phrase(" The year keeps step with it.")
    return phrase(
        " The year is {days} {value}.",
        days=number(abs(days), "day"),
        value=phrase("ahead") if days > 0 else phrase("behind"),
    )


def _chill_said(sky: Sky, today: date) -> Iterator[str]:
    chill = sky.chill
    ends = chill.points[-1].day
    yield _so_far(chill, phrase("chill portions"), "winter", day(min(today, ends), today.year))
    if today < ends:
        rest = (
            phrase(
                "the days to come as in {winters} on record", winters=number(chill.among, "winter")
            )
            if chill.among
            else phrase(
                "with the mean of each day to come: real days stray from it and often give less"
            )
        )
        yield phrase(
            "{this} are expected by {full_day}, {rest}.",
            this=figure(chill.points[-1].this, ".0f"),
            full_day=full_day(ends),
            rest=rest,
        )
    for kind in sky.chilled:
        met = (
            phrase("met by {full_day}", full_day=full_day(kind.met))
            if kind.met
            else phrase("not met here")
        )
        yield phrase(
            "{kind} asks for {portions:g} portions: {met}.",
            kind=sentence(kind.kind),
            portions=kind.portions,
            met=met,
        )


def _years(found: Sum) -> tuple[tuple[str, str, str], ...]:
    return tuple(
        (one.name, figure(one.by_now, ".0f"), figure(one.whole, ".0f")) for one in found.years
    )


def _frost(sky: Sky, ident: str, at: str, today: date) -> FrostPart | None:
    found = sky.frosts
    if found is None:
        return None
    said = list(found.because)
    if not found.odds:
        said.insert(
            0,
            phrase(
                "{winters} on record; odds by date take {fewest_on_record}.",
                winters=sentence(number(found.winters, "winter")),
                fewest_on_record=FEWEST_ON_RECORD,
            ),
        )
    if found.odds and found.winters < FEWEST_YEARS and found.because:
        said.insert(
            0,
            phrase(
                "The plan goes by the winters on record once there are {fewest_years}:",
                fewest_years=FEWEST_YEARS,
            ),
        )
    drawing = None
    if found.odds:
        title = phrase("Frost (0 °C or colder) at {at}, one dot a winter", at=at)
        drawing = frost.draw(f"{ident}-frost", title, found, today)
    rows = (
        (phrase("First frost"), *(_by(one) for one in found.firsts)),
        (phrase("Last frost"), *(_by(one) for one in found.lasts)),
    )
    days = rows if found.odds else ()
    return FrostPart(tuple(said), drawing, days)  # type: ignore[arg-type]


def _by(found: date | None) -> str:
    return phrase("none") if found is None else day(found, found.year)
