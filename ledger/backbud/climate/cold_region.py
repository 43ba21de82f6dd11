"""Where a place lies goes in; the region whose winters swing alike comes out.

How far the coldest night of a winter lies under the mean low of its month goes by the region, and
hardly by the annual range alone: with ranges alike Tokyo's lies 4 K under it and Kyiv's 13 K.
The boxes are drawn by us round the stations of the fit (coldest_night.py); a place outside of all
of them has no region.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

Region = Literal["Europe", "North America", "East Asia", "the Mediterranean and its like", ""]


class _Box(NamedTuple):
    """Degrees, north and east positive: the south, north, west and east side."""

    south: float
    north: float
    west: float
    east: float

    def holds(self, latitude: float, longitude: float) -> bool:
        return self.south <= latitude <= self.north and self.west <= longitude <= self.east


# The first box that holds a place counts.
_BOXES: tuple[tuple[Region, _Box], ...] = (
    # Iberia, the Maghreb, south France, Italy; Greece; the south coast of Anatolia, the Levant.
    ("the Mediterranean and its like", _Box(30.0, 44.0, -11.0, 20.0)),
    ("the Mediterranean and its like", _Box(30.0, 41.0, 20.0, 28.0)),
    ("the Mediterranean and its like", _Box(30.0, 37.5, 28.0, 36.5)),
    # The valleys of the Alps and the plain of the Po.
    ("the Mediterranean and its like", _Box(44.0, 47.2, 6.5, 14.0)),
    # South-east Australia; its east coast to Brisbane and New Zealand are put to it.
    ("the Mediterranean and its like", _Box(-44.0, -26.0, 138.0, 154.0)),
    ("the Mediterranean and its like", _Box(-48.0, -34.0, 166.0, 179.0)),
    # Its climates elsewhere, put to it: California west of the deserts and the low desert of
    # Arizona, middle Chile, the Cape, the south-west of Australia.
    ("the Mediterranean and its like", _Box(32.4, 38.8, -125.0, -117.0)),
    ("the Mediterranean and its like", _Box(31.3, 34.2, -117.0, -109.5)),
    ("the Mediterranean and its like", _Box(-38.0, -28.0, -74.0, -70.0)),
    ("the Mediterranean and its like", _Box(-35.0, -28.0, 16.0, 26.0)),
    ("the Mediterranean and its like", _Box(-36.0, -28.0, 113.0, 129.0)),
    # South Asia, which mountains shield (held against Hyderabad's days, test_coldest_night.py);
    # South-east Asia and the south of China are put to it.
    ("the Mediterranean and its like", _Box(5.0, 32.0, 65.0, 92.0)),
    ("the Mediterranean and its like", _Box(5.0, 30.0, 92.0, 125.0)),
    # Japan, Korea, North China.
    ("East Asia", _Box(30.0, 50.0, 110.0, 146.0)),
    ("North America", _Box(15.0, 72.0, -170.0, -52.0)),
    ("Europe", _Box(36.0, 72.0, -25.0, 45.0)),
)


def region_of(latitude: float | None, longitude: float | None) -> Region:
    """Return the region of a place; "" where it lies in none, or nobody says where it lies."""
    if latitude is None or longitude is None:
        return ""
    return next((region for region, box in _BOXES if box.holds(latitude, longitude)), "")
