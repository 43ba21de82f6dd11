"""Tells from the cards of places which lies within which, and what cover is over each."""

from __future__ import annotations

from backbud.journal.things import Thing, Things

# Where trees stand for the winter, and not for the whole year; the words of a card's `cover`.
WINTER_COVERS = ("cold frame", "tunnel", "unheated glass", "heated glass", "indoors")

# Those of them that a heater keeps from frost.
WARM_COVERS = ("heated glass", "indoors")


def outward(place: Thing | None, things: Things) -> list[Thing]:
    """Return the place and the places it is within, from the inside out."""
    out: list[Thing] = []
    while place is not None:
        out.append(place)
        within = place.text("within")
        place = things.find(within) if within else None
    return out


def cover_of(place: Thing | None, things: Things) -> str:
    """Return what is over a place as written, `shade net 40 %`: its own cover, or that of what it
    is within, or ""."""
    found = (at.detail("cover") for at in outward(place, things))
    cover = next((detail for detail in found if detail is not None), None)
    if cover is None:
        return ""
    return f"{cover.words} {cover.measure}" if cover.measure is not None else cover.words


def is_winter_cover(cover: str) -> bool:
    """Whether trees stand under such a cover for the winter."""
    return cover.casefold().startswith(WINTER_COVERS)


def is_warm_cover(cover: str) -> bool:
    """Whether a tree that bears no cold winters under such a cover."""
    return cover.casefold().startswith(WARM_COVERS)


def is_room(cover: str) -> bool:
    """Whether it is a room, where light comes from one side."""
    return cover.casefold().startswith("indoors")


def places_inside(things: Things) -> dict[str, frozenset[str]]:
    """Return for each place the handles of the places within it, itself included."""
    inside: dict[str, set[str]] = {}
    for place in things.of_kind("place"):
        for at in outward(place, things):
            inside.setdefault(at.handle, set()).add(place.handle)
    return {handle: frozenset(names) for handle, names in inside.items()}
