"""A tree's photographs as they are shown: when, from which side, where their copies lie."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from msgspec import Struct

from backbud.photographs.known import KnownPicture
from backbud.photographs.named import Named
from backbud.views.history import DateView, date_view

# Ours: two pictures of one side within fewer days show the same tree.
APART_DAYS = 270


class PhotographView(Struct, frozen=True):
    """A photograph of a tree.

    `when`: the date of its page. `taken`: what its camera says, null where it says nothing.
    `side`: front, back, left, right, above, roots, detail, or "". `small`, `large`: the paths of
    its two copies in the output; `width`, `height`: of the large one, in points. `at`: where its
    line stands. `for_owner`, `for_public`: marked for the tree's owner to see, or for anybody.
    """

    when: DateView
    taken: date | None
    side: str
    small: str
    large: str
    width: int
    height: int
    at: str
    for_owner: bool = False
    for_public: bool = False


class PairView(Struct, frozen=True):
    """The same side of a tree, then and now."""

    side: str
    then: PhotographView
    now: PhotographView


def copy_paths(known: KnownPicture) -> tuple[str, str]:
    """Where the copies of a picture lie in the output."""
    return f"photographs/{known.digest}-s.jpg", f"photographs/{known.digest}-l.jpg"


def photograph_views(
    pictures: Iterable[Named], known: Mapping[str, KnownPicture]
) -> tuple[PhotographView, ...]:
    """A tree's photographs, oldest first; those that cannot be shown are left out."""
    return tuple(
        _view(picture, known[picture.path])
        for picture in pictures
        if picture.path in known and known[picture.path].digest
    )


def portrait(photographs: Sequence[PhotographView]) -> PhotographView | None:
    """The picture that a tree is known by: the latest of its front, else of all of it."""
    for sides in (("front",), ("",), ("back", "left", "right")):
        found = [one for one in photographs if one.side in sides]
        if found:
            return found[-1]
    return None


def then_and_now(photographs: Sequence[PhotographView]) -> tuple[PairView, ...]:
    """For each side the first and the last picture, where they lie far enough apart."""
    pairs = []
    for side in dict.fromkeys(one.side for one in photographs):
        of_side = [one for one in photographs if one.side == side]
        then, now = of_side[0], of_side[-1]
        if (now.when.first - then.when.last).days >= APART_DAYS:
            pairs.append(PairView(side, then, now))
    return tuple(pairs)


def _view(picture: Named, known: KnownPicture) -> PhotographView:
    small, large = copy_paths(known)
    looked = known.looked
    return PhotographView(
        date_view(picture.when),
        looked.taken,
        picture.side,
        small,
        large,
        looked.width,
        looked.height,
        str(picture.origin),
        picture.for_owner,
        picture.for_public,
    )
