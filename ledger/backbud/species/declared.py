"""Which rules a species, or a module, declares."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import Any

from msgspec.structs import replace

from backbud.species.base import Species
from backbud.species.rules import MARK, Rule


def rules_of(owner: object) -> tuple[Rule, ...]:
    """Every rule of a class, an instance or a module, ordered by id; functions ready to call.

    A species' rules are its methods and its `works`, whose ids go behind its `rule_prefix`.
    ValueError where two of them share an id, since follow-ups could not be told apart.
    """
    found: dict[str, Rule] = {}
    for rule in (*_methods(owner), *_works(owner)):
        if rule.id in found:
            raise ValueError(
                f"two rules of {getattr(owner, '__name__', type(owner).__name__)} have the id "
                f"“{rule.id}”; give one of them another"
            )
        found[rule.id] = rule
    return tuple(found[key] for key in sorted(found))


def _methods(owner: object) -> Iterator[Rule]:
    """The marked functions of a class, an instance or a module; one under two names once."""
    seen: list[object] = []
    for name in dir(owner):
        function: Any = getattr(owner, name, None)
        mark = getattr(function, MARK, None)
        if isinstance(mark, Rule) and function not in seen:
            seen.append(function)
            yield replace(mark, function=function)


def _works(owner: object) -> Iterator[Rule]:
    """The rules made by builders; their functions take the species first, as methods do."""
    if not isinstance(owner, Species):
        return
    for rule in owner.works:
        yield replace(
            rule,
            id=f"{owner.rule_prefix or _slug(owner.botanical)}-{rule.id}",
            function=partial(rule.function, owner),
            source=_source_of(owner, rule),
        )


def _source_of(owner: Species, rule: Rule) -> str:
    """Where a work comes from: as the species says, or the nearest of its groups, or the rule."""
    for kind in type(owner).__mro__:
        if source := kind.__dict__.get("sources", {}).get(rule.id):
            return str(source)
    return rule.source


def _slug(botanical: str) -> str:
    """`Acer palmatum` is `acer-palmatum`."""
    words = "".join(c if c.isalnum() else " " for c in botanical.casefold()).split()
    return "-".join(words)
