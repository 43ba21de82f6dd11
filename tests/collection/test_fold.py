"""What a tree is after its history: place, pot, mix, owner, sizes, what is on it, its roots."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.collection.fold import entries_until

CARDS = """
    place yard
      cover  open
    place tunnel
      cover  tunnel
    place frame
      cover  cold frame
    person marrow
    person quillow
    pot tray-7
    pot tray-9
    mix maple
      akadama 3
    mix nursing
      pumice 1
    tree hoshi
      kind       trident maple 'Evening Rill'
      place      yard
      pot        tray-7
      mix        nursing
      trunk      7 cm
      root ball  34 x 24 x 6 cm
      wedges     8
      front      the scar low on the left
      strength   fair
"""


def test_the_card_says_how_it_began(written, tree) -> None:
    hoshi = tree(written(CARDS), "hoshi")
    assert (hoshi.kind, hoshi.cultivar) == ("trident maple", "Evening Rill")
    assert (hoshi.place, hoshi.pot, hoshi.mix, hoshi.owner) == ("yard", "tray-7", "nursing", "")
    assert (hoshi.standing, hoshi.strength) == ("here", "fair")
    assert {label: str(size) for label, size in hoshi.sizes.items()} == {
        "trunk": "7 cm",
        "root ball": "34 x 24 x 6 cm",
    }
    assert hoshi.facts == {"front": "the scar low on the left", "wedges": "8"}


def test_place_pot_mix_and_sizes_follow_the_diary_and_a_past_day_gives_that_day(
    written, tree
) -> None:
    session = written(
        CARDS
        + """
    2026-03-06
    hoshi
      repotted   into tray-9, mix maple 4.5 L
      moved      tunnel
      measured   trunk 7.6 cm
    2026-05-01
    hoshi
      moved      yard
      measured   height 40 cm, trunk 8 cm
    """
    )
    before, after, now = (
        tree(session, "hoshi", day) for day in ("2026-03-05", "2026-03-06", "2026-11-20")
    )
    assert (before.place, before.pot, before.mix) == ("yard", "tray-7", "nursing")
    assert (after.place, after.pot, after.mix) == ("tunnel", "tray-9", "maple")
    assert [str(t.sizes["trunk"]) for t in (before, after, now)] == ["7 cm", "7.6 cm", "8 cm"]
    assert (now.place, str(now.sizes["height"])) == ("yard", "40 cm")
    assert str(now.sizes["root ball"]) == "34 x 24 x 6 cm"
    assert "height" not in after.sizes
    assert [len(t.history) for t in (before, after, now)] == [0, 3, 5]


def test_the_last_act_of_each_sort(written, tree) -> None:
    hoshi = tree(
        written(
            CARDS
            + """
    2026-03-06
    hoshi
      fed       4 cakes
    2026-05-01
    hoshi
      fed       6 cakes
      trimmed   light
    """
        ),
        "hoshi",
    )
    assert {act: event.day for act, event in hoshi.last.items()} == {
        "fed": date(2026, 5, 1),
        "trimmed": date(2026, 5, 1),
    }
    assert hoshi.last["fed"].text == "6 cakes"
    assert hoshi.done_since(date(2026, 4, 1), "fed")
    assert not hoshi.done_since(date(2026, 5, 2), "fed", "trimmed")


# ------------------------------------------------------------------ what is on it


def test_wire_by_part_and_thickness_comes_off_by_part(written, tree, shown) -> None:
    session = written(
        CARDS
        + """
    2026-03-06
    hoshi
      wired     3 mm Al on left 2, 2 mm Al on left 2 tip, 1.5 mm Cu on apex
    2026-04-06
    hoshi
      unwired   partly on left 2
    2026-05-06
    hoshi
      unwired   on left
    2026-06-06
    hoshi
      unwired
    """
    )
    all_of_it = [
        "wire: 3 mm Al on left 2",
        "wire: 2 mm Al on left 2 tip",
        "wire: 1.5 mm Cu on apex",
    ]
    put_on = tree(session, "hoshi", "2026-03-06")
    assert shown(put_on) == all_of_it
    assert [thing.thickness_mm for thing in put_on.on("wire")] == [3.0, 2.0, 1.5]
    assert shown(tree(session, "hoshi", "2026-04-06")) == all_of_it
    assert shown(tree(session, "hoshi", "2026-05-06")) == ["wire: 1.5 mm Cu on apex"]
    assert shown(tree(session, "hoshi")) == []


@pytest.mark.parametrize(
    ("acts", "left"),
    [
        # A narrower part than the wire's leaves it on; of a word inside a word test_taken_off.py.
        (["wired 3 mm Al on left 2", "unwired on left 2 tip"], ["wire: 3 mm Al on left 2"]),
        (["wired 3 mm Al on Left 2", "unwired on left"], []),
        (["wired"], ["wire: wire"]),
        (["wired all", "unwired all"], []),
        (["guyed 1 mm Cu on left 1, anchored to the pot", "unwired"], ["guy: 1 mm Cu on left 1"]),
        (["guyed 1 mm Cu on left 1", "unguyed"], []),
        (["wrapped raffia on left 1", "wired 3 mm Al on left 1", "unwrapped"],
         ["wire: 3 mm Al on left 1"]),
        # One graft and one layer, however many words they take.
        (["grafted approach, on apex"], ["graft: approach on apex"]),
        (["layered ring, on left 3", "grafted thread on right 1", "separated on left 3"],
         ["graft: thread on right 1"]),
        (["layered ring 3 cm on left 3"], ["layer: 3 cm ring on left 3"]),
        (["protected fleece", "shaded 40 % net"], ["protection: fleece", "shade: shade 40 %"]),
        (["protected fleece", "shaded 40 %", "unprotected", "unshaded"], []),
        (["tied 2 mm x 2", "untied"], []),
        (["tied 2 mm x 2", "untied partly"], ["tie: 2 mm x 2"]),
    ],
)  # fmt: skip
def test_what_goes_on_and_comes_off(written, tree, shown, acts, left) -> None:
    lines = "".join(f"      {act}\n" for act in acts)
    hoshi = tree(written(CARDS + f"\n    2026-03-06\n    hoshi\n{lines}"), "hoshi")
    assert shown(hoshi) == left


def test_ties_and_mesh_through_repottings(written, tree, shown) -> None:
    session = written(
        CARDS
        + """
    2022-03-12
    hoshi
      repotted   same pot, tied 2 mm x 2 Al, mesh 4
    2024-03-12
    hoshi
      repotted   same pot, tied 2.5 mm x 2 Al, mesh 2, old ties left in
    2026-03-12
    hoshi
      repotted   same pot, tied 3 mm x 3
    """
    )
    assert shown(tree(session, "hoshi", "2023-01-01")) == ["tie: 2 mm Al x 2", "mesh: mesh x 4"]
    # Said to be left; the old mesh went with the old soil.
    assert shown(tree(session, "hoshi", "2025-01-01")) == [
        "old tie: 2 mm Al x 2",
        "tie: 2.5 mm Al x 2",
        "mesh: mesh x 2",
    ]
    # In the same pot the mesh stays, unless new mesh is written.
    assert shown(tree(session, "hoshi")) == ["old mesh: mesh x 2", "tie: 3 mm x 3"]


@pytest.mark.parametrize(
    ("potting", "left"),
    [
        ("repotted   same pot", ["old mesh: mesh x 4"]),
        # No pot is named, so it is the same one.
        ("repotted   2 cm off below", ["old mesh: mesh x 4"]),
        ("repotted   same pot, mesh 2", ["mesh: mesh x 2"]),
        ("repotted   into tray-9", []),
        ("potted-on  into tray-9", []),
        ("potted-on", []),
        ("slipped    into tray-9, mesh 3", ["mesh: mesh x 3"]),
    ],
)
def test_mesh_stays_in_its_pot(written, tree, shown, potting, left) -> None:
    session = written(
        CARDS
        + f"""
    2022-03-12
    hoshi
      repotted   same pot, mesh 4
    2024-03-12
    hoshi
      {potting}
    """
    )
    assert shown(tree(session, "hoshi")) == left


def test_planted_out_leaves_pot_and_mesh(written, tree, shown) -> None:
    session = written(
        CARDS
        + """
    tree yuki
      kind  trident maple
    2024-03-12
    hoshi
      repotted      same pot, tied 2 mm x 2, mesh 4
      planted-out   in yard, on a tile
    2024-04-12
    yuki
      repotted      into tray-7
    2026-03-12
    hoshi
      potted-on     into tray-9
      moved         tunnel
    """
    )
    out = tree(session, "hoshi", "2025-01-01")
    assert (out.planted_out, out.pot) == (True, "")
    assert shown(out) == ["old tie: 2 mm x 2"]
    back = tree(session, "hoshi")
    assert (back.planted_out, back.pot, back.place) == (False, "tray-9", "tunnel")


def test_lifted_out_of_open_ground_into_a_pot(written, tree, shown) -> None:
    session = written(
        CARDS
        + """
    2024-03-12
    hoshi
      planted-out   in yard
      tied          2 mm
    2026-03-12
    hoshi
      lifted        from the field, to frame, root ball 40 x 30 x 15 cm, wedges N E, mix maple
    2026-04-12
    hoshi
      potted-on     into tray-9
    2026-06-12
    hoshi
      planted-out   in yard
    2026-09-12
    hoshi
      lifted        into tray-7, tied 3 mm x 2, mesh 4, off below 2 cm
    """
    )
    out = tree(session, "hoshi", "2026-03-20")
    assert (out.planted_out, out.pot, out.place, out.mix) == (False, "", "frame", "maple")
    assert str(out.sizes["root ball"]) == "40 x 30 x 15 cm"
    assert [name for name, _ in out.opened] == ["N", "E"]
    assert shown(out) == ["old tie: 2 mm"]
    potted = tree(session, "hoshi")
    assert (potted.planted_out, potted.pot, potted.place) == (False, "tray-7", "yard")
    assert shown(potted) == ["old tie: 2 mm", "tie: 3 mm x 2", "mesh: mesh x 4"]
    assert "underside" in [name for name, _ in potted.opened]


def test_what_its_owner_wants_it_back_by_is_known_from_its_coming(written, tree) -> None:
    session = written(
        CARDS
        + """
    2026-03-01
    hoshi
      received   from marrow, for repotting, wanted by 2026-09
    2026-05-01
    hoshi
      agreed     for repotting 120 EUR, by 2026-10
    2026-07-01
    hoshi
      returned   to marrow
    """
    )
    wanted = [tree(session, "hoshi", day).wanted for day in ("2026-03-01", "2026-05-01", "")]
    assert wanted == ["2026-09", "2026-10", ""]


# ------------------------------------------------------------------ roots


def test_wedges_in_small_letters_are_the_same_wedges(written, tree) -> None:
    session = written(
        CARDS
        + """
    2024-03-12
    hoshi
      repotted    same pot, wedges N, E
    2026-03-12
    hoshi
      repotted    same pot, wedges S, e, nw
    """
    )
    assert tree(session, "hoshi").opened == (
        ("N", date(2024, 3, 12)),
        ("S", date(2026, 3, 12)),
        ("E", date(2026, 3, 12)),
        ("NW", date(2026, 3, 12)),
    )


def test_wedges_and_the_day_each_was_last_opened(written, tree) -> None:
    hoshi = tree(
        written(
            CARDS
            + """
    2022-03-12
    hoshi
      repotted    same pot, 2 cm off below, wedges N E front
    2024-03-12
    hoshi
      root-pruned wedges N left
    """
        ),
        "hoshi",
    )
    assert dict(hoshi.opened) == {
        "N": date(2024, 3, 12), "E": date(2022, 3, 12), "S": date(2022, 3, 12),
        "underside": date(2022, 3, 12), "W": date(2024, 3, 12),
    }  # fmt: skip


@pytest.mark.parametrize(
    ("wedges", "turns", "names"),
    [
        # Seen from above, front at the bottom: clockwise, the right (E) comes to the front (S).
        ("E", ["90 degrees clockwise"], {"S"}),
        ("E", ["90 degrees anticlockwise"], {"N"}),
        ("N NE", ["45 degrees clockwise"], {"NE", "E"}),
        ("S", ["180 degrees clockwise"], {"N"}),
        # By the clock, 6 at the front: 3 is the right.
        ("3", ["90 degrees clockwise"], {"6"}),
        ("12 1", ["30 degrees anticlockwise"], {"11", "12"}),
        # A small turn stays inside its wedge; two of them are one wedge on.
        ("N", ["20 degrees clockwise"], {"N"}),
        ("N", ["20 degrees clockwise", "20 degrees clockwise"], {"NE"}),
    ],
)
def test_a_new_front_turns_the_root_map_with_it(written, tree, wedges, turns, names) -> None:
    lines = "".join(f"      refronted {turn}\n" for turn in turns)
    hoshi = tree(
        written(
            CARDS
            + f"""
    2024-03-12
    hoshi
      repotted  same pot, 2 cm off below, wedges {wedges}
    2026-03-12
    hoshi
{lines}"""
        ),
        "hoshi",
    )
    assert {name for name, _ in hoshi.opened} == {*names, "underside"}
    assert {day for _, day in hoshi.opened} == {date(2024, 3, 12)}


def test_a_wedge_opened_after_the_turn_is_the_one_that_lies_there_now(written, tree) -> None:
    hoshi = tree(
        written(
            CARDS
            + """
    2022-03-12
    hoshi
      repotted    same pot, wedges E
    2023-03-12
    hoshi
      refronted   90 degrees clockwise -- the low branch shows at last
    2024-03-12
    hoshi
      repotted    same pot, wedges E
    2026-03-12
    hoshi
      repotted    same pot, wedges 6
    """
        ),
        "hoshi",
    )
    # The old E lies at the front now, which is 6 by the clock.
    assert dict(hoshi.opened) == {"E": date(2024, 3, 12), "6": date(2026, 3, 12)}
    assert hoshi.facts["front"] == "the low branch shows at last"


# ------------------------------------------------------------------ strength, quarantine


def test_vigour_by_zone_makes_the_strength(written, tree) -> None:
    session = written(
        CARDS
        + """
    2024-05-01
    hoshi
      vigour   apex 5, low 1, left weak
    2026-05-01
    hoshi
      vigour   apex strong, low 4
    """
    )
    then = tree(session, "hoshi", "2024-06-01")
    assert {zone.name: zone.score for zone in then.zones} == {"apex": 5, "low": 1, "left": 1}
    # (5 + 1 + 1) / 3 is 2.3, under the middle of weak and fair.
    assert then.weak
    # What was seen of the left side two years ago no longer counts: (5 + 4) / 2.
    assert tree(session, "hoshi").strength == "strong"


def test_a_check_of_the_strength_tells_it_too(written, tree) -> None:
    session = written(
        CARDS
        + """
    2026-04-01
    hoshi
      checked  strength strong
    2026-05-01
    hoshi
      checked  wire fine, buds weak
    2026-05-10
    hoshi
      checked  strength weak
    2026-05-20
    hoshi
      vigour   apex 5
      checked  strength weak on low, moss green
    """
    )
    assert tree(session, "hoshi", "2026-05-02").strength == "strong", "weak buds are no weak tree"
    assert tree(session, "hoshi", "2026-05-11").strength == "weak"
    found = {zone.name: zone.score for zone in tree(session, "hoshi").zones}
    # The look at the whole tree still counts among them: (1 + 5 + 1) / 3.
    assert found == {"whole tree": 1, "apex": 5, "low": 1}
    assert tree(session, "hoshi").strength == "weak"


def test_quarantine_and_release(written, tree) -> None:
    session = written(
        CARDS
        + """
    2026-05-01
    hoshi
      quarantined in frame, until 2026-06-12
    2026-06-12
    hoshi
      released
      moved   yard
    """
    )
    assert tree(session, "hoshi", "2026-05-02").quarantined
    assert tree(session, "hoshi", "2026-05-02").place == "frame"
    assert not tree(session, "hoshi").quarantined


def test_where_it_stands_outside_is_remembered_through_the_winter(written, tree) -> None:
    session = written(
        CARDS
        + """
    2025-11-14
    hoshi
      moved   tunnel
    2026-01-20
    hoshi
      moved   frame
    """
    )
    assert (tree(session, "hoshi").place, tree(session, "hoshi").outside) == ("frame", "yard")
    assert tree(session, "hoshi", "2025-01-01").outside == "yard"


# ------------------------------------------------------------------ a pot of no card


@pytest.mark.parametrize("line", ["repotted   30 cm box, 1/3 off", "slipped    tray 40 cm"])
def test_in_a_pot_that_is_on_no_card_a_tree_has_left_the_one_that_is(written, tree, line) -> None:
    session = written(
        CARDS
        + f"""
    2026-03-06
    hoshi
      {line}
    """
    )
    assert tree(session, "hoshi", "2026-03-05").pot == "tray-7"
    assert tree(session, "hoshi", "2026-03-06").pot == ""


# ------------------------------------------------------------------ rough dates


def test_a_rough_date_is_history_from_its_earliest_day(written, tree) -> None:
    session = written(
        CARDS
        + """
    2014~
    hoshi
      repotted   into tray-9
    2015-21
    hoshi
      measured   trunk 3 cm
    """
    )
    assert tree(session, "hoshi", "2013-12-31").pot == "tray-7"
    assert tree(session, "hoshi", "2014-01-01").pot == "tray-9"
    # Spring of the north begins in March.
    assert str(tree(session, "hoshi", "2015-03-01").sizes["trunk"]) == "3 cm"
    assert str(tree(session, "hoshi", "2015-02-28").sizes["trunk"]) == "7 cm"


def test_what_is_left_of_the_root_ball_is_its_size_from_then_on(written, tree) -> None:
    session = written(
        CARDS
        + """
    2026-03-06
    hoshi
      repotted  same pot, root ball 30 x 22 x 5 cm
    """
    )
    assert str(tree(session, "hoshi", "2026-03-05").sizes["root ball"]) == "34 x 24 x 6 cm"
    assert str(tree(session, "hoshi").sizes["root ball"]) == "30 x 22 x 5 cm"


def test_what_was_done_between_two_days_holds_both(written, tree) -> None:
    lines = "".join(f"2026-05-0{n}\nhoshi\n  noted  {n}\n" for n in (1, 2, 2, 4, 6))
    hoshi = tree(written("tree hoshi\n  kind  trident maple\n\n" + lines), "hoshi")

    def between(first: int, last: int) -> list[str]:
        span = date(2026, 5, first), date(2026, 5, last)
        return [entry.event.text for entry in hoshi.done_between(*span)]

    assert between(2, 4) == ["2", "2", "4"]
    assert between(3, 3) == []
    assert between(1, 9) == ["1", "2", "2", "4", "6"]
    assert between(4, 2) == []
    assert [e.event.text for e in hoshi.done_between(date.min, date.max)] == between(1, 9)


def test_the_last_act_of_a_batch_counts_though_it_was_done_to_some_of_it(written, tree) -> None:
    """But not that some of it left: the batch is here still."""
    batch = tree(
        written(
            CARDS
            + """
    2026-03-01
    hoshi
      struck    30 cuttings, as cut
    2026-05-01
    cut
      potted-on 12 in 9 cm
    2026-06-01
    cut
      sold      5 for 60 EUR
    """
        ),
        "cut",
    )
    assert batch.last["potted-on"].day == date(2026, 5, 1)
    assert "sold" not in batch.last
    assert batch.standing == "here"


def test_a_tree_has_a_history_of_its_own_from_the_day_it_was_parted_off(written) -> None:
    histories = written(
        CARDS
        + """
    2026-03-01
    hoshi
      struck      30 cuttings, as cut
    2026-06-01
    cut
      parted-off  1, as little
    """
    ).histories
    assert entries_until(histories, "little", date(2026, 5, 31)) == 0
    assert entries_until(histories, "little", date(2026, 6, 1)) > 0
