"""Finds a page's date behind a hash, as other programs mark a heading: `## 2026-11-21`.

To us it is a remark, and what stands below it would be filed under the day before.
"""

from __future__ import annotations

import re

from backbud.journal.merge_marks import ENDS_HERE
from backbud_grammar.datelines import hint_of_date, is_dateline
from backbud_grammar.outline import begins_section
from backbud_grammar.problems import Flaw

_HASHED = re.compile(rb"(?m)^#+[ \t]*([^\n#]{4,40}?)[ \t:]*\r?$")
# `date,low,high` heads a table of weather.
_COLUMNS = re.compile(r"\S+[,;]\S")


def without_hashed_dates(data: bytes) -> tuple[bytes, tuple[Flaw, ...]]:
    """The text with the day above ended where a heading stands behind hashes, and a flaw for each.

    Every line keeps its number. Where only remarks, a date or a card follow, it is a remark: a page
    that was taken out.
    """
    if b"#" not in data or _HASHED.search(data) is None:
        return data, ()
    lines = data.split(b"\n")
    flaws: list[Flaw] = []
    for n, line in enumerate(lines):
        found = _HASHED.match(line)
        if found is None or not is_dateline(text := found[1].decode(errors="replace")):
            continue
        below = next((one.decode(errors="replace") for one in lines[n + 1 :] if one.strip()), "")
        if not below or below[0] in "# \t" or begins_section(below) or _COLUMNS.match(below):
            continue
        lines[n] = ENDS_HERE.encode()
        behind = range(n + 1, len(lines))
        rest = (i for i in behind if begins_section(lines[i].decode(errors="replace")))
        last = next(rest, len(lines)) - 1
        written = line.decode(errors="replace").strip()
        flaws.append(
            Flaw(
                "bad-heading",
                n,
                1,
                len(written),
                f"“{written}” is a remark to yourself, and begins no page",
                f"{hint_of_date(text, None)} Until then what stands below it is filed nowhere.",
                lines=last - n + 1,
            )
        )
    return b"\n".join(lines), tuple(flaws)
