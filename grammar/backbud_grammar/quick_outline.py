"""Outlines a page of the diary in one go, where all its lines begin as they should.

Most pages are so: no tabs, and an act word at the beginning of each indented line. Of any other
page `outline.py` makes the outline, step by step; tests hold the two together.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from sys import intern

from backbud_grammar.continued import without_remark
from backbud_grammar.problems import Flaw
from backbud_grammar.syntax import Act, Block
from backbud_grammar.written_hours import HOUR

HOUR_IN = re.compile(HOUR)
# The number of a line (0 first), and the line.
Numbered = tuple[int, str]
# Puts an act together from its line and deeper ones, which may not all go on with it.
Join = Callable[[list[Numbered], list[Flaw]], Act]


def quick_blocks(
    lines: list[str], words: frozenset[str], prose: frozenset[str], join: Join
) -> tuple[list[Block], list[Flaw]] | None:
    """The blocks of a page without tabs, of whose lines the first is its date; None where a line
    begins with none of the act words.

    `words`: every act word. `prose`: those that take everything as words.
    """
    blocks: list[Block] = []
    flaws: list[Flaw] = []
    subjects, begins = "", 0
    acts: list[Act] = []
    # The lines of each act that has deeper ones, by its place among the acts.
    joined: dict[int, list[Numbered]] = {}
    # The indent of the line that a deeper one goes on; -1 where there is none.
    indent, last, last_at = -1, "", 0
    for number, line in enumerate(lines):
        if not number:
            continue
        line = line.rstrip()
        if not line:
            indent = -1
            continue
        first = line[0]
        if first != " ":
            if first == "#":
                continue
            if acts or begins:
                blocks.append(_block(subjects, begins, acts, joined, flaws, join))
                acts, joined = [], {}
            # The same subjects and words come again and again, and a journal holds all of them.
            subjects, begins, indent = intern(line), number, -1
            continue
        body = line.lstrip()
        if body[0] == "#":
            continue
        size = len(line)
        deep = size - len(body)
        if 0 <= indent < deep:
            joined.setdefault(len(acts) - 1, [(last_at, last)]).append((number, line))
            continue
        indent, last, last_at = deep, line, number
        word, _, rest = body.partition(" ")
        folded = word if word in words else word.casefold()
        if folded not in words:
            return None
        rest = rest.lstrip()
        if ":" in rest and HOUR_IN.search(rest):
            return None
        column, remark = size - len(rest) + 1, ""
        if ("--" in rest or "—" in rest) and folded not in prose:
            rest, remark = without_remark(rest)
        acts.append(Act(intern(word), intern(rest), remark, number, deep + 1, column))
    if acts or begins:
        blocks.append(_block(subjects, begins, acts, joined, flaws, join))
    return blocks, flaws


def _block(
    subjects: str,
    line: int,
    acts: list[Act],
    joined: dict[int, list[Numbered]],
    flaws: list[Flaw],
    join: Join,
) -> Block:
    for at, group in joined.items():
        acts[at] = join(group, flaws)
    return Block(subjects, line, tuple(acts))
