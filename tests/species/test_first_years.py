"""The first year of every species, as reviewed in first_years.txt: the works of a young tree.

The table is written anew, for a species that was added or a rule that changed, by

    python -m tests.species.test_first_years

which marks every species whose lines changed as not read yet. Read those, mend the species file
where a practitioner would shake the head, and strike the mark out.
"""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

import pytest
from tests.species.climates import year_at
from tests.species.conftest import Made
from tests.species.test_every_species import KINDS

TABLE = Path(__file__).with_name("first_years.txt")
COMMAND = "python -m tests.species.test_first_years"
UNREAD = "  (not read yet)"
HEAD = f"""\
The first years of every species: what its rules propose for a healthy young tree.

The tree stands in a training pot, was bought three years before and repotted two years before,
and is written down as fair or as strong. Nothing else was done to it, and nothing is done in the
year. The place is the cool one of tests/species/conftest.py (a mean of 14.7 °C from June to
August), north, in the open, with every stage on the species' usual day. Rules that hold for every
tree, such as winter quarters, are not in it.

A line: the best day, the first and the last, the act, and what. "strong" or "fair" stands before
a line that only such a tree has. Counts are those of a strong tree, at the cool place and at the
warm one (24.2 °C).

Every year was read whole, by eye, by this measure: each work stands in its season, by the stage
of that species and not of another; none is asked for twice, and none that a bench would expect is
missing; each agrees with how the species grows (one flush or several, where it is strongest, on
which wood it flowers, what bleeds, breaks or dies back) and with a cool summer; nothing is cut
hard or stripped that does not bear it; and the whole can be done by one person who has other
trees. What a tree bears once a season, as root work and leaf work, may stand in one year here:
the plan holds the second back as soon as the first is entered.

Written by: {COMMAND}
A species whose lines changed is marked "{UNREAD.strip()}" until somebody has read it by that
measure and struck out the mark.
"""


COLD_TABLE = TABLE.with_name("first_years_continental.txt")
COLD_HEAD = f"""\
The same first years at a continental place, Minneapolis (tests/species/climates.py): a January of
-9 °C, a mean of 22.2 °C from June to August, every stage as that weather leads to expect, looked
at from before the year. Of a strong tree.

Every year was read whole, by eye, by the measure of first_years.txt and by what is otherwise here:
no root work and no bud before the pot has thawed (late March), frost on young leaves into May, two
flushes on black pines if the candles go in early June, colour in October, bare by November.

Written by: {COMMAND}
"""


def works_of_a_year(made, kind, place, strength):
    """Each work of the year as a line, by its days."""
    species = kind()
    year = year_at(species, "Minneapolis") if place == "continental" else made.year(species, place)
    tree = made.tree(
        made.event("2024-04-10", "bought"),
        made.event("2025-03-25", "repotted", "same pot"),
        strength=strength,
    )
    found = [
        (p.window.best, p.window.opens, p.window.closes, p.act, p.what)
        for p in made.yearly(species, tree, year)
    ]
    return sorted(found)


def block(made, kind):
    """The lines of one species, and its heading without a mark."""
    fair, strong = (works_of_a_year(made, kind, "cool", s) for s in ("fair", "strong"))
    warm = works_of_a_year(made, kind, "warm", "strong")
    lines = [f"{kind.botanical} ({kind.common[0]}): {len(strong)} cool, {len(warm)} warm"]
    for work in sorted({*fair, *strong}):
        best, opens, closes, act, what = work
        only = "" if work in fair and work in strong else "strong" if work in strong else "fair"
        line = f"  {only:6} {best:%m-%d}  {opens:%m-%d} to {closes:%m-%d}  {act:11} {what}"
        lines.append(line.rstrip())
    return tuple(lines)


def cold_block(made, kind):
    """The lines of one species at the continental place."""
    works = works_of_a_year(made, kind, "continental", "strong")
    lines = [f"{kind.botanical} ({kind.common[0]}): {len(works)}"]
    for best, opens, closes, act, what in works:
        lines.append(f"  {best:%m-%d}  {opens:%m-%d} to {closes:%m-%d}  {act:11} {what}".rstrip())
    return tuple(lines)


def written(text):
    """The blocks of a table by their first line, whole."""
    parts = [part.splitlines() for part in text.rstrip("\n").split("\n\n") if part]
    return {part[0].removesuffix(UNREAD): tuple(part) for part in parts}


def table(made, old, head=HEAD, block_of=block):
    """The whole table; a species that is not in the old one as it is now is marked as unread."""
    known = written(old)
    parts = [head.rstrip("\n")]
    for kind in KINDS:
        now = block_of(made, kind)
        before = known.get(now[0], ())
        same = before[1:] == now[1:]
        heading = before[0] if same else now[0] + UNREAD
        parts.append("\n".join((heading, *now[1:])))
    return "\n\n".join(parts) + "\n"


BLOCKS = {path: written(path.read_text(encoding="utf-8")) for path in (TABLE, COLD_TABLE)}


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize(("path", "block_of"), [(TABLE, block), (COLD_TABLE, cold_block)])
def test_the_first_year_of_a_species_is_what_its_rules_propose(made, path, block_of, kind):
    now = block_of(made, kind)
    before = BLOCKS[path].get(now[0], ())
    assert before[1:] == now[1:], f"write it anew and read what changed: {COMMAND}"


@pytest.mark.parametrize(
    ("path", "head"), [(TABLE, HEAD), (COLD_TABLE, COLD_HEAD)], ids=["cool", "continental"]
)
def test_a_table_of_first_years_has_every_species_once_and_its_heading(path, head):
    text = path.read_text(encoding="utf-8")
    assert text.startswith(head)
    headings = [line for line in text[len(head) :].splitlines() if line and line[0] != " "]
    assert [line.partition(" (")[0] for line in headings] == [kind.botanical for kind in KINDS]


@pytest.mark.parametrize("path", [TABLE, COLD_TABLE], ids=["cool", "continental"])
def test_every_first_year_was_read(path):
    unread = [line for line in path.read_text("utf-8").splitlines() if line.endswith(UNREAD)]
    assert not unread, "read these and strike the mark out"


@pytest.mark.parametrize("kind", KINDS)
def test_no_work_of_a_first_year_is_asked_for_twice(made, kind):
    for strength in ("fair", "strong"):
        works = works_of_a_year(made, kind, "cool", strength)
        for (one, *_, act, what), (later, *_, same, words) in combinations(works, 2):
            if (act, what) == (same, words) or act == same == "fed":
                assert (later - one).days >= 42, (act, what)


if __name__ == "__main__":
    for path, *how in ((TABLE, HEAD, block), (COLD_TABLE, COLD_HEAD, cold_block)):
        old = path.read_text(encoding="utf-8") if path.exists() else ""
        path.write_text(table(Made(), old, *how), encoding="utf-8")
        marked = path.read_text(encoding="utf-8").count(UNREAD)
        print(f"{path}: {len(KINDS)} species, {marked} to be read")
