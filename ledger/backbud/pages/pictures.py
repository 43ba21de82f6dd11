"""Lays out a tree's photographs: its portrait, then and now, and those beside its history."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from backbud import words
from backbud.pages.links import link
from backbud.tongue import phrase
from backbud.views.photograph import PairView, PhotographView, portrait, then_and_now

# How a page says from where a picture was taken.
_SIDES = {
    "front": "the front",
    "back": "the back",
    "left": "the left",
    "right": "the right",
    "above": "above",
    "roots": "the roots",
    "detail": "a detail",
    "": "",
}


class Picture(Struct, frozen=True):
    """A photograph on a page: the small copy that leads to the large one, with its size there."""

    small: str
    large: str
    width: int
    height: int
    alt: str
    when: str
    iso: str


class Pair(Struct, frozen=True):
    """The same side then and now."""

    title: str
    then: Picture
    now: Picture


class Pictures(Struct, frozen=True):
    """All photographs of a page; `by_line`: those that a line of the history names; `apart`: where
    no line is told, all of them."""

    portrait: Picture | None
    pairs: tuple[Pair, ...]
    by_line: dict[str, tuple[Picture, ...]]
    apart: tuple[Picture, ...] = ()


def pictures(photographs: Sequence[PhotographView], title: str) -> Pictures:
    """The photographs of a tree's page. `title`: what the tree is called."""
    face = portrait(photographs)
    by_line: dict[str, tuple[Picture, ...]] = {}
    for one in photographs:
        if not one.at:
            continue
        by_line[one.at] = (*by_line.get(one.at, ()), picture_of(one, title))
    return Pictures(
        picture_of(face, title) if face else None,
        tuple(pair_of(pair, title) for pair in then_and_now(photographs)),
        by_line,
        tuple(picture_of(one, title) for one in photographs if not one.at),
    )


def pair_of(pair: PairView, title: str) -> Pair:
    """A side then and now. `title`: what the tree is called."""
    return Pair(
        words.sentence(phrase(_SIDES[pair.side])) or phrase("The tree"),
        picture_of(pair.then, title),
        picture_of(pair.now, title),
    )


def picture_of(one: PhotographView, title: str) -> Picture:
    """A photograph as it stands on a page. `title`: what the tree is called."""
    when = words.written(one.when, 0)
    side = phrase(_SIDES[one.side])
    return Picture(
        link(one.small),
        link(one.large),
        one.width,
        one.height,
        f"{title}, {side}, {when}" if side else f"{title}, {when}",
        when,
        one.when.first.isoformat() if one.when.exact else "",
    )
