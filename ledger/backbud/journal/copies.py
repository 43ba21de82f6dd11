"""Files go in; what only repeats another, and what a merge left in two versions, comes out.

To read what stands there twice, or to choose a version, would be a guess.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from backbud.journal.warm import Outlined
from backbud_grammar.outline import begins_section
from backbud_grammar.problems import Flaw

# Seven signs alone or before a name at the left edge, as version control writes them.
_MARK = b"<<<<<<<"
_OPENS, _CLOSES = (re.compile(rb"%b(?: |$)" % (sign * 7)) for sign in (b"<", b">"))
# A line that no hand can write: here ends whatever stood above. What it hides was told.
ENDS_HERE = "\0"
# So many pages and cards, and half of a file, are hardly written twice by chance.
MANY = 5


# ------------------------------------------------------------------ copies of a file


class Copies(NamedTuple):
    """`repeated`: each file that counts for nothing, with the one that it repeats."""

    repeated: Mapping[str, str]
    flaws: Sequence[tuple[str, Flaw]]


def copies_among(files: Mapping[str, Outlined]) -> Copies:
    """Find each file of which every page and card stands in another, word for word.

    Two helpers may honestly write the same page, so what only overlaps is read, and told where it
    is much. Of files that say the same, the one with the shortest name counts: a copy's is longer.
    """
    repeated: dict[str, str] = {}
    flaws: list[tuple[str, Flaw]] = []
    alike = list(_alike(files))
    for name, other, missing, _ in alike:
        if not missing and name not in repeated and other not in repeated:
            repeated[name] = other
            flaws.append((name, _whole(other, files[name])))
    told = set(repeated)
    for name, other, missing, shared in alike:
        if MANY <= shared >= missing and name not in told and other not in told:
            told.add(name)
            flaws.append((name, _overlap(other, shared, shared + missing)))
    return Copies(repeated, flaws)


def _whole(other: str, file: Outlined) -> Flaw:
    return Flaw(
        "repeated-file",
        0,
        1,
        1,
        f"everything in this file stands in {other} too",
        f"{other} counts, and nothing of this one was read. Take one of the two away.",
        lines=file.data.count(b"\n") + 1,
    )


def _overlap(other: str, shared: int, among: int) -> Flaw:
    return Flaw(
        "repeated-pages",
        0,
        1,
        1,
        f"{shared} of the {among} pages and cards of this file stand in {other} too, word for "
        "word, and count twice",
        "If one is a copy of the other, bring what is new into one of the two, and take the other "
        "away.",
        "warning",
    )


def _alike(files: Mapping[str, Outlined]) -> Iterator[tuple[str, str, int, int]]:
    """Pairs of files, the likelier copy first, whose first page or card stands in the other.

    With each pair: how many pages and cards of the first the other does not hold, and how many it
    does.
    """
    said = {name: _digests(file) for name, file in files.items() if file.pages or file.cards}
    if len(said) < 2:
        return
    # By its first page or card each file.
    firsts: dict[bytes, list[str]] = {}
    for name, digests in said.items():
        first = next(kept.digest for kept in files[name].row if kept.digest in digests)
        firsts.setdefault(first, []).append(name)
    holders: dict[str, list[str]] = {}
    for other in sorted(said, key=lambda name: (len(name), name)):
        for first in firsts.keys() & said[other]:
            for name in firsts[first]:
                if name != other:
                    holders.setdefault(name, []).append(other)
    for name in sorted(holders, key=lambda name: (-len(name), name)):
        for other in holders[name]:
            # What stands above every date is no page that could be compared.
            if not files[name].strays or files[name].digest == files[other].digest:
                shared = len(said[name] & said[other])
                yield name, other, len(said[name]) - shared, shared


def _digests(file: Outlined) -> set[bytes]:
    return {kept.digest for _, kept in file.pages} | set(file.card_digests)


# ------------------------------------------------------------------ two versions in one file


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
