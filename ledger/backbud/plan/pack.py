"""Finds a species by any of its names: built in, of an installed package, or of the journal's own.

A class is loaded when a tree needs it, since to load them all is slow.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache, partial
from importlib.metadata import EntryPoint

from msgspec import Struct

from backbud.plan.common import RULES
from backbud.plan.root_limits import roots_bear
from backbud.plan.year import wants_of
from backbud.plugins import budget
from backbud.plugins.added import Flaws, OwnSpecies
from backbud.plugins.faults import OURS, PluginLine, is_ours, said
from backbud.plugins.offered import species_points
from backbud.plugins.sound import wrong_interface, wrong_rule, wrong_species
from backbud.species import Species, rules_of
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.problems import Flaw

BUILT_IN = "built in"


class KnownSpecies(Struct, frozen=True):
    """A species, and where it comes from: built in, a package, or a file of the journal."""

    species: Species
    origin: str


class Pack:
    """Every species, found by any of its names; a class is loaded when a tree needs it.

    `own`: the species of a journal's trusted plugins. One that is not in order, or that has a
    name which another has already, is left out; `flaws` says so.
    """

    def __init__(self, points: tuple[EntryPoint, ...], own: tuple[OwnSpecies, ...] = ()) -> None:
        self._loaded: dict[str, Species] = {}
        self.faults: list[str] = []
        self._points: dict[str, EntryPoint] = {}
        # What is built in comes first, and keeps its name.
        for point in sorted(points, key=lambda point: point.module.partition(".")[0] not in OURS):
            first = self._points.setdefault(point.name.casefold(), point)
            if first.value != point.value:
                self.faults.append(
                    f"the species “{point.name}” ({point.value}) cannot be used: {first.value} "
                    "has this name already"
                )
        self._by_name: dict[str, Species | None] = {}
        self._own: list[OwnSpecies] = []
        self.flaws: Flaws = tuple(self._taken(own))

    @property
    def names(self) -> list[str]:
        """The first common name of every species."""
        return sorted([*self._points, *(one.species.title.casefold() for one in self._own)])

    def find(self, kind: str) -> Species | None:
        """The species so named: common, botanical or other name; None where there is none."""
        key = _folded(kind)
        if key not in self._by_name:
            self._by_name[key] = self._look(key)
        return self._by_name[key]

    def all(self) -> Iterator[KnownSpecies]:
        """Every species, by its common name, and where it comes from."""
        found = [
            KnownSpecies(species, _origin(species))
            for name in self._points
            if (species := self._load(name)) is not None
        ]
        found += [KnownSpecies(one.species, one.file) for one in self._own]
        yield from sorted(found, key=lambda known: known.species.title.casefold())

    def _look(self, key: str) -> Species | None:
        if key in self._points:
            return self._load(key)
        for one in self._own:
            if key in _names(one.species):
                return one.species
        for name in self._points:
            species = self._load(name)
            if species is not None and key in _names(species):
                return species
        return None

    def _load(self, name: str) -> Species | None:
        if name not in self._loaded:
            point = self._points[name]
            try:
                found, wrong = budget.within(budget.IMPORT_SECONDS, partial(_found, point))
            except KeyboardInterrupt:
                raise
            except BaseException as error:
                wrong = said(error)
            if wrong:
                fault = f"the species “{point.name}” ({point.value}) cannot be used: {wrong}"
                if fault not in self.faults:
                    self.faults.append(fault)
                return None
            self._loaded[name] = found
        return self._loaded[name]

    # -------------------------------------------------------------- the journal's own

    def _taken(self, own: tuple[OwnSpecies, ...]) -> Flaws:
        """Take the journal's species one by one; what is wrong with those that are left out."""
        flaws: list[tuple[str, Flaw]] = []
        for one in own:
            code, wrong = "plugin-failed", _wrong_own(one.species)
            if not wrong:
                code, wrong = "plugin-clash", self._clash(one.species)
            if wrong:
                name = type(one.species).__name__
                flaws.append(
                    PluginLine(one.file, one.line).flaw(
                        code,
                        f"the species {name} cannot be used: {wrong}",
                        "It was left out; everything else was used.",
                    )
                )
            else:
                self._own.append(one)
                self._by_name.clear()
        return tuple(flaws)

    def _clash(self, species: Species) -> str:
        for name in sorted(_names(species)):
            other = self._look(name)
            if other is not None:
                return f"“{name}” is a name of {other.botanical} already"
        return ""


def _found(point: EntryPoint) -> tuple[Species, str]:
    """The species of a package, and why it is not used."""
    species = point.load()()
    return species, _wrong(species) or _wrong_rules(species)


def _wrong(species: object) -> str:
    """Why a species is not used; what is built in was tested where it was written."""
    if not isinstance(species, Species):
        return f"it is a {type(species).__name__}, and no Species"
    wrong = wrong_interface(species.interface)
    if wrong or is_ours(type(species)):
        return wrong
    wrong = wrong_species(species)
    if not wrong:
        # What a year makes of its figures.
        roots_bear(species, None, {})
        wants_of(species)
    return wrong


def _wrong_rules(species: Species) -> str:
    """Why a species of another package is not used, by how its rules are declared."""
    if is_ours(type(species)):
        return ""
    acts, common = by_word(ACTS), {rule.id for module in RULES for rule in rules_of(module)}
    for rule in rules_of(species):
        wrong = wrong_rule(rule, acts)
        if not wrong and rule.id in common:
            wrong = "there is a rule of this id for every tree already"
        if wrong:
            return f"the rule “{rule.id}”: {wrong}"
    return ""


def _wrong_own(species: Species) -> str:
    try:
        return budget.within(budget.RULE_SECONDS, lambda: _wrong(species))
    except KeyboardInterrupt:
        raise
    except BaseException as error:
        return said(error)


def _origin(species: Species) -> str:
    """The package that a species comes in."""
    return BUILT_IN if is_ours(type(species)) else type(species).__module__.partition(".")[0]


def _names(species: Species) -> set[str]:
    return {_folded(name) for name in (*species.common, *species.also, species.botanical)}


def _folded(name: str) -> str:
    return " ".join(name.casefold().split())


@cache
def installed() -> Pack:
    """Every species that an installed package offers."""
    return Pack(species_points())


def with_own(own: tuple[OwnSpecies, ...]) -> Pack:
    """Every species that an installed package offers, and a journal's own."""
    return Pack(species_points(), own) if own else installed()
