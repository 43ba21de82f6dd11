"""Whom `all …` means, kept along the replay, is whom a look at every tree finds."""

from __future__ import annotations

from types import SimpleNamespace

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from tests.examples import examples

from backbud.collection import subjects
from backbud.collection.here import TreesHere, has_kind

CARDS = """
place yard
place bench
  within  yard
place tunnel
  within  yard
place shed
person una
person marrow
person quillow
tree hoshi
  kind   trident maple
  place  bench
tree yuki
  kind   satsuki azalea 'Kaho'
  place  tunnel
tree mori
  kind   Satsuki Azalea
  owner  marrow
tree kaze
  kind   Japanese black pine
  place  shed
tree tsuru
  kind   trident maple
  since  2026-02-01
  place  bench

"""
TREES = ("hoshi", "yuki", "mori", "kaze", "tsuru", "new-1", "new-2")
ALL = (
    "all",
    *(f"all in {place}" for place in ("yard", "bench", "tunnel", "shed")),
    *(f"all of {person}" for person in ("una", "marrow", "quillow")),
    *(f"all {kind}" for kind in ("azalea", "satsuki azalea", "trident maple", "maple", "pine")),
)
ACTS = (
    "moved  tunnel",
    "moved  bench",
    "moved  shed",
    "planted-out  yard",
    "sold  to quillow",
    "sold  to quillow, stays",
    "lent  to marrow",
    "returned",
    "returned  to marrow",
    "received  from quillow for wiring",
    "bought",
    "died",
    "lost",
    "quarantined  shed",
    "separated  on branch 3, as new-1",
    "struck  20 cuttings, as new-2",
    "parted-off  as new-1",
    "watered",
)


def a_tree(handle: str, place: str, owner: str, kind: str, standing: str = "here") -> object:
    return SimpleNamespace(handle=handle, place=place, owner=owner, kind=kind, standing=standing)


def test_who_is_here_is_found_in_the_order_of_the_first_time() -> None:
    here = TreesHere()
    here.put(a_tree("hoshi", "bench", "", "trident maple"))
    here.put(a_tree("yuki", "tunnel", "", "Satsuki Azalea 'Kaho'"))
    here.put(a_tree("mori", "bench", "marrow", "satsuki azalea"))
    here.put(a_tree("kaze", "bench", "", "pine", "not yet"))
    assert here.every() == ["hoshi", "yuki", "mori"]
    assert here.in_places({"tunnel", "bench"}) == ["hoshi", "yuki", "mori"]
    assert here.in_places({"shed"}) == []
    assert here.of_owners({"marrow"}) == ["mori"]
    assert here.of_owners({"marrow", ""}) == ["hoshi", "yuki", "mori"]
    assert here.of_kind("azalea") == ["yuki", "mori"]
    assert here.of_kind("zalea") == []
    # It moves, goes, and comes back as another's: it stays the first.
    here.put(a_tree("hoshi", "tunnel", "", "trident maple"))
    assert (here.in_places({"bench"}), here.in_places({"tunnel"})) == (["mori"], ["hoshi", "yuki"])
    here.put(a_tree("hoshi", "", "quillow", "trident maple", "sold"))
    assert (here.every(), here.of_owners({"quillow"})) == (["yuki", "mori"], [])
    here.put(a_tree("hoshi", "bench", "quillow", "trident maple"))
    here.put(a_tree("kaze", "bench", "", "pine"))
    assert here.every() == ["hoshi", "yuki", "mori", "kaze"]
    assert here.in_places({"bench"}) == ["hoshi", "mori", "kaze"]
    assert here.of_owners({"quillow"}) == ["hoshi"]


blocks = st.lists(
    st.one_of(
        st.tuples(st.sampled_from(TREES), st.sampled_from(ACTS)),
        st.tuples(st.sampled_from(ALL), st.sampled_from(ACTS[:14])),
    ),
    min_size=1,
    max_size=24,
)


@pytest.mark.parametrize("keeper", ["una", ""])
@settings(
    max_examples=examples(40),
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(blocks)
# Worked on before the day of its coming, so it was here all along.
@example([("hoshi", "watered"), ("hoshi", "bought")])
def test_all_means_whom_a_look_at_every_tree_finds(written, monkeypatch, keeper, blocks) -> None:
    """Before each line the trees that are meant are those of every tree, looked at one by one."""
    asked: list[tuple[object, list[str], list[str]]] = []
    as_kept = subjects.Chooser._all

    def both_ways(chooser, item) -> list[str]:
        found = as_kept(chooser, item)
        # A fault within the replay would be told as a problem, and not here.
        asked.append((item, found, looked_at(chooser, item)))
        return found

    monkeypatch.setattr(subjects.Chooser, "_all", both_ways)
    pages = [
        f"2026-{month:02d}-01\n{subject}\n  {act}\n{ALL[month % len(ALL)]}\n  watered\n"
        for month, (subject, act) in zip((1, 2, 3, 4, 5, 6, 7, 8, 9) * 3, blocks, strict=False)
    ]
    written(
        CARDS + "\n".join(pages),
        settings=f'home = "yard"\nkeeper = "{keeper}"\n' if keeper else 'home = "yard"\n',
        any_problems=True,
    )
    assert len(asked) >= len(pages) > 0
    assert [found for _, found, _ in asked] == [looked for _, _, looked in asked]


def looked_at(chooser: subjects.Chooser, item) -> list[str]:
    """The trees that are here, each looked at."""
    here = [tree for tree in chooser.trees.values() if tree.standing == "here"]
    if item.by == "all":
        return [tree.handle for tree in here]
    if item.by == "kind":
        return [tree.handle for tree in here if has_kind(tree.kind, item.words)]
    handle = subjects.canonical(chooser.things, item.words)
    if item.by == "of":
        owners = (handle, "") if handle == chooser.keeper else (handle,)
        return [tree.handle for tree in here if tree.owner in owners]
    return [tree.handle for tree in here if tree.place in chooser.inside[handle]]
