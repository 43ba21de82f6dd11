"""Which forms may take a detail: the longest known label wins."""

from __future__ import annotations

from collections.abc import Sequence

from backbud_grammar.forms import ANY_WORDS, Form
from backbud_grammar.items import DetailItem
from backbud_grammar.lexicon import SHARES, Lexicon


def labelled(
    items: list[DetailItem], lexicon: Lexicon
) -> tuple[list[Form], list[DetailItem]] | None:
    """Find the longest known label among the words; return its forms and what is left.

    A longer phrase out of a form's closed list wins over a label inside it ("by hand", "root ball"
    in "off 1/3 of the root ball").
    """
    words = [item.text.casefold() if item.sort == "word" else "" for item in items]
    if lexicon.label_heads.isdisjoint(words):
        return None
    text = f" {' '.join(words)} "
    best: tuple[int, int, list[Form]] | None = None
    for padded, parts, forms, longer in lexicon.labels:
        if padded in text and not any(phrase in text for phrase in longer):
            size = len(parts)
            at = next(i for i in range(len(words)) if tuple(words[i : i + size]) == parts)
            if best is None or (size, -at) > best[:2]:
                best = (size, -at, forms)
    if best is None:
        return None
    size, at = best[0], -best[1]
    return best[2], items[:at] + items[at + size :]


def likely(bare: Sequence[Form], items: Sequence[DetailItem]) -> list[Form]:
    """The bare forms that these items can be at all."""
    sorts = {item.measure.sort for item in items if item.measure is not None}
    if not sorts:
        return [form for form in bare if not form.bound or form.reader]
    if "number" in sorts:
        return [
            form
            for form in bare
            if form.sorts or form.date or form.reader or form.words == ANY_WORDS
        ]
    return [
        form
        for form in bare
        if form.reader or form.words == ANY_WORDS or not sorts.isdisjoint(form.sorts)
    ]


def without_share(items: list[DetailItem]) -> tuple[list[DetailItem], str]:
    """Take `each` or `together` off a measure."""
    shares = [item.text for item in items if item.text in SHARES]
    if not shares or all(item.measure is None for item in items):
        return items, ""
    return [item for item in items if item.text not in SHARES], shares[0]
