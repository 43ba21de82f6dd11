"""Tells what is wrong with the pictures that the diary names: each file once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from backbud.journal.problems import PlacedFlaw, flaw_at
from backbud.photographs.known import KnownPicture
from backbud.photographs.named import ACT, ENDINGS, Named

_KEPT = "The line stands all the same."


def flaws_of(pictures: Iterable[Named], known: Mapping[str, KnownPicture]) -> Iterator[PlacedFlaw]:
    """The flaws of pictures that cannot be shown, and of rough dates that the camera knows."""
    told: set[str] = set()
    for picture in pictures:
        wrong, hint = _wrong(picture, known)
        if wrong and picture.path not in told:
            told.add(picture.path)
            yield _flaw(picture, "bad-photograph", f"“{picture.written}”: {wrong}", hint)
        elif not wrong and not picture.when.exact and picture.path not in told:
            taken = known[picture.path].looked.taken
            if taken is not None and picture.when.first <= taken <= picture.when.last:
                told.add(picture.path)
                message = f"“{picture.written}” was taken on {taken}, by its camera"
                hint = f"Write the page as {taken}, if its clock was right."
                yield _flaw(picture, "photograph-date", message, hint, "warning")


def _wrong(picture: Named, known: Mapping[str, KnownPicture]) -> tuple[str, str]:
    """What is wrong with a picture, and what would help; ("", "") where nothing is."""
    if not picture.is_shown:
        return "a page cannot show such a file", f"{_KEPT} Shown are {', '.join(ENDINGS)}."
    if picture.is_outside:
        return "it lies outside the journal's folder", f"{_KEPT} Put a copy into the journal."
    looked = known[picture.path].looked
    return looked.wrong, f"{_KEPT} A path is read from the journal's folder."


def _flaw(
    picture: Named, code: str, message: str, hint: str, severity: str = "error"
) -> PlacedFlaw:
    length = len(ACT)
    return flaw_at(picture.origin, code, message, hint, 0, length, severity)
