"""The entry points of the installed packages go in; the species known here come out."""

from __future__ import annotations

from functools import cache
from importlib.metadata import EntryPoint, entry_points

from backbud.species import INTERFACE, Species

GROUP = "backbud.species"


class Pack:
    """Every species, found by any of its names; a class is loaded when a tree needs it."""

    def __init__(self, points: tuple[EntryPoint, ...]) -> None:
        self._points = {point.name.casefold(): point for point in points}
        self._loaded: dict[str, Species] = {}
        self.faults: list[str] = []
        self._by_name: dict[str, Species | None] = {}

    @property
    def names(self) -> list[str]:
        """The first common name of every species."""
        return sorted(self._points)

    def find(self, kind: str) -> Species | None:
        """The species so named: common, botanical or other name; None where there is none."""
        key = " ".join(kind.casefold().split())
        if key not in self._by_name:
            self._by_name[key] = self._look(key)
        return self._by_name[key]

    def _look(self, key: str) -> Species | None:
        if key in self._points:
            return self._load(key)
        for name in self._points:
            species = self._load(name)
            if species is not None and key in _names(species):
                return species
        return None

    def _load(self, name: str) -> Species | None:
        if name not in self._loaded:
            point = self._points[name]
            try:
                found = point.load()()
                if found.interface != INTERFACE:
                    raise ValueError(
                        f"it was written for interface {found.interface}, this is {INTERFACE}"
                    )
            except Exception as error:
                fault = f"the species “{point.name}” ({point.value}) cannot be used: {error}"
                if fault not in self.faults:
                    self.faults.append(fault)
                return None
            self._loaded[name] = found
        return self._loaded[name]


def _names(species: Species) -> set[str]:
    names = (*species.common, *species.also, species.botanical)
    return {" ".join(name.casefold().split()) for name in names}


@cache
def installed() -> Pack:
    """Every species that an installed package offers."""
    return Pack(tuple(sorted(entry_points(group=GROUP), key=lambda point: point.name)))
