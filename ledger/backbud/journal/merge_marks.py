"""Takes out the two versions of a place that a merge left between its marks."""

from __future__ import annotations

import re

from backbud_grammar.outline import begins_section
from backbud_grammar.problems import Flaw

# Seven signs alone or before a name at the left edge, as version control writes them.
_MARK = b"<<<<<<<"
_OPENS, _CLOSES = (re.compile(rb"%b(?: |$)" % (sign * 7)) for sign in (b"<", b">"))
# A line that no hand can write: here ends whatever stood above. What it hides was told.
ENDS_HERE = "\0"


def without_conflicts(data: bytes) -> tuple[bytes, tuple[Flaw, ...]]:
    """The text without what stands between the marks of a merge, and a flaw for each.

    Every line keeps its number. Where a version has a line at the left edge, nobody knows to what
    the lines below the marks belong: they are left out too.
    """
    if _MARK not in data:
        return data, ()
    lines = data.split(b"\n")
    flaws: list[Flaw] = []
    begin: int | None = None
    for n, line in enumerate(lines):
        if begin is None and _OPENS.match(line):
            begin = n
        elif begin is not None and _CLOSES.match(line):
            flaws.append(_taken_out(lines, begin, n))
            begin = None
    return b"\n".join(lines), tuple(flaws)


def _taken_out(lines: list[bytes], begin: int, end: int) -> Flaw:
    """Blank the lines from one mark to the other, and say so."""
    length, hint = len(lines[begin]), ""
    is_cut = any(
        line[:1] not in (b"", b" ", b"\t", b"#", b"=", b"|") for line in lines[begin + 1 : end]
    )
    lines[begin : end + 1] = [b""] * (end - begin + 1)
    last = end
    if is_cut:
        lines[end] = ENDS_HERE.encode()
        hint = " Until then what stands below it is filed nowhere."
        rest = (n for n in range(end + 1, len(lines)) if begins_section(lines[n].decode()))
        last = next(rest, len(lines)) - 1
    return Flaw(
        "merge-marks",
        begin,
        1,
        length,
        "two versions stand here, as a merge left them",
        f"Neither was read. Keep what is right of the two, and take the marks out.{hint}",
        lines=last - begin + 1,
    )
