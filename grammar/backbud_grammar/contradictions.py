"""What an act says twice, or what of it cannot stand together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from backbud_grammar.act_words import as_detail
from backbud_grammar.acts.watching import PESTS
from backbud_grammar.lexicon import Lexicon
from backbud_grammar.problems import Flaw
from backbud_grammar.syntax import Detail


def contradictions(
    details: Sequence[Detail], starts: Sequence[int], lexicon: Lexicon
) -> Iterator[Flaw]:
    """What is said twice where only the first would count, or cannot stand together."""
    names = [detail.name for detail in details]
    if len(set(names)) < len(names) and not lexicon.single.isdisjoint(names):
        for i, name in enumerate(names):
            if name in lexicon.single and name in names[:i]:
                said = lexicon.said(name)
                yield Flaw(
                    "said-twice",
                    0,
                    starts[i] + details[i].offset,
                    details[i].length,
                    f"{said} stands here twice, and the first counts",
                    "Take one out, or write the second on an act line of its own.",
                )
    for one, other in lexicon.not_with:
        if one in names and other in names:
            i = max(names.index(as_detail(one)), names.index(as_detail(other)))
            yield Flaw(
                "contradiction",
                0,
                starts[i] + details[i].offset,
                details[i].length,
                f"“{one}” and “{other}” cannot both be so",
                "Take one of them out.",
            )
    if "part" in names and not lexicon.placed.isdisjoint(names):
        i = names.index("part")
        if any(d.name in lexicon.placed and not d.part for d in details):
            yield Flaw(
                "part-first",
                0,
                starts[i] + details[i].offset,
                details[i].length,
                "this part has no measure, and a measure has no part",
                "Write the measure first: 3 mm Al on left 2.",
            )
    if names.count("what") > 1 and "finding" not in names:
        yield from _found_or_sought(details, starts)


def _found_or_sought(details: Sequence[Detail], starts: Sequence[int]) -> Iterator[Flaw]:
    """`checked pests, aphids` looked for those as well, or found them."""
    named = [i for i, one in enumerate(details) if one.name == "what" and one.words in PESTS]
    if len(named) < 2 or details[named[0]].words != PESTS[0]:
        return
    i = named[1]
    pest = details[i].words
    yield Flaw(
        "found-or-sought",
        0,
        starts[i] + details[i].offset,
        details[i].length,
        f"“{pest}” may be what was looked for, or what was there",
        f"Where they were there, write “checked {pest}, some” or “many”; where none was, "
        f"“checked {pest}, none”.",
    )
