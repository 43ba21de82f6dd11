"""What may be offered at a place, and how offers are put in order and cut down to what is begun."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from lsprotocol import types as lsp
from msgspec import Struct

from backbud.journal.things import Thing, Things
from backbud_grammar.handles import fold

# What is longer than this nobody reads to its end; the rest comes as more is typed.
MOST_SHOWN = 120
KIND_OF_THING = {
    "tree": lsp.CompletionItemKind.Variable,
    "place": lsp.CompletionItemKind.Module,
    "pot": lsp.CompletionItemKind.Struct,
    "person": lsp.CompletionItemKind.Interface,
}


class Suggestion(Struct, frozen=True):
    """A word that may stand at a place. `rank`: the lowest comes first. `about`: what it is."""

    word: str
    about: str = ""
    rank: int = 5
    kind: lsp.CompletionItemKind = lsp.CompletionItemKind.Keyword


def offer_of(thing: Thing, rank: int = 5, about: str = "") -> Suggestion:
    """A thing by its handle."""
    said = about or ("" if thing.title == thing.handle else thing.title) or thing.text("kind")
    kind = KIND_OF_THING.get(thing.kind, lsp.CompletionItemKind.Value)
    return Suggestion(thing.handle, f"{thing.kind}  {said}".rstrip(), rank, kind)


def things_of(
    things: Things, kinds: Iterable[str], ranks: Mapping[str, int], otherwise: int = 5
) -> list[Suggestion]:
    """Every thing of these kinds."""
    return [
        offer_of(thing, ranks.get(thing.handle, otherwise))
        for kind in kinds
        for thing in things.of_kind(kind)
    ]


def as_completion(offers: Iterable[Suggestion], begun: str, where: lsp.Range) -> lsp.CompletionList:
    """The offers that begin with what is begun, then those that hold it, each word once."""
    wanted, found = fold(begun), dict[str, tuple[int, int, str, Suggestion]]()
    for offer in offers:
        at = fold(offer.word).find(wanted)
        if at < 0 or (at and not wanted):
            continue
        key = (int(at > 0), offer.rank, offer.word, offer)
        if offer.word not in found or key[:2] < found[offer.word][:2]:
            found[offer.word] = key
    ordered = sorted(found.values(), key=lambda one: one[:3])
    items = [_item(n, one[3], begun, where) for n, one in enumerate(ordered[:MOST_SHOWN])]
    return lsp.CompletionList(len(ordered) > MOST_SHOWN, items)


def _item(n: int, offer: Suggestion, begun: str, where: lsp.Range) -> lsp.CompletionItem:
    return lsp.CompletionItem(
        offer.word,
        kind=offer.kind,
        detail=offer.about or None,
        sort_text=f"{n:04}",
        # A client that filters by itself knows nothing of marks that may be left out.
        filter_text=offer.word if fold(begun) == begun.casefold() else f"{begun} {offer.word}",
        text_edit=lsp.TextEdit(where, offer.word),
    )
