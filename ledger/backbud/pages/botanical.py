"""Sets a botanical name as print does: Latin words in italics, the rest upright."""

from __future__ import annotations

from msgspec import Struct

# Rank terms and the signs of hybrids and graft-chimaeras stand upright (ICNCP, from memory).
_UPRIGHT = frozenset({"×", "x", "+", "subsp.", "var.", "f.", "sect.", "cv.", "nothosubsp."})
_QUOTES = "'‘’\"“”"


class Run(Struct, frozen=True, gc=False):
    """Words of a name that are set alike."""

    text: str
    latin: bool


def botanical_runs(name: str, cultivar: str = "") -> tuple[Run, ...]:
    """Return the name in runs: Latin words for italics, the rest upright.

    The first word and every later word without a capital are Latin; Group names are not. The
    cultivar follows upright in single quotation marks (ICNCP, from memory).
    """
    runs: list[Run] = []
    for at, word in enumerate(name.split()):
        latin = word not in _UPRIGHT and (at == 0 or word[0].islower() or runs[-1].text == "×")
        shown = "×" if word == "x" else word
        if runs and runs[-1].latin == latin:
            runs[-1] = Run(f"{runs[-1].text} {shown}", latin)
        else:
            runs.append(Run(shown, latin))
    if cultivar:
        runs.append(Run(f"‘{cultivar.strip(_QUOTES)}’", False))
    return tuple(runs)
