"""Holds what would bare a tree back while frost is foretold, and warns of weather in other works.

It is moved out, or its cover comes off, on the morning after the last such night. The keeper's own
plans keep their days and get the warning.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from msgspec.structs import replace

from backbud.climate.ahead import FrostSpell, SkyAhead, celsius, days_over
from backbud.climate.forecast import MOST_DAYS_AHEAD
from backbud.collection.state import Tree
from backbud.plan.due import Due
from backbud.plan.followups import FollowUp, Reason
from backbud.species import Window, Year
from backbud.tongue import phrase
from backbud.words import day as day_of

# What comes out from under cover has grown soft there; common practice, no source.
OUT_BEARS_C = 0.0
# So much time at the least is left for it once the nights are mild; ours, no source.
_LEFT = timedelta(days=14)
# Of what is sprayed or fed today, rain of the next two days takes this much away; wind carries
# spray from this on, a moderate breeze (4 Beaufort, from memory of the WMO's table). Ours else.
WASHES_OFF_MM, CARRIES_M_PER_S = 5.0, 5.5
_SOON = timedelta(days=2)


def foreseen(dues: Iterable[Due], tree: Tree, here: Year, outside: Year) -> list[Due]:
    """The dues of a tree by what is foretold `here`, where it stands, and `outside`."""
    ahead = here.ahead
    if ahead is None:
        return list(dues)
    today, last = here.today, here.today + timedelta(days=MOST_DAYS_AHEAD)
    return [
        replace(due, follow_up=_seen(due, tree, here, outside, ahead))
        if due.follow_up.outcome == "open"
        and due.follow_up.foretold is None
        and due.follow_up.window.opens <= last
        and due.follow_up.window.closes >= today
        else due
        for due in dues
    ]


def _seen(due: Due, tree: Tree, here: Year, outside: Year, ahead: SkyAhead) -> FollowUp:
    one, today = due.follow_up, here.today
    if due.bares or one.act == "unprotected":
        spell = _frost(one, tree, here, outside)
        return one if spell is None else _held(one, spell, today)
    if one.window.opens > today + _SOON:
        return one
    warned = tuple(_warnings(one, here, ahead))
    return replace(one, cautions=(*warned, *one.cautions)) if warned else one


# ------------------------------------------------------------------ held back


def _frost(one: FollowUp, tree: Tree, here: Year, outside: Year) -> FrostSpell | None:
    """The nights that it would stand bare in."""
    if one.act == "moved":
        return outside.ahead.frost(OUT_BEARS_C) if outside.ahead is not None else None
    bears = here.bears(tree, here.today)
    limit = bears.celsius if bears is not None else OUT_BEARS_C
    return here.ahead.frost(limit) if here.ahead is not None else None


def _held(one: FollowUp, spell: FrostSpell, today: date) -> FollowUp:
    night = day_of(spell.coldest.day, today.year)
    said = phrase(
        "{celsius} are foretold for the night to {night}",
        celsius=celsius(spell.coldest.low_c),
        night=night,
    )
    if one.promised:
        return replace(one, cautions=(f"{said}.", *one.cautions))
    opens = max(one.window.opens, spell.last.day)
    best = max(one.window.best, opens)
    closes = one.window.closes
    if opens > one.window.opens:
        closes = max(closes, best, opens + _LEFT)
    window = Window(opens, best, closes)
    held = Reason(
        "datum", phrase("{said}, so it waits until that is over.", said=said), expected=True
    )
    return replace(one, window=window, because=(*one.because, held))


# ------------------------------------------------------------------ warned of


def _warnings(one: FollowUp, here: Year, ahead: SkyAhead) -> Iterator[str]:
    today = here.today
    soon = {day: said for day, said in ahead.days.items() if day <= today + _SOON}
    if one.act == "treated" or one.act == "fed":
        wet = days_over(soon, WASHES_OFF_MM, lambda said: said.rain_mm)
        if wet is not None and _rain_falls_on(here):
            what = (
                phrase("washes off what is sprayed")
                if one.act == "treated"
                else phrase("washes feed out")
            )
            when = day_of(wet.worst, today.year)
            yield phrase(
                "{figure:.0f} mm of rain are foretold for {when}: it {what}.",
                figure=wet.figure,
                when=when,
                what=what,
            )
    if one.act == "treated":
        windy = days_over(soon, CARRIES_M_PER_S, lambda said: said.wind_m_per_s)
        if windy is not None:
            when = day_of(windy.worst, today.year)
            yield phrase(
                "Wind of {figure:.0f} m/s is foretold for {when}: do not spray in it.",
                figure=windy.figure,
                when=when,
            )


def _rain_falls_on(here: Year) -> bool:
    return not here.cover or here.cover.casefold().startswith(("open", "shade"))
