"""Draws how strongly each zone of a tree grew, at each of the last looks.

The zones stand one above the other as they do on the tree. The larger a leaf, the stronger the
zone; where the last look found them uneven, the strongest and the weakest are marked.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from html import escape

from backbud.pages.drawings.axes import Drawing, Key, Table
from backbud.words import MONTHS, full_day

# From the top of a tree down; a zone that names none of these stands in the middle.
_FROM_THE_TOP = ("apex", "crown", "top", "upper", "middle", "inner", "outer", "lower", "low")
_AT_THE_BASE = ("base", "bottom", "first", "trunk")
# Scores so far apart are uneven; ours, no source.
UNEVEN = 2
MOST_LOOKS = 6
_NAME, _COLUMN, _ROW, _HEAD = 110, 62, 44, 30

Looks = Mapping[date, Mapping[str, int]]


def vigour(ident: str, looks: Looks) -> Drawing:
    """The zones at the last six looks, and every look in a table. `looks`: scores by day."""
    days = sorted(looks)
    shown = days[-MOST_LOOKS:]
    zones = sorted({zone for scores in looks.values() for zone in scores}, key=_height)
    strongest, weakest = uneven(looks[days[-1]])
    width, height = _NAME + _COLUMN * len(shown), _HEAD + _ROW * len(zones)
    title = "How the zones grow, from the top down, 1 (weakest) to 5"
    about = "; ".join(f"{row[0]}: {', '.join(row[1:])}" for row in _rows(zones, looks, days))
    sides = {
        zone: " strongest" if zone in strongest else " weakest" if zone in weakest else ""
        for zone in zones
    }
    names = (
        f'<text class="zone{sides[zone]}" x="0" y="{_middle(row) + 4:g}">{escape(zone)}</text>'
        for row, zone in enumerate(zones)
    )
    drawn = (
        _look(back, day, [(looks[day].get(zone), "" if back else sides[zone]) for zone in zones])
        for back, day in enumerate(reversed(shown))
    )
    svg = (
        f'<svg class="zones" role="img" aria-labelledby="{ident}-title {ident}-about" '
        f'height="{height}" style="max-width:{width}px">'
        f'<title id="{ident}-title">{title}</title><desc id="{ident}-about">{escape(about)}</desc>'
        f'{"".join(names)}<svg x="100%" width="1" height="1" overflow="visible">{"".join(drawn)}'
        "</svg></svg>"
    )
    keys = (
        (Key("leaf strongest", "grows strongest"), Key("leaf weakest", "falls behind"))
        if strongest
        else ()
    )
    heads = ("Zone", *(full_day(day) for day in days))
    return Drawing(svg, keys, Table(heads, tuple(_rows(zones, looks, days))))


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


def _middle(row: int) -> float:
    return _HEAD + _ROW * row + _ROW / 2


def _look(back: int, day: date, scores: Sequence[tuple[int | None, str]]) -> str:
    """One look, from the right edge leftwards: the day, and a leaf for each zone.

    `back`: how many looks came after it; the stylesheet leaves the oldest out on a narrow screen.
    """
    x = -_COLUMN / 2
    marks = [
        f'<text class="when" x="{x:g}" y="12">{day.day} {MONTHS[day.month - 1][:3]}</text>',
        f'<text class="when" x="{x:g}" y="24">{day.year}</text>',
    ]
    for row, (score, side) in enumerate(scores):
        y = _middle(row)
        marks.append(f'<line class="grid" x1="{-_COLUMN}" x2="0" y1="{y:g}" y2="{y:g}"/>')
        if score is not None:
            marks += _leaf(x, y, score, side)
    return f'<g class="back-{back}" transform="translate({-_COLUMN * back})">{"".join(marks)}</g>'


def _leaf(x: float, y: float, score: int, side: str) -> Iterator[str]:
    """A leaf as large as the zone is strong, and its score beside it."""
    long, wide = 3.2 * score + 3, 1.7 * score + 1.6
    yield (
        f'<path class="leaf{side}" d="M{x - long:.1f} {y:.1f} Q{x:.1f} {y - 2 * wide:.1f} '
        f'{x + long:.1f} {y:.1f} Q{x:.1f} {y + 2 * wide:.1f} {x - long:.1f} {y:.1f} Z"/>'
    )
    yield f'<text class="score" x="{x + long + 3:.1f}" y="{y + 4:.1f}">{score}</text>'
