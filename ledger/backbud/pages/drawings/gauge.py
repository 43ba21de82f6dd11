"""Draws how far what is on hand reaches towards what is wanted.

The words beside it say the same, so it is left out for who listens to the page.
"""

from __future__ import annotations

HEIGHT = 16
# How far across the greater of the two stands, in percent.
REACH = 96.0


def gauge(on_hand: float, wanted: float) -> str:
    """A bar as long as what is on hand, and a mark where it should reach to."""
    whole = max(on_hand, wanted)
    here = REACH * max(on_hand, 0.0) / whole if whole > 0 else 0.0
    mark = REACH * wanted / whole if whole > 0 else 0.0
    lacks = (
        f'<rect class="lacks" x="{here:.2f}%" y="5" width="{mark - here:.2f}%" height="6"/>'
        if mark > here
        else ""
    )
    return (
        f'<svg class="drawing gauge" aria-hidden="true" width="100%" height="{HEIGHT}">'
        f'<line class="axis" x1="0" x2="100%" y1="11" y2="11"/>'
        f'<rect class="seen" x="0" y="5" width="{here:.2f}%" height="6"/>{lacks}'
        f'<line class="mark" x1="{mark:.2f}%" x2="{mark:.2f}%" y1="0" y2="16"/></svg>'
    )
