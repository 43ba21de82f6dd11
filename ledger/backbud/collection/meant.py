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

    def is_calm(self, day: date, turned: int) -> bool:
        """Whether only trees are meant, each of them is here and none of many, and its card speaks
        of the day. `turned`: how often any tree came or went so far."""
        if len(self.trees) == 1 and not self.others:
            # Most lines are of one tree: it is asked sooner than whether any has turned.
            tree = self.trees[0]
            return (
                tree.standing == "here"
                and tree.batch is None
                and (tree.since is None or tree.since.first <= day)
            )
        if self.calm_since != turned:
            if self.others:
                return False
            self.calm_from = date.min
            for tree in self.trees:
                if tree.standing != "here" or tree.batch is not None:
                    # To how many of a batch a line was done must be looked at.
                    return False
                if tree.since is not None and tree.since.first > self.calm_from:
                    self.calm_from = tree.since.first
            self.calm_since = turned
        return day >= self.calm_from
