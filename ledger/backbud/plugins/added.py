"""What a journal's own code adds to the program."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from msgspec import Struct

from backbud_grammar.acts import ACTS
from backbud_grammar.forms import ActForm
from backbud_grammar.problems import Flaw

if TYPE_CHECKING:
    from backbud.species import Fact, Rule, Section, Species, Tree, Year

Flaws = tuple[tuple[str, Flaw], ...]
# A section's function may say that there is none for this tree.
SectionOf = Callable[["Tree", "Year"], "Section | None"]


class OwnSpecies(Struct, frozen=True):
    """A species of the journal's own, and the line that it begins on."""

    species: Species
    file: str
    line: int


class Plugins(Struct, frozen=True):
    """What the journal's own code adds.

    `mark`: the digest of the set that runs, "" where none does. `left_out`: one line on what does
    not run, and how to look at it. `files`: the bytes of the set. `acts`: the whole table.
    `rules`: for every tree. `facts`: by kind and label. `sections`: for every tree's page.
    """

    mark: str = ""
    left_out: str = ""
    files: Mapping[str, bytes] = {}
    acts: tuple[ActForm, ...] = ACTS
    rules: tuple[Rule, ...] = ()
    facts: Mapping[str, Mapping[str, Fact[object]]] = {}
    sections: tuple[SectionOf, ...] = ()
    species: tuple[OwnSpecies, ...] = ()
    flaws: Flaws = ()


NO_PLUGINS = Plugins()
