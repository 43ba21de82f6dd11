"""Puts the works of a species together from those of its group and its own."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from msgspec.structs import replace

from backbud.species import Rule

Works = tuple[Rule, ...]


def altered(works: Works, *rules: Rule) -> Works:
    """The works of a group with others: one of the same id takes the place of the group's."""
    new = {rule.id for rule in rules}
    return (*(rule for rule in works if rule.id not in new), *rules)


def without(works: Works, *ids: str) -> Works:
    """The works of a group less some; ValueError for an id that it does not have."""
    _known(works, ids)
    return tuple(rule for rule in works if rule.id not in ids)


def renamed(works: Works, ids: Mapping[str, str]) -> Works:
    """The works of a group, some of them under the ids that a species gave them before it.

    ValueError for an id that the group does not have.
    """
    _known(works, ids)
    return tuple(replace(rule, id=ids.get(rule.id, rule.id)) for rule in works)


def _known(works: Works, ids: Iterable[str]) -> None:
    missing = set(ids) - {rule.id for rule in works}
    if missing:
        raise ValueError(f"no work has the id {', '.join(sorted(missing))}")
