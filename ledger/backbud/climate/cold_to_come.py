"""What is known of a place's nights goes in; the coldest that may still come in a winter comes out.

In January that is the winter's coldest; in late April it is a late frost.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from msgspec.structs import replace

from backbud.climate.cold_nights import drop_to_come, error_to_come_k
from backbud.climate.coldest_night import ColdestNight
from backbud.climate.frost import LikelyNights, Nights, likely_nights
from backbud.climate.stages import FEWEST_YEARS
from backbud.climate.winter_lows import extremes_from

# With less between them the whole winter's figure is told; ours, no source.
_MILDER_K = 1.0


def cold_to_come(
    coldest: ColdestNight,
    seasons: Sequence[Nights],
    monthly_mean_lows_c: Sequence[float],
    day: date,
    *,
    southern: bool,
) -> ColdestNight:
    """Return the coldest night from a day on to the next midsummer; the whole winter's where that
    is not milder by a degree.

    `coldest`: the whole winter's. From the years on record where there are enough of them, else
    from the monthly means less a drop.
    """
    usual = likely_nights(monthly_mean_lows_c, day, drop_k_on=_none, southern=southern)
    record = extremes_from(seasons, day, southern=southern)
    if record is not None and record.winters >= FEWEST_YEARS:
        found = replace(
            coldest,
            mean_annual_minimum_c=record.mean_annual_minimum_c,
            one_in_ten_c=record.one_in_ten_c,
            give_or_take_k=record.give_or_take_k,
            since=day,
        )
    else:
        found = _by_means(coldest, usual, day, southern)
    return found if found.one_in_ten_c >= coldest.one_in_ten_c + _MILDER_K else coldest


def _by_means(
    coldest: ColdestNight, usual: LikelyNights, day: date, southern: bool
) -> ColdestNight:
    left = [
        (low, drop_to_come(coldest.winter_drop_k, night, southern=southern), night)
        for n, low in enumerate(usual.lows_c)
        if (night := usual.begins + timedelta(days=n)) >= day
    ]
    tenth, when = min((low - drop.one_in_ten_k, night) for low, drop, night in left)
    return replace(
        coldest,
        mean_annual_minimum_c=min(low - drop.mean_k for low, drop, _ in left),
        one_in_ten_c=tenth,
        give_or_take_k=error_to_come_k(coldest.give_or_take_k, when, southern=southern),
        since=day,
    )


def _none(_: date) -> float:
    return 0.0
