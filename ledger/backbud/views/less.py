"""Views with less in them: a tree that nobody can be told by, a shelf without prices."""

from __future__ import annotations

from msgspec.structs import replace

from backbud.views.shelf import BuyView, OnHandView, ShelfView
from backbud.views.tree import TreeView


def nameless(tree: TreeView) -> TreeView:
    """A tree that nobody can be told by."""
    empty = dict.fromkeys(
        ("tree", "owner", "owner_name", "place", "place_name", "pot", "pot_name", "mix", "mix_name",
         "wanted", "strength", "parted_from"), ""
    )  # fmt: skip
    kind = f"{tree.kind} ‘{tree.cultivar}’" if tree.cultivar else tree.kind
    wires = tuple(replace(one, part="") for one in tree.wires)
    # A picture may show anybody, so nobody is shown one until the keeper chooses it. How it grows,
    # and whether it is here, is nobody's matter.
    pictures = tuple(replace(one, at="", taken=None) for one in tree.photographs if one.for_public)
    return replace(tree, **empty, name=kind, standing="here", standing_since=None, wanted_by=None,
                   planted_out=False, quarantined=False, vigour={}, vigour_seen={}, looks={},
                   opened={}, wedges_next=(), facts=(), on_it=(), wires=wires, batch=None,
                   photographs=pictures)  # fmt: skip


def unpriced(shelf: ShelfView) -> ShelfView:
    nothing = type(shelf.value)(0)
    return replace(
        shelf,
        currency="",
        value=nothing,
        value_is_at_least=False,
        value_is_at_most=False,
        cost=nothing,
        cost_is_at_least=False,
        shelf=tuple(map(_unpriced_on_hand, shelf.shelf)),
        buy=tuple(map(_unpriced_to_buy, shelf.buy)),
        # What to write down gives prices, and is the keeper's to write.
        missing=(),
    )


def _unpriced_on_hand(one: OnHandView) -> OnHandView:
    return replace(one, price=None, value=None)


def _unpriced_to_buy(one: BuyView) -> BuyView:
    return replace(one, cost=None)
