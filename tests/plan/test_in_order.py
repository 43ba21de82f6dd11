"""Put together anew or from an earlier order: the items of all lists in the order of `sorted`."""

from __future__ import annotations

from random import Random

import pytest

from backbud.kept import KEEP_NOTHING, Kept
from backbud.plan import in_order as module
from backbud.plan.in_order import InOrder, in_order, kept_in_order

Item = tuple[int, str]


def some_list(name: str, random: Random) -> list[Item]:
    """No item is in two lists."""
    return sorted({(random.randrange(9), f"{name}{n}") for n in range(random.randrange(5))})


@pytest.mark.parametrize("seed", range(20))
@pytest.mark.parametrize("most", [0, 2, 50])
def test_after_any_change_all_items_are_in_order(
    seed: int, most: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "MOST_SPLICED", most)
    random = Random(seed)
    lists = {name: some_list(name, random) for name in "abcdefgh"}
    found: InOrder[Item] | None = None
    for _ in range(30):
        lists = dict(random.sample(list(lists.items()), len(lists)))
        for name in random.sample("abcdefghij", 2):
            if random.random() < 0.3:
                lists.pop(name, None)
            else:
                lists[name] = some_list(name, random)
        found = in_order(lists, found)
        assert list(found.items) == sorted(item for items in lists.values() for item in items)


def test_an_earlier_order_is_left_as_it_was() -> None:
    first = in_order({"a": [(1, "a")], "b": [(2, "b")]})
    in_order({"b": [(0, "b")]}, first)
    assert list(first.items) == [(1, "a"), (2, "b")]


def test_the_same_lists_give_the_very_same_order() -> None:
    kept, lists = Kept(), {"a": [(2, "a")], "b": [(1, "b")]}
    first = kept_in_order(kept, "slot", lists)
    kept.end()
    assert kept_in_order(kept, "slot", dict(lists)) is first
    other = kept_in_order(kept, "slot", lists | {"a": [(0, "a")]})
    assert list(other) == [(0, "a"), (1, "b")]
    assert list(kept_in_order(KEEP_NOTHING, "slot", lists)) == [(1, "b"), (2, "a")]
