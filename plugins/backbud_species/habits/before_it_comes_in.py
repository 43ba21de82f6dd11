"""The last weeks outside of a tender tree, in which it is looked over before it joins the others.

Common practice, no source.
"""

from __future__ import annotations

from datetime import timedelta

from backbud.species import Season, Window, Year, comes_in, joined, phrase
from backbud_species.habits.times import Time
from backbud_species.habits.warmth import under_cover

_FOUR_WEEKS, _TWO_WEEKS = timedelta(weeks=4), timedelta(weeks=2)


def before_it_comes_in(otherwise: Time) -> Time:
    """From four weeks before the day by which cold nights send it in, a fortnight before at best.

    `otherwise`: when, where it stands in warmth already, or where no night sends it in.
    """

    def window(given: Season, year: Year) -> Window:
        found = _by(year)
        if found is None:
            return otherwise.window(given, year)
        last = found[0].closes
        return year.rounded(Window(last - _FOUR_WEEKS, last - _TWO_WEEKS, last))

    def datum(given: Season, year: Year) -> str:
        found = _by(year)
        if found is None:
            return otherwise.datum(given, year)
        return joined(phrase("Before it comes in. {found}", found=found[1]), found[1])

    return Time("season", otherwise.season, -1, window, datum)


def _by(year: Year) -> tuple[Window, str] | None:
    return None if under_cover(year, "heated glass", "indoors") else comes_in(year)
