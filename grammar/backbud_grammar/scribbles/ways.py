"""What a comma or an arrow parts from the place that it leads to: `out of the tunnel, bench`."""

from __future__ import annotations

import re

from backbud_grammar.scribbles.spelled import in_full

WAYS = (
    *("in", "out", "back", "back in", "in again", "inside", "outside", "back inside"),
    *("back outside", "back out"),
)
_CARRIED = re.compile(r"^(?:brought|taken|carried|moved|put|set) (?=\S)")
_OUT_OF = re.compile(r"(?:back |straight )?(?:out of|out from|from) (?:the )?", re.IGNORECASE)
_ARROW = re.compile(r" (?:->|=>) ")


def is_way(piece: str, places: re.Pattern[str]) -> bool:
    """Whether a piece may go on with the place behind a comma: `out`, `out of the tunnel`."""
    if _CARRIED.sub("", piece.casefold()) in WAYS:
        return True
    found = _OUT_OF.match(piece)
    return found is not None and places.fullmatch(piece[found.end() :].strip()) is not None


def with_ways(line: str, places: re.Pattern[str]) -> str:
    """The line with `to` for each arrow between two places, which is as long."""
    for arrow in _ARROW.finditer(line):
        before = in_full(line[: arrow.start()].rpartition(",")[2].strip())
        behind = in_full(line[arrow.end() :].partition(",")[0].strip(" ."))
        start = places.match(before.removeprefix("moved ").removeprefix("from "))
        if start is not None and before.endswith(start[0]) and places.match(behind):
            line = f"{line[: arrow.start()]} to {line[arrow.end() :]}"
    return line
