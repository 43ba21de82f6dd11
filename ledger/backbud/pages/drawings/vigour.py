"""Draws how strongly each zone of a tree grew at each look, on an axis of true days.

The zones stand one above the other as they do on the tree. The larger a leaf, the stronger the
zone; where the last look found them uneven, the strongest is filled and the weakest is empty.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from functools import cache
from html import escape

from backbud.pages.drawings.axes import Drawing, Key, Table
from backbud.tongue import full_day, phrase

# From the top of a tree down; a zone that names none of these stands in the middle.
_FROM_THE_TOP = ("apex", "crown", "top", "upper", "middle", "inner", "outer", "lower", "low")
_AT_THE_BASE = ("base", "bottom", "first", "trunk")
# Scores so far apart are uneven; ours, no source.
UNEVEN = 2
# Pixels: a zone's row, what stands above them, and percent across for the first and the last look.
_ROW, _HEAD, _LEFT, _RIGHT = 44, 24, 4.0, 92.0
_MOST_YEARS = 6

Looks = Mapping[date, Mapping[str, int]]


def vigour(ident: str, looks: Looks) -> Drawing:
    """The zones at every look, and the same in a table. `looks`: scores by day."""
    days = sorted(looks)
    zones = sorted({zone for scores in looks.values() for zone in scores}, key=_height)
    strongest, weakest = uneven(looks[days[-1]])
    height = _HEAD + _ROW * len(zones)
    title = phrase("How the zones grow, from the top down, 1 (weakest) to 5")
    rows = tuple(_rows(zones, looks, days))
    about = "; ".join(f"{row[0]}: {', '.join(row[1:])}" for row in rows)
    sides = {
        zone: " strongest" if zone in strongest else " weakest" if zone in weakest else ""
        for zone in zones
    }
    across = {day: f"{_x(day, days):.1f}" for day in days}
    drawn = (
        mark
        for row, zone in enumerate(zones)
        for mark in _zone(ident, row, zone, sides[zone], looks, across)
    )
    svg = (
        f'<svg class="zones" role="img" aria-labelledby="{ident}-title {ident}-about" '
        f'width="100%" height="{height}">'
        f'<title id="{ident}-title">{title}</title><desc id="{ident}-about">{escape(about)}</desc>'
        f"{_leaves(ident)}{''.join(_years(days, height))}{''.join(drawn)}</svg>"
    )
    keys = (
        (
            Key("leaf strongest", phrase("grows strongest")),
            Key("leaf weakest", phrase("falls behind")),
        )
        if strongest
        else ()
    )
    heads = (phrase("Zone"), *(full_day(day) for day in days))
    return Drawing(svg, keys, Table(heads, rows))


def uneven(scores: Mapping[str, int]) -> tuple[frozenset[str], frozenset[str]]:
    """The strongest and the weakest zones where they are two and more apart; else none."""
    if not scores or max(scores.values()) - min(scores.values()) < UNEVEN:
        return frozenset(), frozenset()
    most, least = max(scores.values()), min(scores.values())
    return (
        frozenset(zone for zone, score in scores.items() if score == most),
        frozenset(zone for zone, score in scores.items() if score == least),
    )


def _height(zone: str) -> tuple[int, str]:
    words = zone.split()
    middle = _FROM_THE_TOP.index("middle")
    for at, word in enumerate(_FROM_THE_TOP):
        if word in words:
            return at, zone
    return (len(_FROM_THE_TOP) if set(words) & set(_AT_THE_BASE) else middle), zone


def _rows(zones: Sequence[str], looks: Looks, days: Sequence[date]) -> Iterator[tuple[str, ...]]:
    for zone in zones:
        yield (zone, *(str(looks[day].get(zone, "–")) for day in days))


def _x(day: date, days: Sequence[date]) -> float:
    """How far across a look stands, in percent; a single one stands at the left."""
    whole = (days[-1] - days[0]).days
    return _LEFT + (_RIGHT - _LEFT) * ((day - days[0]).days / whole if whole else 0)


@cache
def _leaves(ident: str) -> str:
    """A leaf for each score, as large as the zone is strong."""
    leaves = []
    for score in range(1, 6):
        long, wide = 2.4 * score + 3, 1.7 * score + 1.6
        leaves.append(
            f'<path id="{ident}-{score}" d="M{-long:.1f} 0Q0 {-2 * wide:.1f} {long:.1f} 0'
            f'Q0 {2 * wide:.1f} {-long:.1f} 0Z"/>'
        )
    return f"<defs>{''.join(leaves)}</defs>"


def _years(days: Sequence[date], height: int) -> Iterator[str]:
    """Where each year begins, its number at the top, as many as there is room for; the days of the
    first and the last look, where all are of one year."""
    begins = range(days[0].year + 1, days[-1].year + 1)
    if not begins:
        yield f'<text class="when first" x="0" y="14">{full_day(days[0])}</text>'
        if len(days) > 1:
            yield f'<text class="when last" x="100%" y="14">{full_day(days[-1])}</text>'
    every = max(-(-len(begins) // _MOST_YEARS), 1)
    for year in begins[::every]:
        x = _x(date(year, 1, 1), days)
        yield f'<line class="grid" x1="{x:.1f}%" x2="{x:.1f}%" y1="18" y2="{height}"/>'
        yield f'<text class="when" x="{x:.1f}%" y="14">{year}</text>'


def _zone(
    ident: str, row: int, zone: str, side: str, looks: Looks, across: dict[date, str]
) -> Iterator[str]:
    """Its name above its line, a leaf for each look, and the last score in figures. `across`: how
    far across each look stands, in percent, the last one last."""
    y = _HEAD + _ROW * row + 29
    yield f'<text class="zone{side}" x="0" y="{y - 14}">{escape(zone)}</text>'
    yield f'<line class="grid" x1="0" x2="100%" y1="{y}" y2="{y}"/>'
    known = [(day, looks[day][zone]) for day in across if zone in looks[day]]
    last = next(reversed(across))
    for day, score in known:
        mark = f"leaf{side}" if day == last else "leaf"
        yield (
            f'<use class="{mark}" href="#{ident}-{min(max(score, 1), 5)}" '
            f'x="{across[day]}%" y="{y}"/>'
        )
    yield f'<text class="score" x="99%" y="{y - 5}">{known[-1][1]}</text>'
