"""What a look found is answered: what bites or is loose, what lives there, what rots or stands wet.

The works and their days are common practice, no source.
"""

from __future__ import annotations

from textwrap import dedent

import pytest
from tests.plan.conftest import WANTED

ON_IT = dedent("""\
    tree hoshi
      kind   trident maple
      since  2015
      place  yard
    place yard
      cover     open
      latitude  52 N
    2026-06-21
    hoshi
      guyed      2 mm on left 3
      grafted    on apex
      layered    on left 4
      wrapped    raffia on left 5
      tied       2 mm x 2
      protected  fleece
    """)
BARE = dedent("""\
    tree hoshi
      kind   trident maple
      since  2015
    """)


def asked(session, *rules: str) -> dict[str, tuple[str, str, str]]:
    """What is wanted by these rules on the day, with its days."""
    return {
        f.title: (
            f.window.opens.isoformat(),
            f.window.best.isoformat(),
            f.window.closes.isoformat(),
        )
        for f in session.plan().follow_ups["hoshi"]
        if f.state(session.today) in WANTED and f.id.split("/")[1] in rules
    }


def looked(found: str, more: str = "") -> str:
    return f"2026-07-01\nhoshi\n  checked  {found}\n{more}"


@pytest.mark.parametrize(
    ("found", "rule", "title", "days"),
    [
        ("mites, many", "pests-found", "treat against mites", ("01", "02", "08")),
        ("scale, some", "pests-found", "treat against scale", ("01", "04", "11")),
        ("leaves sticky", "pest-signs", "check for pests", ("01", "03", "08")),
        ("needles, spots on left 1", "pest-signs", "check for pests on left 1", ("01", "03", "08")),
        ("graft, not taken", "graft-failed",
         "seal the place of the graft, dead wood and binding off first", ("01", "08", "29")),
        ("graft, taken", "graft-taken", "check graft", ("22", "29", "08-12")),
        ("layer, rooted", "layer-rooted", "separate the layer", ("01", "08", "29")),
        ("layer rooted on left 4", "layer-rooted", "separate the layer on left 4",
         ("01", "08", "29")),
        ("layer, white roots", "layer-rooted", "check layer", ("15", "22", "08-05")),
        ("guys loose", "guy-loose", "guy again where it is slack", ("01", "08", "29")),
        ("guys biting on left 3", "guy-loose", "guy again on left 3, with a pad under it",
         ("01", "01", "08")),
        ("protection broken", "protection-broken", "protect again: mend what is broken",
         ("01", "01", "04")),
        ("soil waterlogged", "waterlogged",
         "check roots: open the hard surface, look at the holes and the underside",
         ("01", "02", "08")),
        ("drainage slow", "waterlogged",
         "check roots: open the hard surface, look at the holes and the underside",
         ("01", "04", "15")),
        ("surface hard", "hard-surface", "open the hard surface", ("01", "08", "29")),
        ("ties loose", "ties-loose", "tie again, or hold the tree from outside",
         ("01", "03", "15")),
        ("raffia biting on left 5", "wrap-bites", "unwrap on left 5", ("01", "01", "08")),
        ("pot cracked", "pot-broken", "slip into another pot, the root ball unbroken",
         ("01", "08", "29")),
        ("roots rotten", "roots-rot",
         "repot and cut rotten roots back to sound ones, into an open mix", ("01", "04", "15")),
        ("wounds rotten on right 1", "wood-rots",
         "seal the wound on right 1, cut back to sound wood first", ("01", "08", "29")),
        ("jin soft", "wood-rots", "treat deadwood and clean out first what is soft",
         ("01", "15", "08-30")),
    ],
)  # fmt: skip
def test_what_a_look_found_is_answered(written, found, rule, title, days) -> None:
    session = written(ON_IT + looked(found), "2026-07-01")
    whole = tuple(f"2026-{day if '-' in day else f'07-{day}'}" for day in days)
    assert asked(session, rule) == {title: whole}


NAMES = ("pests-found", "pest-signs", "graft-failed", "graft-taken", "layer-rooted", "guy-loose",
         "protection-broken", "waterlogged", "hard-surface", "ties-loose", "wrap-bites",
         "pot-broken", "roots-rot", "wood-rots")  # fmt: skip


@pytest.mark.parametrize(
    "found",
    ["", "mites, none", "pests clean", "graft", "layer not yet", "guys fine", "protection fine",
     "drainage fine", "soil dry", "ties fine", "raffia fine", "pot fine", "roots rootbound",
     "wounds closing", "jin hard", "leaves green", "surface clean"],
)  # fmt: skip
def test_where_nothing_is_amiss_nothing_is_asked(written, found) -> None:
    assert asked(written(ON_IT + looked(found), "2026-07-01"), *NAMES) == {}


@pytest.mark.parametrize(
    "found",
    ["graft taken", "graft not taken", "layer rooted"],
)
def test_of_a_graft_or_a_layer_that_nobody_made_nothing_is_asked(written, found) -> None:
    assert asked(written(BARE + looked(found), "2026-07-01"), *NAMES) == {}


@pytest.mark.parametrize(
    ("found", "name"),
    [
        ("guys loose", "guy-loose"),
        ("protection broken", "protection-broken"),
        ("ties loose", "ties-loose"),
        ("raffia biting", "wrap-bites"),
        ("wire biting on left 2", "wire-check-again"),
    ],
)
def test_what_a_look_found_is_there_though_nobody_wrote_that_it_is(written, found, name) -> None:
    """A diary begins somewhere: wire that bites was put on before it."""
    session = written(BARE + looked(found), "2026-07-01")
    assert len(asked(session, *NAMES, "wire-check-again")) == len(asked(session, name)) == 1


@pytest.mark.parametrize(
    ("found", "then"),
    [
        ("mites, many", "treated neem 5 mL/L, against mites"),
        ("mites, many", "checked mites, none"),
        ("scale, some", "cleaned scale off"),
        ("leaves sticky", "checked aphids, some"),
        ("layer rooted on left 4", "separated on left 4, as little-hoshi"),
        ("guys loose", "guyed 2 mm on left 3"),
        ("ties loose", "tied 2 mm x 2"),
        ("protection broken", "protected fleece"),
        ("pot cracked", "slipped"),
        ("roots rotten", "repotted same pot"),
        ("wounds rotten", "sealed wounds"),
        ("surface hard", "opened surface"),
        ("soil waterlogged", "checked roots, fine"),
        ("raffia biting", "unwrapped"),
    ],
)
def test_it_is_settled_by_what_answers_it(written, found, then) -> None:
    rule = {
        "mites": "pests-found", "scale": "pests-found", "leaves": "pest-signs",
        "layer": "layer-rooted", "guys": "guy-loose", "ties": "ties-loose",
        "protection": "protection-broken", "pot": "pot-broken", "roots": "roots-rot",
        "wounds": "wood-rots", "surface": "hard-surface", "soil": "waterlogged",
        "raffia": "wrap-bites",
    }[found.split()[0].strip(",")]  # fmt: skip
    done = f"2026-07-03\nhoshi\n  {then}\n"
    assert asked(written(ON_IT + looked(found), "2026-07-03"), rule)
    assert asked(written(ON_IT + looked(found, done), "2026-07-03"), rule) == {}


@pytest.mark.parametrize("then", ["cleaned moss off", "checked scale, none", "checked wire, fine"])
def test_mites_are_not_gone_by_something_else(written, then) -> None:
    done = f"2026-07-03\nhoshi\n  {then}\n"
    session = written(ON_IT + looked("mites, many", done), "2026-07-03")
    assert set(asked(session, "pests-found")) == {"treat against mites"}


@pytest.mark.parametrize(
    ("later", "open_still"),
    [("checked mites, none", False), ("checked pests, none", False), ("checked wire", True)],
)
def test_a_look_for_the_very_pest_settles_the_look_after_a_treatment(
    written, later, open_still
) -> None:
    text = f"{ON_IT}2026-07-01\nhoshi\n  treated neem 5 mL/L, against mites\n"
    session = written(f"{text}2026-07-11\nhoshi\n  {later}\n", "2026-07-12")
    assert (asked(session, "pest-check") != {}) == open_still


def test_a_layer_that_roots_late_is_taken_off_before_the_next_growth(written) -> None:
    text = ON_IT + "2026-11-20\nhoshi\n  checked  layer, rooted\n"
    assert asked(written(text, "2027-01-20"), "layer-rooted") == {
        "separate the layer": ("2027-01-15", "2027-02-20", "2027-03-31")
    }


@pytest.mark.parametrize(
    ("looked_on", "found", "wanted"),
    [
        # Nobody wrote down a repotting: the roots are looked at, and what the look found is told.
        ("2026-07-01", "roots fine", ("check roots", "No repotting is written down.")),
        ("2026-07-01", "roots rootbound",
         ("repot", "No repotting is written down, and it was found rootbound on 1 July 2026.")),
        ("2024-01-05", "roots rootbound", ("check roots", "No repotting is written down.")),
        # In the very weeks of the work it is done at once.
        ("2027-03-03", "roots rootbound",
         ("repot", "No repotting is written down, and it was found rootbound on 3 March 2027.")),
    ],
)  # fmt: skip
def test_roots_found_to_fill_the_pot_are_repotted_in_their_time(
    written, looked_on, found, wanted
) -> None:
    session = written(f"{BARE}{looked_on}\nhoshi\n  checked  {found}\n", "2027-03-04")
    repot = {f.id: f for f in session.plan().follow_ups["hoshi"]}["hoshi/trident-repot/2027"]
    assert (repot.title, repot.because[-1].text) == wanted
    assert (repot.state(session.today), repot.settled) == ("now", None)


@pytest.mark.parametrize(
    "found",
    ["graft, taken", "layer, white roots", "leaves sticky", "soil waterlogged", "drainage slow"],
)
def test_whoever_says_when_to_look_again_is_not_told_another_day(written, found) -> None:
    session = written(ON_IT + looked(f"{found}, again in 3 weeks"), "2026-07-01")
    assert asked(session, *NAMES) == {}


def state_on(written, states, diary: str, day: str, rule: str) -> set[str]:
    return set(states(written(dedent(diary), day), rule).values())


@pytest.mark.parametrize(
    ("found", "rule"),
    [
        ("protection broken", "protection-broken"),
        ("guys loose", "guy-loose"),
        ("surface hard", "hard-surface"),
        ("ties loose", "ties-loose"),
        ("pot cracked", "pot-broken"),
        ("wounds rotten", "wood-rots"),
        ("jin soft", "wood-rots"),
    ],
)
def test_what_is_broken_is_late_until_it_is_mended(written, states, found, rule) -> None:
    """A crack does not heal: 120 days later, on 29 October, it is asked for still."""
    assert state_on(written, states, ON_IT + looked(found), "2026-10-29", rule) == {"overdue"}


@pytest.mark.parametrize(
    ("found", "rule"),
    [
        ("guys loose", "guy-loose"),
        ("surface hard", "hard-surface"),
        ("ties loose", "ties-loose"),
        ("pot cracked", "pot-broken"),
        ("roots rotten", "roots-rot"),
        ("wounds rotten", "wood-rots"),
        ("jin soft", "wood-rots"),
        ("mites, many", "pests-found"),
    ],
)
def test_after_a_season_it_comes_again_before_growth(written, states, found, rule) -> None:
    """From 15 January on; on 20 February it is asked."""
    assert state_on(written, states, ON_IT + looked(found), "2027-02-20", rule) == {"now"}


def test_grubs_are_picked_as_a_tree_is_repotted(written, states) -> None:
    found = looked("weevils, many", "2026-07-03\nhoshi\n  repotted  same pot\n")
    assert state_on(written, states, ON_IT + found, "2026-07-20", "pests-found") == {"done"}
    other = found.replace("weevils", "mites")
    assert state_on(written, states, ON_IT + other, "2026-07-20", "pests-found") == {"overdue"}


def test_rot_that_was_found_as_the_roots_were_worked_on_asks_for_no_more(written) -> None:
    cut = "  repotted  off 30 %\n"
    before = looked("roots rotten").replace("hoshi\n", f"hoshi\n{cut}")
    for more in (looked("roots rotten", cut), before):
        assert asked(written(ON_IT + more, "2026-07-01"), "roots-rot") == {}


def test_at_rest_rotten_roots_wait_until_before_growth(written) -> None:
    """Looked at on 1 December: from 15 January to 31 March, and under cover until then; in a room
    that is kept warm at once."""
    outside = ON_IT + looked("roots rotten").replace("2026-07-01", "2026-12-01")
    session = written(outside, "2026-12-01")
    (one,) = (f for f in session.plan().follow_ups["hoshi"] if "/roots-rot/" in f.id)
    opens, closes = one.window.opens.isoformat(), one.window.closes.isoformat()
    assert (opens, closes) == ("2027-01-15", "2027-03-31")
    assert one.cautions[0].startswith("Until then under cover, out of frost")
    warm = outside.replace("open\n", "heated glass 12 C\n")
    session = written(warm, "2026-12-01")
    (one,) = (f for f in session.plan().follow_ups["hoshi"] if "/roots-rot/" in f.id)
    assert one.window.opens.isoformat() == "2026-12-01"
    assert not any(said.startswith("Until then") for said in one.cautions)


@pytest.mark.parametrize("act", ["fed", "trimmed"])
def test_while_rot_waits_no_season_asks_for_feed_or_a_cut(written, act) -> None:
    """Found on 1 July and not cut out; cut out on 3 July, they are asked again in their time."""

    def open_after(more: str) -> list[str]:
        session = written(ON_IT + looked("roots rotten", more), "2026-07-20")
        return [
            f.id
            for f in session.plan().follow_ups["hoshi"]
            if f.act == act
            and f.outcome == "open"
            and f.window.closes.isoformat() > "2026-07-01"
            and f.window.opens.isoformat() < "2027-07-01"
        ]

    assert open_after("") == []
    assert open_after("2026-07-03\nhoshi\n  repotted  same pot\n") != []


def test_wire_that_bites_does_not_wait_for_the_day_on_which_wire_comes_off(written, states) -> None:
    """Wired in the spring and seen to bite on 20 August, it is late on 2 October still."""
    wired = ON_IT.replace("2026-06-21", "2026-03-21").replace(
        "guyed  ", "wired 2 mm on right 1\n  guyed  "
    )
    bites = looked("wire biting on right 1").replace("07-01", "08-20")
    found = states(written(wired + bites, "2026-10-02"), "wire-check-again/checked-2026-08-20/")
    assert found == {"hoshi/wire-check-again/checked-2026-08-20/right-1": "overdue"}


@pytest.mark.parametrize(
    ("kind", "found", "day", "is_asked"),
    [
        ("trident maple", "leaves brown", "2026-07-01", True),
        ("trident maple", "leaves dry on left 3", "2026-07-01", True),
        ("trident maple", "leaves fine", "2026-07-01", False),
        # They turn, and fall from October on.
        ("trident maple", "leaves brown", "2026-10-10", False),
        ("trident maple", "leaves brown", "2026-12-10", False),
        ("Japanese black pine", "needles brown", "2026-07-01", True),
        # The oldest of them turn brown by themselves in autumn; dry ones say more at any time.
        ("Japanese black pine", "needles brown", "2026-11-10", False),
        ("Japanese black pine", "needles dry", "2026-11-10", True),
    ],
)
def test_leaves_that_dry_out_of_their_time_have_the_roots_looked_at(
    written, kind, found, day, is_asked
) -> None:
    told = ON_IT.replace("trident maple", kind) + looked(found).replace("2026-07-01", day)
    what = "check soil and roots: dry, sodden or rotten"
    assert (what in asked(written(told, day), "leaves-dry")) is is_asked
    after = f"{day}\nhoshi\n  checked  roots fine\n"
    assert asked(written(told + after, day), "leaves-dry") == {}


def test_while_a_layer_is_on_the_trim_of_a_season_leaves_what_grows_above_it(written) -> None:
    above = "Leave all that grows above the layer: its leaves make the roots."

    def told(journal: str) -> set[bool]:
        session = written(journal, "2026-06-25")
        return {
            above in f.cautions
            for f in session.plan().follow_ups["hoshi"]
            if f.act == "trimmed" and f.state(session.today) in WANTED
        }

    assert told(ON_IT) == {True}
    assert told(ON_IT.replace("  layered    on left 4\n", "")) == {False}


@pytest.mark.parametrize(
    ("found", "day", "title", "days"),
    [
        ("buds dead", "2026-04-11", "check buds and bark: scratched, is it green below",
         ("2026-04-25", "2026-05-09", "2026-05-23")),
        # At rest nothing shows; it is looked at in the last weeks of rest.
        ("buds dead", "2026-12-01", "check buds and bark: scratched, is it green below",
         ("2027-01-15", "2027-02-20", "2027-03-31")),
        ("leaves damaged", "2026-05-10", "check new leaves and shoots",
         ("2026-05-24", "2026-05-31", "2026-06-14")),
        ("soil wet", "2026-12-01", "check soil: damp, no longer wet",
         ("2026-12-03", "2026-12-05", "2026-12-11")),
        ("roots soft", "2026-07-01",
         "repot and cut rotten roots back to sound ones, into an open mix",
         ("2026-07-01", "2026-07-04", "2026-07-15")),
    ],
)  # fmt: skip
def test_what_else_a_look_found(written, found, day, title, days) -> None:
    told = ON_IT.replace("2026-06-21", "2026-03-21") + looked(found).replace("2026-07-01", day)
    rules = ("buds-dead", "leaves-damaged", "wet-soil", "roots-rot")
    assert asked(written(told, day), *rules) == {title: days}


def test_damage_to_leaves_that_are_about_to_fall_asks_for_nothing(written) -> None:
    told = ON_IT + looked("leaves damaged").replace("2026-07-01", "2026-10-10")
    assert asked(written(told, "2026-10-10"), "leaves-damaged") == {}
