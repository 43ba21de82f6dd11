"""Whom a subject line means, in the midst of a replay."""

from __future__ import annotations

from datetime import date

from msgspec import Struct

from backbud.collection.subjects import Whereabouts
from backbud_grammar.syntax import Subjects


def only_names_handles(subjects: Subjects) -> bool:
    """Whether a subject line only names handles."""
    return not subjects.left_out and {item.by for item in subjects.chosen} == {"handle"}


class Meant(Struct, gc=False):
    """Whom a subject line means: trees, each named outright or by a group, and other things.

    `calm_since`, `calm_from`: when it was last seen that all these trees are here, and the first
    day that all their cards speak of.
    """

    trees: list[Whereabouts]
    outright: list[bool]
    others: list[str]
    calm_since: int = -1
    calm_from: date = date.min
