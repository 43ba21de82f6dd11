"""Parts a line into the sentences and pieces that the bench writes it in."""

from __future__ import annotations

import re
from collections.abc import Iterator

# No line at a bench is longer; what is, is prose.
LONGEST = 400
_SENTENCE = re.compile(
    r"(?<=[^\W\d])(?<!\bno)(?<!\bmrs)(?<!\bmr)(?<!\bdr)(?<!\bca)(?<!\bhumid)(?<!\btemp)(?<!\bw)(?<!\ba\.m)(?<!\bp\.m)"
    r"(?<!\binc)(?<!\bincl)(?<!\bapprox)(?<!\babt)(?<!\bexc)(?<!\bexcl)(?<!\bfl)(?<!\bfls)[.]\s+"
    r"|(?<=[\d)%])[.]\s+(?=\D|\d[\d.,/]*(?: \d/\d)?\s?(?:h\d\d|h|hrs?|min|mins)\b)"
    r"|\s*;\s+|!+\s+|\s+(?:->|=>|→)\s+(?!\d)|(?<!\d)\s+(?:->|=>|→)\s+|(?<!\d)\s+[–-]\s+|(?<=\d)\s+[–-]\s+(?!\d)|:\s+",
    re.IGNORECASE,
)
_MAY_END = re.compile(r"[.;!:]\s|\s[-–→=]")
_AND = re.compile(r"\s+(?:\+|&|and|then)\s+|\s*\+\s+")


def sentences(line: str) -> Iterator[tuple[int, str]]:
    """Each sentence, and where it begins."""
    at = 0
    if _MAY_END.search(line) is None:
        yield 0, line
        return
    for found in _SENTENCE.finditer(line):
        yield at, line[at : found.start()]
        at = found.end()
    yield at, line[at:]


def halves(piece: str) -> list[str]:
    """What stands between `and`s."""
    return [half for half in _AND.split(piece) if half]
