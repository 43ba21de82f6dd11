"""Offers acts that make sense for who is meant: what can be done to such a thing, and to a tree as
it stood on that day."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from lsprotocol import types as lsp

from backbud.collection.state import Tree
from backbud.editor.offers import Suggestion
from backbud_grammar.act_words import as_act
from backbud_grammar.forms import ActForm

ASKED, SENSIBLE, NOT_NOW = 1, 3, 8


def acts_for(
    acts: Mapping[str, ActForm],
    kinds: Iterable[str],
    trees: Iterable[Tree],
    due: Iterable[str],
    own: Iterable[tuple[str, str]] = (),
) -> Iterator[Suggestion]:
    """The acts that can be done to things of these kinds. `trees`: those that are meant, as they
    stood then; `due`: the acts that something asks for; `own`: the keeper's own words."""
    wanted, some, asked = set(kinds), [*trees], set(due)
    for form in dict.fromkeys(acts.values()):
        if wanted and wanted.isdisjoint(form.on):
            continue
        rank = ASKED if form.word in asked else SENSIBLE
        if some and not any(_makes_sense(form, tree, acts) for tree in some):
            rank = NOT_NOW
        about = form.about or form.group
        yield Suggestion(form.word, about, rank, lsp.CompletionItemKind.Function)
    for run, meaning in own:
        yield Suggestion(run, f"stands for {meaning}", SENSIBLE, lsp.CompletionItemKind.Function)


def _makes_sense(form: ActForm, tree: Tree, acts: Mapping[str, ActForm]) -> bool:
    """Whether it can be done to a tree as it stands."""
    if tree.standing in ("here", "not yet"):
        is_coming = "arrival" in form.traits and "raised" not in form.traits
        if is_coming:
            return tree.standing == "not yet" or not tree.history
    elif not {"arrival", "anywhere", "departure"} & set(form.traits):
        return False
    # What takes something off that was never put on, or is off again.
    puts_on = [one for one in acts.values() if one.undone_by == form.word]
    if not puts_on:
        return True
    on_it = {thing.event.act for thing in tree.on_tree}
    return any(as_act(one.word) in on_it for one in puts_on)
