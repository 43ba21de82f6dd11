"""When a wire begins to bite: how fast the branch under it thickens as the season's heat gathers.

Wood thickens as heat gathers: the share of the season's heat sum that has passed is taken as the
share of the season's growth that is made. An estimate, common practice, no source: it says when to
look, and the look decides.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from math import inf, pi

from backbud.bench.pots import not_negative, positive

# A day, and the heat sum (degree-days) gathered from the start of the season to its end.
HeatSum = tuple[date, float]

# Common practice, no source: a wired branch of fair growth in a pot gains about 6 mm of girth in
# a growing season; a weak one some, a strong one twice as much. A species may give its own.
USUAL_GIRTH_GROWTH_MM = 6.0
SHARE_BY_VIGOUR: Mapping[int, float] = {1: 0.3, 2: 0.6, 3: 1.0, 4: 1.5, 5: 2.0}

# Common practice, no source: a wire snugly laid marks the bark once the wood has grown out by a
# quarter of the wire's thickness.
BITES_AT_SHARE = 0.25

_ROUNDING = 1e-9


def girth_growth_mm(vigour: int, fair_growth_mm: float = USUAL_GIRTH_GROWTH_MM) -> float:
    """Return the girth (mm) a branch gains in a growing season, by its vigour from 1 to 5.

    `fair_growth_mm`: what the species gains at vigour 3. ValueError for any other vigour.
    """
    if vigour not in SHARE_BY_VIGOUR:
        raise ValueError(f"Vigour goes from 1 (weakest) to 5, not {vigour}.")
    not_negative(fair_growth_mm, "growth of girth in mm a season")
    return SHARE_BY_VIGOUR[vigour] * fair_growth_mm


def radial_growth_since_mm(
    wired: date,
    heat_sums: Sequence[HeatSum],
    season_sum_degree_days: float,
    girth_growth_mm: float,
) -> float:
    """Return how far (mm) the wood has grown out under a wire by the last day of the heat sums.

    For a wire that stays on into the next season: `grown_before_mm` of `bites_on`.
    Arguments and errors as for `bites_on`.
    """
    growth = _growth(wired, heat_sums, season_sum_degree_days, girth_growth_mm)
    return max((grown_mm for _, grown_mm in growth), default=0.0)


def share_until_it_bites(
    girth_growth_mm: float, wire_mm: float, bites_at_share: float = BITES_AT_SHARE
) -> float:
    """Return the share of a season's growth, more than 1 for several, after which a wire bites.

    The radius grows by girth / (2 pi) in a season. Infinite where nothing grows; ValueError for
    sizes that make no sense.
    """
    positive(wire_mm, "wire's thickness in mm")
    positive(bites_at_share, "share of the wire's thickness at which it bites")
    not_negative(girth_growth_mm, "growth of girth in mm a season")
    return bites_at_share * wire_mm * 2 * pi / girth_growth_mm if girth_growth_mm else inf


def bites_on(
    wired: date,
    heat_sums: Sequence[HeatSum],
    season_sum_degree_days: float,
    girth_growth_mm: float,
    wire_mm: float,
    *,
    bites_at_share: float = BITES_AT_SHARE,
    grown_before_mm: float = 0.0,
) -> date | None:
    """Return the first day the wood has grown out by a share of the wire's thickness, or None.

    None: not within these heat sums. `heat_sums` begin with the season and never fall; heat
    beyond `season_sum_degree_days` makes no more wood. The radius grows by girth / (2 pi).
    `wired`: heat up to the end of that day is not counted. ValueError where days or sums are out
    of order, the season has no heat, or a size makes no sense.
    """
    positive(wire_mm, "wire's thickness in mm")
    positive(bites_at_share, "share of the wire's thickness at which it bites")
    not_negative(grown_before_mm, "growth before this season in mm")
    limit_mm = bites_at_share * wire_mm - grown_before_mm - _ROUNDING
    growth = _growth(wired, heat_sums, season_sum_degree_days, girth_growth_mm)
    return next((day for day, grown_mm in growth if grown_mm >= limit_mm), None)


def _growth(
    wired: date,
    heat_sums: Sequence[HeatSum],
    season_sum_degree_days: float,
    girth_growth_mm: float,
) -> Iterator[tuple[date, float]]:
    """Each day after the wiring, with the radial growth (mm) since then."""
    positive(season_sum_degree_days, "heat sum of the whole season in degree-days")
    not_negative(girth_growth_mm, "growth of girth in mm a season")
    _in_order(heat_sums)
    shares = [(day, min(total / season_sum_degree_days, 1.0)) for day, total in heat_sums]
    share_then = next((share for day, share in reversed(shares) if day <= wired), 0.0)
    return (
        (day, girth_growth_mm / (2 * pi) * (share - share_then))
        for day, share in shares
        if day > wired
    )


def _in_order(heat_sums: Sequence[HeatSum]) -> None:
    before: HeatSum = (date.min, 0.0)
    for day, total in heat_sums:
        if day <= before[0] or not before[1] <= total < inf:
            raise ValueError(f"Days must rise and heat sums never fall: see {day}, {total:g}.")
        before = (day, total)
