"""Draws a material as it stands on the shelf: bags, or rolls of wire, filled as far as they are.

What is to be bought stands beside it unfilled. It says nothing that the words beside it do not.
"""

from __future__ import annotations

# Pixels; of more than so many the rest is left to the words.
WIDE, HEIGHT, MOST = 15, 20, 12
_BAG = "v-11q0-4 4-4h4q4 0 4 4v11z"
_RADIUS, _HOLE = 6.0, 2.0


def standing(on_hand: float, to_buy: int, rolls: bool) -> str:
    """`on_hand`, `to_buy`: counted as sold. "" for nothing at all."""
    here = max(on_hand, 0.0)
    whole = min(int(here), MOST)
    part = here - int(here) if whole < MOST else 0.0
    parts = [1.0] * whole + ([part] if part >= 0.05 else [])
    lacks = min(to_buy, MOST - len(parts)) if len(parts) < MOST else 0
    if not parts and not lacks:
        return ""
    width = WIDE * (len(parts) + lacks) + 2
    outlines = "".join(_outline(n, rolls) for n in range(len(parts) + lacks))
    filled = "".join(_filled(n, share, rolls) for n, share in enumerate(parts))
    return (
        f'<svg class="standing-there" width="{width}" height="{HEIGHT}" aria-hidden="true">'
        f'<path class="wood" d="M0 18.5H{width}"/><path class="outline" d="{outlines}"/>'
        f'<path class="filled" d="{filled}"/></svg>'
    )


def _outline(n: int, rolls: bool) -> str:
    x = n * WIDE + 2
    return _circle(x + _RADIUS, _RADIUS) if rolls else f"M{x} 17{_BAG}"


def _filled(n: int, share: float, rolls: bool) -> str:
    """So much of it as is there: a bag from below, wire from the middle of its roll."""
    x = n * WIDE + 2
    if not rolls:
        return f"M{x} 17{_BAG}" if share == 1 else f"M{x} 17v{-15 * share:.1f}h12V17z"
    radius = _HOLE + (_RADIUS - _HOLE) * share
    return _circle(x + _RADIUS, radius) + _circle(x + _RADIUS, _HOLE, -1)


def _circle(x: float, radius: float, turn: int = 1) -> str:
    """About the middle of a roll; `turn`: -1 cuts it out of another."""
    sweep = 1 if turn > 0 else 0
    arcs = (f"a{radius:.1f} {radius:.1f} 0 0 {sweep} {2 * way * radius:.1f} 0" for way in (1, -1))
    return f"M{x - radius:.1f} 11{''.join(arcs)}z"
