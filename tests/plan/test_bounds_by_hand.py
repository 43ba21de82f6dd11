"""Days that decide, on both sides, of functions asked by themselves; counted by hand.

The days themselves are common practice, no source, but where one stands beside them.
"""

from __future__ import annotations

from datetime import date

import pytest
from msgspec.structs import replace
from tests.plan.by_hand import due
from tests.species.conftest import Made

from backbud.climate.coldest_night import SaidCold, said_alone
from backbud.collection.batch import Batch
from backbud.collection.state import OnTree, Tree
from backbud.plan.bare_again import bare_again
from backbud.plan.common import winter_quarters
from backbud.plan.common.feed_again import lasts
from backbud.plan.common.feed_rests import FEED_RESTS
from backbud.plan.common.held_off import held_off
from backbud.plan.common.loose_wire import set_it_anew
from backbud.plan.common.not_yet import look_for_it_again
from backbud.plan.common.out_of_its_time import OUT_OF_ITS_TIME
from backbud.plan.common.quarantine_ends import apart_for
from backbud.plan.common.seasons import before_growth, coming
from backbud.plan.common.tender_out import in_again_from_cold_nights
from backbud.plan.common.under_cover import looked_at_in_winter, looked_at_under_its_fleece
from backbud.plan.common.winter_frost import before_the_first_hard_night
from backbud.plan.common.winter_in_a_room import out_to_rest
from backbud.plan.feed_pauses import one_helping, paused
from backbud.plan.followups import Reason
from backbud.plan.insults import WEAK, weighed
from backbud.plan.lapsed import lapsed
from backbud.plan.top_limit import top_bears_c
from backbud.plan.windows import span_window
from backbud.species import CHANCE, ROUTINE, Species, Temperature, Window, Year
from backbud.species.deed import Deed
from backbud.species.facts import Fact
from backbud.species.frost_free import frost_to_come
from backbud.species.summer_outside import SummerOutside, comes_in, summer_outside
from backbud_species.field_maple import FieldMaple
from backbud_species.habits.judges import silver_leaf_about
from backbud_species.trident_maple import TridentMaple
from backbud_species.willow_leaf_fig import WillowLeafFig

MADE = Made()


class Plain(Species):
    botanical = "Arbor exempli"
    common = ("plain tree",)


def window(said: str) -> Window:
    return Window(*map(date.fromisoformat, said.split()))


@pytest.mark.parametrize(
    ("first", "last", "until"),
    [
        ("2027-05-14", "2027-06-01", "2027-05-15"),
        ("2027-05-15", "2027-10-14", None),
        ("2027-05-15", "2027-10-15", "2028-05-15"),
        ("2027-11-01", "2027-11-02", "2028-05-15"),
    ],
)
def test_without_weather_frost_is_from_mid_october_to_mid_may(first, last, until) -> None:
    year = MADE.year(Plain(), "unknown")
    found = frost_to_come(year, 0.0, date.fromisoformat(first), date.fromisoformat(last))
    assert (str(found.last) if found else None) == until


@pytest.mark.parametrize(
    ("said", "days", "comes_out"),
    [
        # Four, six and eight weeks after 10 April.
        ("", 0, "2027-05-08 2027-05-22 2027-06-05"),
        ("", 14, "2027-04-24 2027-04-24 2027-05-01"),
        # For what it is kept apart says more than the setting, and so does the day that was said.
        ("for rust", 14, "2027-05-08 2027-05-22 2027-06-05"),
        ("for 3 weeks", 14, "2027-05-01 2027-05-01 2027-05-08"),
        ("until 2027-05-09", 14, "2027-05-09 2027-05-09 2027-05-16"),
    ],
)
def test_how_long_a_tree_is_kept_apart(said, days, comes_out) -> None:
    done = MADE.event("2027-04-10", "quarantined", said)
    assert apart_for(done, days, southern=False) == window(comes_out)


def test_what_was_left_comes_off_in_the_last_weeks_of_rest() -> None:
    year = MADE.year(Plain())
    assert before_growth(year, date(2027, 1, 1)) == window("2027-01-15 2027-02-20 2027-03-31")


@pytest.mark.parametrize(
    ("day", "now"),
    [
        ("2027-05-01", "2027-06-01 2027-06-10 2027-06-20"),
        # It is over on its last day.
        ("2027-06-20", "2028-06-01 2028-06-10 2028-06-20"),
    ],
)
def test_months_that_come_are_those_that_are_not_over(day, now) -> None:
    year = MADE.year(Plain())
    found = coming(year, date.fromisoformat(day), (6, 1), (6, 10), (6, 20))
    assert found == window(now)


@pytest.mark.parametrize(
    ("day", "asked"),
    [
        ("2027-02-01", False),  # Seven weeks later it is 22 March, and winter is over.
        ("2027-09-14", False),
        ("2027-09-15", True),
        ("2027-11-20", True),
        ("2028-01-07", True),  # Seven weeks later it is 25 February.
        ("2028-01-08", False),
    ],
)
def test_under_its_fleece_a_tree_is_looked_at_in_winter(day, asked) -> None:
    done = MADE.event(day, "protected", "against frost")
    tree = covered(MADE.tree(done))
    year = MADE.year(Plain())
    assert bool([one.act for one in looked_at_under_its_fleece(tree, done, year)]) is asked


def covered(tree: Tree) -> Tree:
    done = tree.history[-1].event
    return replace(tree, on_tree=(OnTree("protection", "fleece", "", 1, done.day, done),))


@pytest.mark.parametrize(
    ("day", "cover", "outside", "asked"),
    [
        ("2027-09-14", "cold frame", "bench", False),
        ("2027-09-15", "cold frame", "bench", True),
        ("2027-09-15", "heated glass 5 C", "bench", False),
        ("2027-09-15", "open", "bench", False),
        # It lives there.
        ("2027-09-15", "cold frame", "yard", False),
        ("2027-09-15", "cold frame", "", False),
    ],
)
def test_under_its_winter_cover_a_tree_is_looked_at(day, cover, outside, asked) -> None:
    done = MADE.event(day, "moved", "yard")
    tree = replace(MADE.tree(done), outside=outside)
    year = MADE.year(Plain(), cover=cover)
    assert bool([one.act for one in looked_at_in_winter(tree, done, year)]) is asked


@pytest.mark.parametrize(
    ("coldest_c", "top_c", "enough"),
    [
        # Roots that bear -5 °C: seven below that it is near its limit of eight.
        (-11.9, -20.0, "yes"),
        (-12.0, -20.0, "hardly"),
        (-12.9, -20.0, "hardly"),
        (-13.0, -20.0, "no"),
        # Mulch keeps the roots alone; the top dies.
        (-20.1, -20.0, "no"),
    ],
)
def test_how_far_below_fleece_holds_off_the_cold(coldest_c, top_c, enough) -> None:
    year = whose_top_bears(top_c)
    assert held_off(year, coldest_c, Temperature(-5.0, "It bears that.")).enough == enough


@pytest.mark.parametrize(
    ("coldest_c", "top_c", "mulch"),
    [(-20.0, -20.0, True), (-20.1, -20.0, False), (-30, None, True)],
)
def test_mulch_is_named_only_where_the_top_lives(coldest_c, top_c, mulch) -> None:
    said = held_off(whose_top_bears(top_c), coldest_c, Temperature(-5.0, "It bears that.")).caution
    assert ("sink the pot in the ground under mulch" in said) is mulch


def whose_top_bears(top_c: float | None) -> Year:
    """A year of a tree whose top bears so cold a night (°C)."""
    return replace(MADE.year(Plain()), top_bears_c=top_c)


@pytest.mark.parametrize(
    ("rating", "lower"),
    # RHS, Hardiness ratings: H4 is -10 to -5 °C, H1c 5 to 10 °C, H7 under -20 °C.
    [("H4", -10.0), ("H1c", 5.0), ("H7", None)],
)
def test_how_cold_a_night_the_top_bears(rating, lower) -> None:
    class Rated(Plain):
        hardiness = Fact(rating, "RHS, Hardiness ratings")

    assert top_bears_c(Rated()) == lower
    assert top_bears_c(Plain()) is None
    assert top_bears_c(None) is None


@pytest.mark.parametrize(
    ("said", "days"),
    [
        ("liquid, 10 g", 14),
        ("liquid", 14),
        ("foliar", 14),
        ("2 L", 14),
        ("slow release", 90),
        ("slow release, 10 g", 90),
        ("4 cakes", 35),
        ("10 g", 28),
        ("", 28),
    ],
)
def test_for_how_long_a_feed_lasts(said, days) -> None:
    assert lasts(MADE.event("2027-04-10", "fed", said), {})[0] == days


@pytest.mark.parametrize(
    ("said", "again"),
    [
        ("graft not yet", ["graft"]),
        ("graft fine", []),
        ("layer not yet, graft fine", ["layer"]),
        ("layer not yet, graft not yet", ["layer", "graft"]),
        # No wire is waited for.
        ("wire not yet", []),
        ("graft not yet, again in 4 weeks", []),
        ("layer not yet on apex", ["layer on apex"]),
    ],
)
def test_what_has_not_taken_is_looked_at_again(said, again) -> None:
    done = MADE.event("2027-04-10", "checked", said)
    asked = list(look_for_it_again(MADE.tree(done), done, MADE.year(Plain())))
    assert [one.what for one in asked] == again
    # Three, four and six weeks later.
    assert {one.window for one in asked} <= {window("2027-05-01 2027-05-08 2027-05-22")}


@pytest.mark.parametrize(
    ("first", "last", "told"),
    [
        # From the middle of May to 7 September.
        ("2027-05-14", "2027-05-14", True),
        ("2027-05-15", "2027-05-15", False),
        ("2027-05-01", "2027-05-15", False),
        ("2027-09-07", "2027-09-07", False),
        ("2027-09-07", "2027-10-01", False),
        ("2027-09-08", "2027-09-08", True),
    ],
)
def test_silver_leaf_enters_hard_cuts_that_are_not_made_in_summer(first, last, told) -> None:
    cut = Deed(
        "pruned", date.fromisoformat(first), date.fromisoformat(last), True, False, "pruned hard"
    )
    tree, year = MADE.tree(), MADE.year(Plain())
    assert bool(silver_leaf_about(tree, cut, year)) is told
    assert not silver_leaf_about(tree, replace(cut, hard=False), year)
    assert not silver_leaf_about(tree, replace(cut, act="trimmed"), year)


@pytest.mark.parametrize(
    ("written", "of"),
    [
        ("2027-03", "2027-03-01 2027-03-16 2027-03-31"),
        # Without an end it is a year: 365 days after 6 March is 5 March, as 2028 has a 29 February.
        ("2027-03-06/..", "2027-03-06 2027-09-04 2028-03-05"),
    ],
)
def test_the_window_of_a_span(written, of) -> None:
    assert span_window(written, southern=False) == window(of)


@pytest.mark.parametrize(
    ("said", "parts"),
    [
        ("wire loose on left 1", ["left 1"]),
        ("wire loose on left 1, on apex", ["left 1", "apex"]),
        ("wire loose", [""]),
        ("wire fine on left 1", []),
        ("ties loose", []),
        ("", []),
    ],
)
def test_wire_that_is_loose_may_be_set_anew_within_six_weeks(said, parts) -> None:
    done, year = MADE.event("2027-04-10", "checked", said), MADE.year(Plain())
    asked = list(set_it_anew(MADE.tree(done, wire=True), done, year))
    assert [one.part for one in asked] == parts
    assert {one.window for one in asked} <= {window("2027-04-10 2027-04-17 2027-05-22")}
    assert list(set_it_anew(MADE.tree(done), done, year)) == []


@pytest.mark.parametrize(
    ("weight", "singly", "missed"),
    [(CHANCE, False, False), (CHANCE, True, True), (ROUTINE, False, True)],
)
@pytest.mark.parametrize(
    ("first", "last", "today", "told"),
    [
        # It closes on 15 June, so it is gone on the 16th.
        ("2027-06-16", "2027-06-30", "2027-06-30", True),
        ("2027-06-17", "2027-06-30", "2027-06-30", False),
        ("2027-06-01", "2027-06-16", "2027-06-30", True),
        ("2027-06-01", "2027-06-15", "2027-06-30", False),
        ("2027-06-01", "2027-06-30", "2027-06-16", True),
        ("2027-06-01", "2027-06-30", "2027-06-15", False),
    ],
)
def test_what_lapsed_was_missed_where_it_had_to_be(
    weight, singly, missed, first, last, today, told
) -> None:
    said = (Reason("rule", "It grows."),)
    june = "2027-06-01 2027-06-08 2027-06-15"
    one = due("one", "trimmed", june, weight=weight, singly=singly).follow_up
    days = (date.fromisoformat(day) for day in (first, last, today))
    found = lapsed([replace(one, because=said)], *days)
    assert [(it.day, it.missed) for it in found] == ([(date(2027, 6, 16), missed)] if told else [])


@pytest.mark.parametrize(
    ("days", "since"),
    [("2027-05-09", True), ("2027-05-10", True), ("2027-05-11", False)],
)
def test_what_was_done_on_the_day_was_done_since(days, since) -> None:
    tree = MADE.tree(MADE.event("2027-05-10", "trimmed"))
    assert tree.done_since(date.fromisoformat(days), "trimmed") is since
    assert not tree.done_since(date(2027, 1, 1), "pruned")


@pytest.mark.parametrize(
    ("batch", "count"),
    [
        (None, 1),
        (Batch(40, "cuttings"), 40),
        (Batch(None, "seeds"), 1),
        # How many trees two trays hold, nobody knows.
        (Batch(2, "trays"), 1),
    ],
)
def test_how_many_trees_stand_under_a_handle(batch, count) -> None:
    assert replace(MADE.tree(), batch=batch).count == count


@pytest.mark.parametrize(
    ("strength", "act", "more", "warned"),
    [
        ("weak", "guyed", {"given_word": True}, True),
        ("fair", "guyed", {"given_word": True}, False),
        # What nobody promised is held back by its own gate; what is done is done.
        ("weak", "guyed", {}, False),
        ("weak", "guyed", {"given_word": True, "outcome": "done"}, False),
        ("weak", "watered", {"given_word": True}, False),
    ],
)
def test_light_work_that_was_promised_is_cautioned_on_a_weak_tree(
    strength, act, more, warned
) -> None:
    one = due("one", act, "2027-06-01 2027-06-08 2027-06-15", **more).follow_up
    [found] = weighed(MADE.tree(strength=strength), (one,))
    assert found.cautions == ((WEAK,) if warned else ())


# ------------------------------------------------------------------ feed_pauses.py


@pytest.mark.parametrize(
    ("first", "today", "outcome"),
    [
        # The season's feed is from 1 June to 22 July.
        ("2027-05-01 2027-05-10 2027-06-01", "2027-05-20", "replaced"),
        ("2027-05-01 2027-05-10 2027-05-31", "2027-05-20", "open"),
        ("2027-07-22 2027-07-25 2027-08-01", "2027-05-20", "replaced"),
        ("2027-07-23 2027-07-25 2027-08-01", "2027-05-20", "open"),
        # Nobody gave it in its days, and it is asked no more.
        ("2027-05-01 2027-05-10 2027-06-01", "2027-06-01", "replaced"),
        ("2027-05-01 2027-05-10 2027-06-01", "2027-06-02", "open"),
    ],
)
def test_the_first_feed_after_root_work_stands_for_the_seasons(first, today, outcome) -> None:
    cut = MADE.event("2027-04-01", "repotted", "same pot, 2 cm off below")
    again = due("again", "fed", first, rule=FEED_RESTS, event=cut)
    season = due("season", "fed", "2027-06-01 2027-06-05 2027-07-22")
    left, found = one_helping([again, season], date.fromisoformat(today))
    assert (left.follow_up.outcome, found.follow_up.outcome) == ("open", outcome)


@pytest.mark.parametrize(
    ("opens", "in_time", "outcome"),
    [
        # Eight weeks from 1 July end on 26 August.
        ("2027-08-25", True, "replaced"),
        ("2027-08-26", True, "open"),
        ("2027-08-25", False, "open"),
    ],
)
def test_feed_rests_once_candles_were_cut_in_their_time(opens, in_time, outcome) -> None:
    cut = MADE.event("2027-07-01", "decandled")
    help_it = due(
        "help", "checked", "2027-07-01 2027-07-15 2027-08-12", rule=OUT_OF_ITS_TIME, event=cut
    )
    feed = due("feed", "fed", f"{opens} {opens} 2027-10-10")
    dues = [feed] if in_time else [feed, help_it]
    assert paused(dues, MADE.tree(cut), {})[0].follow_up.outcome == outcome


@pytest.mark.parametrize(
    ("act", "outcome", "more", "becomes"),
    [
        ("fed", "open", {}, "replaced"),
        # What was given was given, what was promised stays, and a look is no feed.
        ("fed", "done", {}, "done"),
        ("fed", "skipped", {}, "skipped"),
        ("fed", "open", {"given_word": True}, "open"),
        ("checked", "open", {}, "open"),
    ],
)
def test_only_feed_that_is_still_to_give_rests_on_a_weak_tree(act, outcome, more, becomes) -> None:
    one = due("feed", act, "2027-06-01 2027-06-05 2027-07-22", outcome, **more)
    [found] = paused([one], MADE.tree(strength="weak"), {})
    assert found.follow_up.outcome == becomes


# ------------------------------------------------------------------ bare_again.py


@pytest.mark.parametrize(
    ("came_off", "settled", "again"),
    [
        # It was to come off on 10 April, and may a week sooner: on 3 April.
        ("2027-04-02", "2026-11-01", True),
        ("2027-04-03", "2026-11-01", False),
        # A shelter of which nobody knows when it was given cannot be given again from that day.
        ("2027-04-02", "", False),
    ],
)
def test_a_shelter_that_came_off_over_a_week_early_is_asked_for_again(
    came_off, settled, again
) -> None:
    off, on = MADE.event(came_off, "unprotected"), MADE.event(settled or "2026-11-01", "protected")
    bared = due(
        "off",
        "unprotected",
        "2027-04-10 2027-04-15 2027-04-30",
        "done",
        bares=True,
        settled=off,
    )
    shelter = due(
        "on",
        "protected",
        "2026-11-01 2026-11-05 2027-05-10",
        "done",
        covers="any",
        settled=on if settled else None,
    )
    found = [one.follow_up.id for one in bare_again([shelter, bared], MADE.tree(), "")]
    assert found == ["on", "off", *([f"on/bare-{came_off}"] if again else [])]


# ------------------------------------------------------------------ tender_out.py


@pytest.mark.parametrize(
    ("moved", "until"),
    [
        # Without weather it may stand outside from 15 May on, and a fortnight sooner does no harm.
        ("2027-04-30", "2027-05-15"),
        ("2027-05-01", None),
        # From 15 October on autumn's rule asks for six weeks; then it was moved out in winter.
        ("2027-11-26", None),
        ("2027-11-27", "2028-05-15"),
    ],
)
def test_a_tender_tree_that_was_moved_out_too_soon_goes_in_again(moved, until) -> None:
    done = MADE.event(moved, "moved", "yard")
    year = MADE.year(WillowLeafFig(), "unknown")
    found = [one.window for one in in_again_from_cold_nights(MADE.tree(done), done, year)]
    assert found == ([window(f"{moved} {moved} {until}")] if until else [])


# ------------------------------------------------------------------ winter_quarters.py


@pytest.mark.parametrize(
    ("went_in", "opens"),
    [
        # It may stand outside from 4 March; six weeks later, on 15 April, it is too late for that
        # summer. It is asked about a fortnight after it went in.
        ("2027-03-31", "2027-04-14"),
        ("2027-04-01", "2028-03-04"),
    ],
)
def test_a_tender_tree_that_goes_in_late_in_its_summer_stays_in(
    monkeypatch, went_in, opens
) -> None:
    def from_march(year: Year) -> SummerOutside:
        first = year.first.year
        return SummerOutside(date(first, 3, 4), date(first, 9, 30), "By its nights.", False)

    monkeypatch.setattr(winter_quarters, "summer_outside", from_march)
    done = MADE.event(went_in, "moved", "yard")
    tree = replace(MADE.tree(done), outside="bench")
    year = MADE.year(WillowLeafFig(), cover="heated glass 10 C")
    [asked] = winter_quarters.out_in_spring(tree, done, year)
    assert str(asked.window.opens) == opens


def test_no_summer_sends_out_or_in_what_is_hardy_or_of_whose_nights_nothing_is_known() -> None:
    hardy, unknown = MADE.year(FieldMaple()), MADE.year(WillowLeafFig(), "unknown")
    assert summer_outside(hardy) is summer_outside(unknown) is None
    assert comes_in(hardy) is comes_in(unknown) is None


# ------------------------------------------------------------------ winter_in_a_room.py


@pytest.mark.parametrize(
    ("moved", "asked"),
    [
        ("2027-02-28", True),
        ("2027-03-01", False),
        ("2027-08-31", False),
        ("2027-09-01", True),
    ],
)
def test_a_hardy_tree_is_asked_out_of_a_room_from_september_to_february(moved, asked) -> None:
    done = MADE.event(moved, "moved", "yard")
    year = MADE.year(FieldMaple(), cover="indoors")
    assert len(list(out_to_rest(MADE.tree(done), done, year))) == asked


# ------------------------------------------------------------------ winter_frost.py


@pytest.mark.parametrize(
    ("coldest_c", "bear"),
    [
        # A trident's roots bear -5 °C. The sentence on its time ends with what there is to spare.
        (-4.5, "Roots like these bear about −5 °C. There is 0.5 K to spare."),
        (-5.0, "Roots like these bear about −5 °C."),
        (-9.0, "Roots like these bear about −5 °C."),
    ],
)
def test_what_the_coldest_night_of_the_card_leaves_to_spare(coldest_c, bear) -> None:
    year = MADE.year(TridentMaple(), "unknown")
    year = replace(year, coldest_said=said_alone(SaidCold(coldest_c=coldest_c)))
    autumn = year.season("autumn")
    [asked] = before_the_first_hard_night(MADE.tree(), autumn, year)
    assert asked.window == window("2027-11-01 2027-11-15 2028-03-10")
    assert asked.schedule.in_time.endswith(bear)


def test_cover_is_best_four_days_before_the_first_hard_night_and_open_a_fortnight() -> None:
    year = MADE.year(TridentMaple())
    nights = year.hard_nights(-5.0)
    assert nights is not None
    [asked] = before_the_first_hard_night(MADE.tree(), year.season("autumn"), year)
    assert (nights.first - asked.window.best).days == 4
    assert (nights.first - asked.window.opens).days == 14
    assert asked.window.closes == nights.last
