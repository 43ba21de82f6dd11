"""Says which wire stands on which branches as the tables do: `left 1-4 cu 2 + 2,5`."""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal

WIRING = ("wired", "guyed")
_METALS = {"al": "Al", "alu": "Al", "aluminium": "Al", "cu": "Cu", "copper": "Cu"}
WIRE_WORDS = (*_METALS, "mm", "ga", "gauge", "wire", "to", "and", "until", "till", "whole")
# No wire of a bench is thicker; what is may be a gauge, or a count: copper is 5 mm at most, and
# `cu 8` a gauge.
THICKEST = {"Al": Decimal(8), "Cu": Decimal(5)}
# No copper of so many mm is put on a tree, so that each of these is a gauge.
_GAUGES_OF_COPPER = range(6, 31)
_SIGN = re.compile(
    r"(?P<metal>al|alu|aluminium|cu|copper)\b"
    r"|(?P<of>left|right) (?P<these>\d(?: ?(?:\+|&|and) ?\d(?![.,]\d| ?mm))+)"
    r"(?= wired\b|,? (?:al|alu|cu)\b|$)"
    r"|(?P<side>left|right) (?P<first>\d)(?: ?(?:-|–|to) ?(?:(?P=side) )?(?P<last>\d))?\b"
    r"(?![.,]\d| ?mm)"
    r"|(?P<part>(?:low |lower |upper )?"
    r"(?:left|right|apex|top|crown|back|front|trunk(?: line)?|leader))\b"
    r"|(?P<size>\d+(?:[.,]\d+)?)(?: ?mm\b)?"
    r"|(?P<to>-|–|to\b|until\b|till?\b)|whole(?= (?:top|apex|crown|left|right)\b)"
    r"|(?P<gauge>ga\b|gauge\b)|(?<=[a-z\d]) ?only$"
    r"|(?P<beside>\+|&|,|/|and\b|wired\b|round\b|around\b|along\b|on\b|in\b|at\b|the\b|with\b|wire\b|mm\b|branch\b)",
    re.IGNORECASE,
)

# What was left on stays there: `wire left on L1`.
_STAYS_ON = re.compile(r"\bleft (?:on|over|in)\b", re.IGNORECASE)


def wires_said(piece: str) -> Iterator[str]:
    """Each thickness on each part; none where a word stands there that is neither.

    Several thicknesses are told from the thinnest to the thickest: which is where, nobody said.

    >>> list(wires_said("left 1-2 cu 2 + 2,5"))
    ['2-2,5 mm Cu on left 1, 2-2,5 mm Cu on left 2']
    >>> list(wires_said("cu 10 and 12"))
    ['gauge 10-12 Cu']
    """
    if _STAYS_ON.search(piece):
        return
    sizes: list[str] = []
    parts: list[str] = []
    metals: set[str] = set()
    says_gauge = False
    at = 0
    while at < len(piece):
        found = _SIGN.match(piece, at)
        if found is None:
            return
        if found["metal"]:
            metals.add(_METALS[found["metal"].casefold()])
        elif found["side"]:
            first, last = int(found["first"]), int(found["last"] or found["first"])
            if last < first:
                return
            parts += [f"{found['side'].casefold()} {number}" for number in range(first, last + 1)]
        elif found["these"]:
            parts += [f"{found['of'].casefold()} {one}" for one in found["these"] if one.isdigit()]
        elif found["part"]:
            parts.append(found["part"].casefold())
        elif found["size"]:
            sizes.append(found["size"])
        says_gauge = says_gauge or bool(found["gauge"])
        at = found.end()
        while at < len(piece) and piece[at] == " ":
            at += 1
    thick = sorted(sizes, key=_figure)
    if len(metals) > 1:
        return
    of_copper = metals == {"Cu"} and "mm" not in piece
    if (
        thick
        and metals
        and all(map(str.isdigit, thick))
        and (says_gauge or (of_copper and _gauges(thick)))
    ):
        span = thick[0] if len(thick) == 1 else f"{thick[0]}-{thick[-1]}"
        size = " ".join(("gauge", span, *metals))
        yield ", ".join(f"{size} on {part}" for part in parts) or size
        return
    if says_gauge or (thick and not metals):
        return
    if thick and _figure(thick[-1]) > THICKEST[min(metals)]:
        return
    if thick:
        span = thick[0] if len(thick) == 1 else f"{thick[0]}-{thick[-1]}"
        size = f"{span} mm {metals.pop()}"
        yield ", ".join(f"{size} on {part}" for part in parts) or size
    elif parts and not metals:
        yield ", ".join(f"on {part}" for part in parts)


def _gauges(sizes: list[str]) -> bool:
    return all(int(one) in _GAUGES_OF_COPPER for one in sizes)


def _figure(written: str) -> Decimal:
    return Decimal(written.replace(",", "."))
