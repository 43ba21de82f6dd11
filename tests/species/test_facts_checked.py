"""Which facts of which species rest on a published source: facts_checked.txt, held to the files.

The table is written anew, for a species or a fact that was added, by

    python -m tests.species.test_facts_checked

Read what changed before it is kept: a source stands there only if somebody read it.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.species.test_every_species import KINDS

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact

TABLE = Path(__file__).with_name("facts_checked.txt")
COMMAND = "python -m tests.species.test_facts_checked"
UNCHECKED = (COMMON_PRACTICE, FROM_MEMORY)
HEAD = f"""\
The facts that were checked: those that the file of a species holds to a published source.

A line: the fact, its value, and the source as the file names it. Every other fact says
"{FROM_MEMORY}" or "{COMMON_PRACTICE}" in its file, and only its number stands in the
heading. Hardiness is on the scale of the Royal Horticultural Society (RHS), H1a to H7. Growth
stages are the BBCH codes below, in all species; their days are from memory.

Written by: {COMMAND}
"""
# BBCH keys of pome fruit, stone fruit and grapevine (monograph, Meier 2001), as read in copies of
# the keys: what each code stands for there.
BBCH = {
    1: "beginning of bud swelling",
    7: "beginning of bud burst",
    10: "first leaves separated",
    19: "first leaves fully expanded",
    60: "first flowers open",
    65: "full flowering: at least half of the flowers open",
    69: "end of flowering: all petals fallen",
    91: "shoot growth completed, foliage still green",
    93: "beginning of leaf fall",
    97: "end of leaf fall",
}


def facts_of(kind):
    """Every fact of a species by name."""
    return {name: fact for name in dir(kind) if isinstance(fact := getattr(kind, name), Fact)}


def checked_of(kind):
    return {name: f for name, f in facts_of(kind).items() if is_read(f.source)}


def is_read(source):
    """What is from memory of a page, or told by a forum of one, nobody here has read."""
    return not source.startswith(UNCHECKED) and "as quoted on" not in source


def said(value):
    """A value as a person reads it: `5.0 to 7.0`, `H6`, a sentence."""
    return " to ".join(map(str, value)) if isinstance(value, tuple) else str(value)


def table():
    """The whole table as the files have it."""
    codes = sorted({code for kind in KINDS for code in kind.stage_months})
    parts = [HEAD.rstrip("\n"), "\n".join(f"  BBCH {c:02d}  {BBCH[c]}" for c in codes)]
    for kind in KINDS:
        checked = checked_of(kind)
        lines = [f"{kind.botanical}: {len(checked)} of {len(facts_of(kind))}"]
        for name, fact in checked.items():
            lines += [f"  {name:10}  {said(fact.value)}", f"  {'':10}  -- {fact.source}"]
        parts.append("\n".join(lines))
    return "\n\n".join(parts) + "\n"


def test_the_table_of_checked_facts_is_true_to_the_files():
    assert TABLE.read_text(encoding="utf-8") == table(), f"write it anew and read it: {COMMAND}"


@pytest.mark.parametrize("kind", KINDS)
def test_a_checked_fact_names_where_it_stands(kind):
    for name, fact in checked_of(kind).items():
        # A publisher and a page, an issue or a title: enough to find it again.
        publisher, _, where = fact.source.replace(":", ",", 1).partition(",")
        assert publisher and where.strip(), (name, fact.source)


def test_stages_are_codes_of_the_monograph():
    assert {code for kind in KINDS for code in kind.stage_months} <= set(BBCH)


if __name__ == "__main__":
    TABLE.write_text(table(), encoding="utf-8")
    print(f"{TABLE}: {sum(len(checked_of(kind)) for kind in KINDS)} checked facts")
