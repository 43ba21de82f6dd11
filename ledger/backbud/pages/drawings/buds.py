"""Draws works as a row of buds: filled what was done, unfilled what was not."""

from __future__ import annotations

# Pixels, and how many stand in a row before one stands for several.
WIDE, HEIGHT, MOST = 9, 16, 20
_BUD = "v0q-4-5 0-11q4 6 0 11z"


def row_of_buds(done: int, foreseen: int) -> str:
    """The row; it says nothing that the figures beside it do not."""
    each = -(-foreseen // MOST)
    filled, shown = round(done / each), -(-foreseen // each)
    width = shown * WIDE + 2
    return (
        f'<svg class="buds" width="{width}" height="{HEIGHT}" viewBox="0 0 {width} {HEIGHT}" '
        'aria-hidden="true">'
        f'<path class="wood" d="M0 13.5H{width}"/>{_path("bud", range(filled))}'
        f"{_path('bud ahead', range(filled, shown))}</svg>"
    )


def _path(mark: str, places: range) -> str:
    if not places:
        return ""
    buds = "".join(f"M{n * WIDE + 6} 13{_BUD}" for n in places)
    return f'<path class="{mark}" d="{buds}"/>'
