"""What can be found, and the words it is found by: trees, places, people and kinds, by what they
are called; trees by every word and year of their history, too.

For the keeper's eyes: also the words of private lines are among them.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Literal

from msgspec import Struct

from backbud.collection.state import Tree
from backbud.views.facts import SpeciesFacts
from backbud.views.people import PersonView
from backbud_grammar.handles import folded_words

_YEAR = re.compile(r"[12]\d{3}")


class Findable(Struct, frozen=True):
    """A thing that can be found. `handle`: its own, of a kind its common name. `beside`: what is
    told of it beside its name. `called`: the words of its names, `of`: those of its kind, place and
    owner, `written`: those of its history, with its years; all folded as handles are."""

    sort: Literal["place", "kind", "person", "tree"]
    handle: str
    name: str
    beside: str
    called: tuple[str, ...]
    of: tuple[str, ...] = ()
    written: tuple[str, ...] = ()


def words_of_texts(*texts: str) -> tuple[str, ...]:
    """The words of texts, each once, in order; figures tell nothing apart, but for years."""
    # Many lines of a tree say the same.
    return tuple(sorted(set[str]().union(*map(_folded, {*texts}))))


@lru_cache(maxsize=16384)
def _folded(text: str) -> tuple[str, ...]:
    return tuple(filter(_is_telling, folded_words(text)))


def _is_telling(word: str) -> bool:
    return len(word) > 1 and (not word.isdecimal() or _YEAR.fullmatch(word) is not None)


def tree_found(tree: Tree, names: Mapping[str, str]) -> Findable:
    """A tree, with every word of its history."""
    place = names.get(tree.place) or tree.place
    owner = names.get(tree.owner) or tree.owner
    kind = f"{tree.kind} ‘{tree.cultivar}’" if tree.cultivar else tree.kind
    return Findable(
        "tree",
        tree.handle,
        tree.title,
        ", ".join(filter(None, (kind, place if tree.here else tree.standing))),
        words_of_texts(tree.title, tree.handle, tree.first_handle, tree.cultivar),
        words_of_texts(tree.kind, place, tree.place, owner, tree.owner),
        words_of_texts(*_written(tree)),
    )


def _written(tree: Tree) -> Iterator[str]:
    done = [entry.event for entry in tree.history]
    yield from {event.held or event.act for event in done}
    yield from {event.text for event in done}
    yield from {event.remark for event in done}
    yield from map(str, {event.when.first.year for event in done})


def others_found(
    trees: Sequence[Tree],
    species: Mapping[str, SpeciesFacts],
    names: Mapping[str, str],
    people: Sequence[PersonView],
) -> tuple[Findable, ...]:
    """The places where trees stand, the kinds of which something is known, and who has a card."""
    here = [tree for tree in trees if tree.here]
    places = sorted({tree.place for tree in here if tree.place})
    kinds = {facts.title: facts for facts in species.values() if facts.facts}
    return (
        *(_thing("place", handle, names) for handle in places),
        *(
            Findable("kind", title, title, kinds[title].botanical,
                     words_of_texts(title, kinds[title].botanical))
            for title in sorted(kinds)
        ),
        *(_thing("person", one.person, names) for one in people),
    )  # fmt: skip


def _thing(sort: Literal["place", "person"], handle: str, names: Mapping[str, str]) -> Findable:
    name = names.get(handle) or handle
    return Findable(sort, handle, name, sort, words_of_texts(name, handle))


def numbers_by_word(words: Iterable[tuple[int, Iterable[str]]]) -> dict[str, list[int]]:
    """For each word the numbers of the things that have it, ascending where they come so."""
    found: dict[str, list[int]] = {}
    for number, those in words:
        for word in those:
            found.setdefault(word, []).append(number)
    return found
