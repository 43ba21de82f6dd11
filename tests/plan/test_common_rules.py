"""What holds for every tree, whatever its species. The figures are common practice, no source."""

from __future__ import annotations

import pytest

# No species knows this kind, so only the common rules speak.
CARDS = """
    place yard
      cover     open
      latitude  56
    place glass
      within    yard
      cover     unheated glass
    place stove
      cover     heated glass 5 C
    place tunnel
      cover     tunnel
    pot tray-7
    pot tray-9
    tree hoshi
      kind      garden shrub
      place     yard
      pot       tray-7
"""


def with_acts(day: str, *acts: str, more: str = "") -> str:
    lines = "".join(f"      {act}\n" for act in acts)
    return f"{CARDS}\n    {day}\n    hoshi\n{lines}{more}"


@pytest.mark.parametrize(
    ("day", "act", "rule", "window", "title"),
    [
        # Wire: 4, 6, 8 weeks in growth where the species does not say.
        ("2026-05-01", "wired 3 mm Al on left 2", "wire-check",
         ["2026-05-29", "2026-06-12", "2026-06-26"], "check wire on left 2"),
        # In the cold half of the year from the beginning of growth, here 1 April.
        ("2025-11-20", "wired 3 mm Al", "wire-check",
         ["2026-04-29", "2026-05-13", "2026-05-27"], "check wire"),
        ("2026-01-20", "wired 3 mm Al", "wire-check",
         ["2026-04-29", "2026-05-13", "2026-05-27"], "check wire"),
        # Wood still thickens in September.
        ("2026-09-20", "wired 3 mm Al", "wire-check",
         ["2026-10-18", "2026-11-01", "2026-11-15"], "check wire"),
        # 26, 36 and 52 weeks.
        ("2026-05-01", "wired 3 mm Al on left 2", "wire-off",
         ["2026-10-30", "2027-01-08", "2027-04-30"], "unwire on left 2"),
        ("2026-05-01", "guyed 1 mm Cu on left 2", "guy-check",
         ["2026-06-26", "2026-07-10", "2026-08-07"], "check guys on left 2"),
        ("2026-05-01", "wrapped raffia on left 2", "wrap-off",
         ["2026-09-18", "2026-11-27", "2026-12-25"], "unwrap on left 2"),
        ("2026-05-01", "grafted approach on apex", "graft-check",
         ["2026-08-21", "2026-09-18", "2026-10-30"], "check graft on apex"),
        ("2026-05-01", "grafted side on apex", "graft-check",
         ["2026-06-12", "2026-06-26", "2026-07-10"], "check graft on apex"),
        ("2026-05-01", "layered ring on branch 3", "layer-check",
         ["2026-06-26", "2026-07-10", "2026-08-07"], "check layer on branch 3"),
        # Root work.
        ("2026-03-06", "repotted same pot, tied 2 mm x 2", "ties-out",
         ["2026-07-24", "2026-09-04", "2026-10-02"], "untie the anchor ties"),
        ("2026-03-06", "repotted same pot", "feed-rests",
         ["2026-04-03", "2026-04-10", "2026-05-01"], "feed again"),
        ("2026-03-06", "repotted same pot", "root-rest",
         ["2026-03-06", "2026-03-06", "2026-04-03"], "protect from sun, wind and frost"),
        # Cover comes off: of winter in spring, of fresh roots after weeks, of a frosty night soon.
        ("2025-11-20", "protected fleece", "protection-off",
         ["2026-03-10", "2026-04-05", "2026-05-10"], "unprotect"),
        ("2026-02-20", "protected fleece", "protection-off",
         ["2026-03-10", "2026-04-05", "2026-05-10"], "unprotect"),
        ("2026-05-11", "protected fleece", "protection-off",
         ["2026-05-12", "2026-05-14", "2026-06-01"], "unprotect"),
        ("2026-06-11", "shaded 40 %", "shade-off",
         ["2026-09-01", "2026-09-15", "2026-10-15"], "unshade"),
        # Out of winter quarters.
        ("2025-11-14", "moved glass", "winter-quarters-out",
         ["2026-03-10", "2026-04-05", "2026-05-10"], "move out again, to yard"),
        ("2026-03-01", "moved tunnel", "winter-quarters-out",
         ["2026-03-15", "2026-04-05", "2026-05-10"], "move out again, to yard"),
        ("2025-11-14", "moved stove", "winter-quarters-out",
         ["2026-05-10", "2026-05-20", "2026-06-05"], "move out again, to yard"),
        # Arrivals, pests, quarantine.
        ("2026-05-01", "received imported", "arrival-check",
         ["2026-05-01", "2026-05-01", "2026-05-08"], "quarantine away from the others"),
        ("2026-05-01", "received", "arrival-check",
         ["2026-05-01", "2026-05-03", "2026-05-15"], "check for pests"),
        ("2026-05-01", "quarantined until 2026-06-12", "quarantine-ends",
         ["2026-06-12", "2026-06-12", "2026-06-19"], "release from quarantine"),
        ("2026-05-01", "quarantined", "quarantine-ends",
         ["2026-05-29", "2026-06-12", "2026-06-26"], "release from quarantine"),
        ("2026-05-01", "treated with soap against aphids", "pest-check",
         ["2026-05-08", "2026-05-11", "2026-05-15"], "check for pests"),
        # Strength, cuttings, water.
        ("2026-05-01", "vigour apex 2, low 1", "strength-check",
         ["2026-05-29", "2026-06-12", "2026-07-10"], "vigour of the weak zones"),
        ("2025-11-01", "vigour apex 2, low 1", "strength-check",
         ["2026-04-15", "2026-05-01", "2026-05-31"], "vigour of the weak zones"),
        ("2026-05-01", "collected with permit", "collected-check",
         ["2026-05-22", "2026-06-05", "2026-06-26"],
         "check strength: does it live on its own roots"),
        ("2026-10-20", "collected with permit", "collected-check",
         ["2027-04-15", "2027-05-01", "2027-05-31"],
         "check strength: does it live on its own roots"),
        ("2026-06-20", "struck 6 cuttings", "cutting-check",
         ["2026-08-15", "2026-08-29", "2026-09-19"], "check roots"),
        ("2026-01-20", "struck 6 cuttings, hardwood", "cutting-check",
         ["2026-05-01", "2026-05-20", "2026-06-20"], "check roots"),
        ("2026-05-01", "drained 90 s", "drains-slowly",
         ["2026-05-01", "2026-05-04", "2026-05-15"],
         "check roots: open the hard surface, look at the holes and the underside"),
        ("2026-05-01", "checked graft not yet on apex", "not-yet",
         ["2026-05-22", "2026-05-29", "2026-06-12"], "check graft on apex"),
    ],
)  # fmt: skip
def test_an_act_asks_for(written, find, days, day, act, rule, window, title) -> None:
    follow_up = find(written(with_acts(day, act)), f"hoshi/{rule}/")
    assert (days(follow_up), follow_up.title) == (window, title)
    assert follow_up.id.startswith(f"hoshi/{rule}/{act.split()[0]}-{day}")


@pytest.mark.parametrize(
    ("day", "acts", "rule"),
    [
        ("2026-03-06", ["repotted same pot, no root work"], "feed-rests"),
        ("2026-03-06", ["repotted same pot, no root work"], "root-rest"),
        # Nothing is fed into the cold season, or before it is over.
        ("2025-10-06", ["repotted same pot"], "feed-rests"),
        ("2026-01-06", ["repotted same pot"], "feed-rests"),
        # Sheltered already.
        ("2026-03-06", ["moved tunnel", "repotted same pot"], "root-rest"),
        ("2026-03-06", ["protected windbreak", "repotted same pot"], "root-rest"),
        ("2026-03-06", ["repotted same pot"], "ties-out"),
        # It was moved under glass in growth, and not for the winter.
        ("2026-06-06", ["moved glass"], "winter-quarters-out"),
        ("2026-05-01", ["vigour apex 4, low 3"], "strength-check"),
        ("2026-05-01", ["drained 45 s"], "drains-slowly"),
        ("2026-05-01", ["checked graft fine on apex"], "not-yet"),
        ("2026-05-01", ["checked graft not yet, again in 2 weeks"], "not-yet"),
        # No wire is on it.
        ("2026-05-01", ["checked wire fine"], "wire-check-again"),
        ("2026-05-01", ["checked ties fine"], "wire-check-again"),
        ("2026-05-01", ["unprotected"], "protection-off"),
    ],
)
def test_an_act_asks_for_nothing(written, states, day, acts, rule) -> None:
    assert states(written(with_acts(day, *acts)), f"/{rule}/") == {}


def test_windbreak_after_root_work_comes_off_after_four_weeks(written, find, days) -> None:
    session = written(with_acts("2026-04-11", "repotted same pot", "protected windbreak"))
    assert days(find(session, "/protection-off/")) == ["2026-05-02", "2026-05-09", "2026-05-23"]


def test_a_tree_that_lives_under_glass_is_not_sent_out(written, states) -> None:
    session = written(
        CARDS.replace("place     yard", "place     glass")
        + """
    2025-11-20
    hoshi
      moved   tunnel
    """
    )
    assert states(session, "winter-quarters-out") == {}


def test_a_new_tree_rests_its_roots_and_the_old_one_has_lost_none(written, states) -> None:
    session = written(with_acts("2026-05-01", "separated on left 3, as chip"))
    assert set(states(session, "root-rest")) == {"chip/root-rest/separated-2026-05-01"}


def test_water_twice_as_slow_as_it_was_asks_for_a_look(written, states, find) -> None:
    session = written(
        with_acts(
            "2025-05-01",
            "drained 12 s",
            more="""
    2025-09-01
    hoshi
      drained  16 s
    2026-05-01
    hoshi
      drained  31 s
    """,
        )
    )
    assert set(states(session, "drains-slowly")) == {"hoshi/drains-slowly/drained-2026-05-01"}
    # The middle of 12 and 16 is 14.
    assert find(session, "drains-slowly").because[-1].text == (
        "A can took 31 s to pass; it took 14 s before."
    )


def test_new_soil_makes_old_times_of_water_worthless(written, states) -> None:
    session = written(
        with_acts(
            "2025-05-01",
            "drained 12 s",
            more="""
    2026-03-01
    hoshi
      repotted same pot
    2026-05-01
    hoshi
      drained  31 s
    """,
        )
    )
    assert states(session, "drains-slowly") == {}


def test_a_species_with_its_own_rule_about_water_is_not_told_twice(written, states) -> None:
    session = written(
        CARDS.replace("garden shrub", "satsuki azalea")
        + """
    2026-05-01
    hoshi
      drained  90 s
    """
    )
    assert states(session, "drains-slowly") == {}
    assert set(states(session, "drained-2026-05-01")) == {
        "hoshi/satsuki-hard-surface/drained-2026-05-01"
    }


def test_old_ties_are_counted(written, find) -> None:
    session = written(
        with_acts(
            "2024-03-06",
            "repotted same pot, tied 2 mm x 2",
            more="""
    2026-03-06
    hoshi
      repotted same pot, tied 2 mm x 3, old ties left in
    """,
        )
    )
    assert find(session, "ties-out/repotted-2026").because[-1].text == (
        "2 of them from before this potting."
    )


# ------------------------------------------------------------------ wire, look by look


def test_a_species_says_how_fast_wire_bites(written, find, days) -> None:
    """A trident maple 3, 4, 6 weeks; a black pine 8, 12, 16."""
    for kind, window in (
        ("trident maple", ["2026-05-22", "2026-05-29", "2026-06-12"]),
        ("Japanese black pine", ["2026-06-26", "2026-07-24", "2026-08-21"]),
    ):
        text = with_acts("2026-05-01", "wired 3 mm Al").replace("garden shrub", kind)
        assert days(find(written(text), "/wire-check/")) == window


def test_cold_wire_is_looked_at_from_the_bud_burst_of_the_species(written, find, days) -> None:
    # Bud burst of the black pine is 14 April; 8, 12 and 16 weeks on.
    text = with_acts("2025-11-20", "wired 3 mm Al").replace("garden shrub", "black pine")
    assert days(find(written(text), "/wire-check/")) == ["2026-06-09", "2026-07-07", "2026-08-04"]


def test_each_look_sets_the_next(written, find, days, states) -> None:
    session = written(
        with_acts(
            "2026-05-01",
            "wired 3 mm Al on left 2, 2 mm Al on apex",
            more="""
    2026-06-01
    hoshi
      checked  wire fine
    """,
        )
    )
    assert states(session, "/wire-check/") == {
        "hoshi/wire-check/wired-2026-05-01/left-2": "done",
        "hoshi/wire-check/wired-2026-05-01/apex": "done",
    }
    again = find(session, "wire-check-again")
    assert (again.id, again.title) == ("hoshi/wire-check-again/checked-2026-06-01", "check wire")
    assert days(again) == ["2026-06-29", "2026-07-13", "2026-07-27"]


def test_biting_wire_comes_off_where_it_bites_and_the_rest_is_looked_at_again(
    written, states, days, find
) -> None:
    session = written(
        with_acts(
            "2026-05-01",
            "wired 3 mm Al on left 2, 2 mm Al on apex",
            more="""
    2026-06-01
    hoshi
      checked  wire biting on apex
    """,
        )
    )
    assert set(states(session, "wire-check-again")) == {
        "hoshi/wire-check-again/checked-2026-06-01/apex",
        "hoshi/wire-check-again/checked-2026-06-01",
    }
    off = find(session, "hoshi/wire-check-again/checked-2026-06-01/apex")
    assert (off.act, days(off)) == ("unwired", ["2026-06-01", "2026-06-01", "2026-06-08"])


@pytest.mark.parametrize(
    ("again", "window"),
    [
        ("again in 3 weeks", ["2026-06-22"] * 3),
        ("again in 2-3 weeks", ["2026-06-15", "2026-06-18", "2026-06-22"]),
        ("again in 1 month", ["2026-07-01"] * 3),
        ("again in 10 days", ["2026-06-11"] * 3),
        ("again 2026-08-01", ["2026-08-01"] * 3),
        ("again 2026-08", ["2026-08-01", "2026-08-16", "2026-08-31"]),
    ],
)
def test_again_sets_the_next_look_exactly(written, find, days, states, again, window) -> None:
    session = written(
        with_acts(
            "2026-05-01",
            "wired 3 mm Al on left 2",
            more=f"""
    2026-06-01
    hoshi
      checked  wire fine on left 2, {again}
    """,
        )
    )
    look = find(session, "/check-again/")
    assert look.id == "hoshi/check-again/checked-2026-06-01/wire-left-2"
    assert (look.title, days(look)) == ("check wire on left 2", window)
    assert states(session, "wire-check-again") == {}
    assert states(session, "/wire-check/") == {"hoshi/wire-check/wired-2026-05-01/left-2": "done"}


def test_each_thing_that_was_looked_at_is_looked_at_again(written, states) -> None:
    session = written(
        with_acts(
            "2026-05-01",
            "wired 3 mm Al",
            "guyed 1 mm Cu on left 1",
            "checked wire fine, guys fine, again in 4 weeks",
        ),
        "2026-05-20",
    )
    assert states(session, "check-again") == {
        "hoshi/check-again/checked-2026-05-01/wire": "coming",
        "hoshi/check-again/checked-2026-05-01/guys": "coming",
    }


def test_what_the_keeper_set_stands_for_what_a_rule_asks_of_the_same_thing(written, states) -> None:
    session = written(
        with_acts(
            "2026-05-01", "checked pests, again in 1 week", "treated with soap against mites"
        ),
        "2026-05-02",
    )
    assert states(session, "2026-05-01") == {
        "hoshi/check-again/checked-2026-05-01/pests": "coming",
        "hoshi/pest-check/treated-2026-05-01": "replaced",
    }


def test_a_guy_is_looked_at_as_long_as_it_is_on(written, states) -> None:
    text = with_acts(
        "2026-03-01",
        "guyed 1 mm Cu on left 1",
        more="""
    2026-05-01
    hoshi
      checked guys fine
    """,
    )
    assert states(written(text, "2026-05-02"), "guy-check") == {
        "hoshi/guy-check/guyed-2026-03-01/left-1": "done",
        "hoshi/guy-check/checked-2026-05-01": "coming",
    }
    off = (
        text
        + """
    2026-06-01
    hoshi
      unguyed on left 1
    """
    )
    # No guy is left, so there is nothing to look at.
    assert states(written(off, "2026-06-02"), "guy-check") == {
        "hoshi/guy-check/guyed-2026-03-01/left-1": "done",
        "hoshi/guy-check/checked-2026-05-01": "done",
    }


def test_what_is_still_on_the_tree_is_asked_for_however_old(written, states) -> None:
    text = with_acts("2019-05-01", "wired 3 mm Al on left 2", "layered ring on apex")
    assert states(written(text), "2019") == {
        "hoshi/wire-check/wired-2019-05-01/left-2": "replaced",
        # Late for no longer than a season: it waits for the rest before growth.
        "hoshi/wire-off/wired-2019-05-01/left-2": "coming",
        "hoshi/layer-check/layered-2019-05-01/apex": "overdue",
    }
    off = with_acts("2019-05-01", "wired 3 mm Al on left 2", "unwired")
    assert states(written(off), "2019") == {}


def test_when_wire_is_to_come_off_nobody_asks_for_a_look_at_it(written, states) -> None:
    text = with_acts("2026-05-01", "wired 3 mm Al on left 2")
    assert states(written(text, "2026-10-29"), "/wire-") == {
        "hoshi/wire-check/wired-2026-05-01/left-2": "overdue",
        "hoshi/wire-off/wired-2026-05-01/left-2": "coming",
    }
    # In the cold half of the year no wood swells.
    assert states(written(text, "2026-10-30"), "/wire-") == {
        "hoshi/wire-check/wired-2026-05-01/left-2": "replaced",
        "hoshi/wire-off/wired-2026-05-01/left-2": "now",
    }


def test_a_look_that_was_set_long_ago_is_forgotten_but_no_promise(written, states) -> None:
    text = with_acts("2021-05-01", "checked pests, again in 2 weeks", "planned prune, to 2022")
    assert states(written(text)) == {"hoshi/planned/pruned-2021-05-01": "promised"}
    # The look of May 2021 comes again in May 2022.
    assert set(states(written(text, "2021-06-01")).values()) == {"overdue", "coming"}
    assert set(states(written(text, "2022-01-01")).values()) == {"coming", "now"}


def test_ties_that_bite_come_out_at_once(written, find, days, states) -> None:
    text = with_acts(
        "2026-03-06",
        "repotted same pot, tied 2 mm x 2",
        more="""
    2026-06-01
    hoshi
      checked  wire ties biting
    """,
    )
    off = find(written(text), "ties-bite")
    assert (off.act, days(off)) == ("untied", ["2026-06-01", "2026-06-01", "2026-06-08"])
    done = (
        text
        + """
    2026-06-03
    hoshi
      untied
    """
    )
    assert states(written(done), "ties-") == {
        "hoshi/ties-bite/checked-2026-06-01": "done",
        "hoshi/ties-out/repotted-2026-03-06": "done",
    }


def test_every_tree_that_was_stripped_is_looked_at(written, states) -> None:
    """A Chinese elm has no rule of its own for it; a trident maple has, and is asked once."""
    for kind, rule in (("Chinese elm", "new-leaves"), ("trident maple", "trident-new-leaves")):
        text = f"tree hoshi\n  kind  {kind}\n2024-03-01\nhoshi\n  noted  well\n"
        stripped = f"{text}2026-06-10\nhoshi\n  defoliated\n"
        wanted = {f"hoshi/{rule}/defoliated-2026-06-10": "now"}
        assert states(written(stripped, "2026-07-05"), "new-leaves/") == wanted
        looked = f"{stripped}2026-07-06\nhoshi\n  checked  buds\n"
        settled = {f"hoshi/{rule}/defoliated-2026-06-10": "done"}
        assert states(written(looked, "2026-07-07"), "new-leaves/") == settled
    part = f"{text}2026-06-10\nhoshi\n  defoliated  outer leaves\n"
    assert states(written(part, "2026-07-05"), "new-leaves/") == {}


def test_wire_that_bites_in_summer_is_looked_at_until_it_is_told_to_come_off(
    written, states
) -> None:
    """Wired on 20 January, its half year is over on 21 July; its best day is 29 September, whose
    week before begins on 21 September. Growth goes on all the while."""
    text = with_acts("2026-01-20", "wired 3 mm Al on left 1")
    for day in ("2026-08-01", "2026-09-20"):
        check = states(written(text, day), "/wire-check/")
        assert check == {"hoshi/wire-check/wired-2026-01-20/left-1": "overdue"}
    assert states(written(text, "2026-09-21"), "/wire-check/") == {
        "hoshi/wire-check/wired-2026-01-20/left-1": "replaced"
    }


def test_south_of_the_equator_it_is_looked_at_through_its_summer(written, states) -> None:
    """Wired on 20 June, its half year is over on 19 December; best 27 February, a Saturday, whose
    week before begins on 15 February."""
    south = "place home\n  latitude  43.5 S\ntree hoshi\n  kind   garden shrub\n  place  home\n"
    text = f"{south}2026-06-20\nhoshi\n  wired  3 mm Al on left 1\n"
    for day, state in (("2027-01-20", "overdue"), ("2027-02-15", "replaced")):
        session = written(text, day, settings='home = "home"\n')
        assert list(states(session, "/wire-check/").values()) == [state]
