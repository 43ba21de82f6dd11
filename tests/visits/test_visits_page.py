"""The page of visits: what was agreed, done, waits, when each can go home, what is open."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.pages.visits import sheet

CARDS = """\
place yard
  latitude 56 N
  low   0 0 1 3 5 8 10 10 8 5 3 1 C
  high  6 7 9 12 15 17 19 18 16 12 9 6 C
person me
person ada
  name Ada
tree hoshi
  kind trident maple
  owner ada
  place yard
tree yuki
  kind trident maple
  owner ada
  place yard
"""
DIARY = """\
2025-03-01
hoshi
  wired 2 mm Al on left 1
  returned to ada
2026-09-01
hoshi
  received from ada, wanted by 2026-12
  agreed 120 EUR for pruning
yuki
  received from ada
  agreed 50 EUR for wiring
2026-10-01
hoshi
  protected fleece
yuki
  billed 50 EUR, number 1
  returned to ada
2026-10-05
ada
  paid 20 EUR
"""
DAY = date(2026, 11, 20)


def test_it_says_what_to_think_of_before_a_tree_goes_home(written) -> None:
    """Its cover runs into spring and it is wanted by December; its wire is 20 months old; of the
    bill of 50.00 for the other 20.00 is paid."""
    session = written(CARDS + DIARY, str(DAY), settings='home = "yard"\nkeeper = "me"\n')
    shown = sheet(session.accounts(), {}, DAY)
    (here,), (gone,) = shown.here, shown.gone
    lines = {line.label: line.said for line in here.lines}
    assert (lines["agreed"], lines["wanted by"]) == ("120 EUR for pruning", "December")
    assert lines["can go home"].startswith("from ")
    assert lines["can go home"].endswith(" 2027")
    late, wire = here.cautions
    assert late.endswith("2027, and until then its winter shelter should not be broken off.")
    assert wire == (
        "As it stands it goes home with old wire on it: 2 mm aluminium wire on left 1, since March "
        "2025."
    )
    money = {line.label: line.said for line in gone.lines}["money"]
    assert money == "comes to 50.00 EUR, billed 50.00 EUR, open 30.00 EUR"
    assert shown.standing == (("Ada", "open 30.00 EUR, to bill 120.00 EUR"),)


def test_what_is_open_of_one_is_never_added_to_what_another_paid_ahead(written) -> None:
    """Two people and two currencies: four sums, none of them of both. A yen has no hundredths."""
    session = written(
        CARDS
        + """\
person bo
  name Bo
tree kuro
  kind trident maple
  owner bo
  place yard
2026-09-01
hoshi
  received from ada
  billed 100 EUR, number 1
kuro
  received from bo
  paid 60 EUR deposit
  paid 9000 JPY in advance
""",
        str(DAY),
        settings='home = "yard"\nkeeper = "me"\n',
    )
    shown = sheet(session.accounts(), {}, DAY)
    assert shown.standing == (
        ("Ada", "open 100.00 EUR"),
        ("Bo", "paid ahead 60.00 EUR, paid ahead 9000 JPY"),
    )


def test_a_tree_that_is_weak_or_still_apart_does_not_go_home_any_day(
    written,
) -> None:
    """Quarantine for 10 days was over on 11 September and nobody let it out."""
    diary = "2026-09-01\nhoshi\n  received from ada\n  quarantined 10 days\n"
    weak = "2026-09-20\nhoshi\n  vigour weak\n"
    settings = 'home = "yard"\nkeeper = "me"\n'

    def home(text: str) -> str:
        session = written(CARDS + text, str(DAY), settings=settings)
        (one,) = (o for o in sheet(session.accounts(), {}, DAY).here if o.name == "hoshi")
        return {line.label: line.said for line in one.lines}["can go home"]

    assert home("2026-09-01\nhoshi\n  received from ada\n") == "any day"
    assert home(diary) == "not yet: it is still in quarantine"
    assert home(diary + weak) == (
        "not yet: it is written down as weak and it is still in quarantine"
    )


def test_a_tree_is_in_the_house_once_it_came_and_what_was_agreed_before_is_of_that_visit(
    written,
) -> None:
    """Agreed on 1 February, deposit on the 2nd, received on 1 March; agreed again after it went."""
    cards = CARDS.replace("  owner ada\n  place yard\ntree yuki", "  owner ada\ntree yuki")
    ahead = "2026-02-01\nhoshi\n  agreed 90 EUR for wiring\n  paid 20 EUR deposit\n"
    settings = 'home = "yard"\nkeeper = "me"\n'

    def shown(text: str, day: str):
        return sheet(written(cards + text, day, settings=settings).accounts(), {}, DAY)

    before = shown(ahead, "2026-02-10")
    assert [one.name for one in before.here] == ["yuki"]
    assert [one.name for one in before.to_come] == ["hoshi"]
    came = f"{ahead}2026-03-01\nhoshi\n  received from ada\n"
    after = shown(came, "2026-03-10")
    assert [one.name for one in after.here] == ["yuki", "hoshi"]
    assert after.to_come == ()
    money = {line.label: line.said for line in after.here[1].lines}["money"]
    assert money == "comes to 90.00 EUR, paid 20.00 EUR, to bill 90.00 EUR, paid ahead 20.00 EUR"
    gone = f"{came}2026-04-01\nhoshi\n  billed 90 EUR\n  returned to ada\n"
    again = shown(f"{gone}2026-05-01\nhoshi\n  agreed 60 EUR for repotting\n", "2026-05-10")
    assert [one.name for one in again.here] == ["yuki"]
    (one,) = again.to_come
    assert {line.label: line.said for line in one.lines}["money"] == (
        "comes to 60.00 EUR, to bill 60.00 EUR"
    )


def test_the_terminal_tells_what_is_agreed_and_not_here_yet() -> None:
    """Below those that are here, and where none is, that none is."""
    from datetime import date as day
    from decimal import Decimal as D

    from msgspec.structs import replace

    from backbud.views.visit import MoneyView, VisitView
    from backbud.visits_report import visit_lines

    nothing: dict[str, object] = dict.fromkeys(
        ("done", "waiting", "holds", "still_on", "charges", "bills", "payments"), ()
    )
    one = VisitView(
        tree="hoshi", name="Old Star", kind="maple", owner="ada", owner_name="Ada", came=None,
        went=None, how="here", wanted="", wanted_by=None, ready=None, agreed=("90 EUR for wiring",),
        hours=D(0), home_from=None, held_past_wanted=False, unpriced=0, to_come=True,
        money=(MoneyView("EUR", D("90.00"), D(0), D(0), D(0), D("90.00")),),
        **nothing,
    )  # fmt: skip
    said = list(map(str, visit_lines((), day(2026, 2, 10), (one,))))
    assert said[0] == "No tree of anybody else is here."
    assert said[2:] == [
        "  Old Star, Ada",
        "      agreed   90 EUR for wiring",
        "      money    comes to 90.00 EUR, to bill 90.00 EUR",
    ]
    assert list(visit_lines((), day(2026, 2, 10), ())) == said[:1]
    assert replace(one, to_come=False).is_here


@pytest.mark.parametrize("how", ["deposit", "deposit, by transfer", "by transfer"])
def test_what_is_paid_ahead_after_it_went_is_of_the_coming_that_is_ahead(written, how) -> None:
    """However it was paid besides; a payment that is not ahead settles the bill of its visit."""
    diary = f"2026-10-02\nyuki\n  paid 20 EUR {how}\n"
    session = written(CARDS + DIARY + diary, str(DAY), settings='home = "yard"\nkeeper = "me"\n')
    to_come = [one.name for one in sheet(session.accounts(), {}, DAY).to_come]
    assert to_come == ([] if how == "by transfer" else ["yuki"])
