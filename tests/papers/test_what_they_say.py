"""What the papers of a person say: literal figures and words, and nothing that is not theirs."""

from __future__ import annotations

import json
from decimal import Decimal as D
from fractions import Fraction

import pytest

from backbud.pages.paper_pages import paper_pages
from backbud.views.paper import PapersView
from backbud.views.published import as_json


@pytest.fixture(scope="module")
def pages(ada: PapersView) -> dict[str, str]:
    return {path: page.decode() for path, page in paper_pages(ada)}


def test_there_is_each_paper(pages) -> None:
    assert list(pages) == [
        "papers/ada/receipt-hoshi-2026-03-06.html",
        "papers/ada/statement.html",
        "papers/ada/care-hoshi.html",
        "papers/ada/provenance-hoshi.html",
    ]


def test_the_receipt_says_what_was_taken_in(ada) -> None:
    (one,) = ada.receipts
    assert (one.condition, one.pot_owner) == ("two cracked branches", "Ada Pell")
    # Nobody but the keeper calls it tray.
    assert one.pot == "30 × 20 × 6 cm inside"
    assert (one.agreed, one.risks) == (
        ("40.00 EUR an hour for repotting",),
        ("the low branch may die",),
    )
    assert (one.insured, one.deposit) == (D(2400), D(20))
    assert [str(paid.amount) for paid in one.deposit_paid] == ["20.00"]
    # The wire came later, and no picture was taken.
    assert (one.on_it, one.missing) == ((), ("photographs of it as it came, marked for owner",))


def test_the_statement_in_figures_worked_out_by_hand(ada) -> None:
    """1 h 20 of the 2 h 40 on two trees at 40.00: 53.33. 3 L of 14 L for 21.00: 4.50; 57.83 in all.
    In 53.33 at 20 % are 8.89 (8.888…), in 4.50 at 5.5 % 0.23 (0.2346). Paid 20 and 30: 7.83."""
    (sums,) = ada.statement.sums
    assert [(str(t.rate), str(t.net), str(t.tax), str(t.gross)) for t in sums.taxes] == [
        ("20", "44.44", "8.89", "53.33"),
        ("5.5", "4.27", "0.23", "4.50"),
    ]
    assert (str(sums.comes_to), str(sums.billed), str(sums.paid), str(sums.due)) == (
        "57.83",
        "57.83",
        "50.00",
        "7.83",
    )
    assert (ada.statement.numbers, str(ada.statement.due_until)) == (("2026-01",), "2026-04-20")


def test_the_sums_are_those_of_the_lines_added_up_apart(ada) -> None:
    """By fractions, from the JSON alone."""
    said = json.loads(as_json(ada.statement))
    (sums,) = said["sums"]
    lines = [row for tree in said["trees"] for row in tree["charges"] if row["amount"] is not None]
    gross = sum(Fraction(row["amount"]) for row in lines)
    assert gross == Fraction(sums["comes_to"])
    assert sum(Fraction(one["gross"]) for one in sums["taxes"]) == gross
    assert sum(Fraction(one["net"]) + Fraction(one["tax"]) for one in sums["taxes"]) == gross
    billed = sum(Fraction(one["amount"]) for one in said["bills"])
    paid = sum(Fraction(one["amount"]) for one in said["payments"])
    due = billed - paid + Fraction(sums["before"]) + Fraction(sums["to_bill"])
    assert (billed, paid, due) == tuple(Fraction(sums[k]) for k in ("billed", "paid", "due"))
    for one in sums["taxes"]:
        rate = Fraction(one["rate"])
        of_rate = sum(Fraction(r["amount"]) for r in lines if Fraction(r["tax_rate"]) == rate)
        exact = of_rate * rate / (100 + rate)
        assert abs(exact - Fraction(one["tax"])) <= Fraction(1, 200)


def test_what_was_done_is_told_in_plain_words(ada) -> None:
    (tree,) = ada.statement.trees
    assert [(line.when, line.what) for line in tree.done] == [
        (
            "7 March",
            "Repotted: in its own pot, 2 cm of the root ball cut away from below, 2 parts of the "
            "root ball opened, the rest left in peace, fresh soil (maple), held in the pot by "
            "wires through its floor",
        ),
        ("7 March", "Wired: 2 mm aluminium on left 2"),
    ]


def test_the_care_sheet_goes_by_the_owners_place_and_is_full_for_a_beginner(ada) -> None:
    (care,) = ada.care
    assert (care.place, care.fuller) == ("the weather of Ada's roof", True)
    # Six weeks from 7 March, and until its ties may come out: from twenty weeks on, and until a
    # month after the season there.
    leave = {item.what: item.when for item in care.leave}
    assert "Do not feed it" not in leave
    assert leave["Do not move it about in its pot; never lift it by the trunk"] == "before 25 July"
    (untie,) = (item for item in care.back if "tie it into its pot" in item.what)
    assert untie.when == "25 July to 3 October"
    assert any("6 cm" in line for line in care.water)
    assert care.trouble[0].what == "The wire begins to sink into the bark"
    assert [item.what for item in care.back if "wire" in item.what]
    assert all(item.why for item in care.do)


def test_what_is_asked_there_comes_by_the_weather_there(session, ada) -> None:
    """A roof that is five degrees warmer has its first pest look weeks before the yard."""
    from backbud.plan.elsewhere import Elsewhere

    elsewhere = Elsewhere(
        session.journal, session.histories, session.pack.find, session.weather, session.today
    )

    def first(place: str):
        found = elsewhere.planned("hoshi", place)
        return min(one.window.best for one in found if one.title.startswith("check for pests"))

    assert (first("yard") - first("roof")).days > 14


def test_the_provenance_says_where_it_comes_from(ada) -> None:
    (one,) = ada.provenance
    assert (one.origin, one.passports) == ("from seed", ("XX-99",))
    assert [(year.year, [line.act for line in year.done]) for year in one.years] == [
        (2026, ["repotted", "wired"])
    ]


# What stands in the diary and is nobody's to read but the keeper's.
SECRETS = ("whisper", "grumbling", "haggles", "sevenseven", "Bramble", "Bo Marl", "journal.txt")


def test_no_paper_says_what_is_not_its_owners(pages) -> None:
    for page in pages.values():
        assert [word for word in SECRETS if word.casefold() in page.casefold()] == []


def test_only_the_receipt_and_the_account_speak_of_money(pages) -> None:
    told = [path for path, page in pages.items() if "EUR" in page]
    assert told == ["papers/ada/receipt-hoshi-2026-03-06.html", "papers/ada/statement.html"]


def test_each_says_that_local_rules_apply(pages) -> None:
    assert all("local rules decide" in page for page in pages.values())


def test_each_stands_by_itself_and_leads_nowhere(ada) -> None:
    for _, page in paper_pages(ada, base="", alone=True):
        text = page.decode()
        assert "<link" not in text
        assert "<a " not in text
        assert "--paper:" in text


def test_only_the_bill_speaks_of_rules_for_bills(pages) -> None:
    told = [path for path, page in pages.items() if "What must stand on a bill" in page]
    assert told == ["papers/ada/statement.html"]
    with_number = [path for path, page in pages.items() if "XX 123" in page]
    assert with_number == ["papers/ada/statement.html"]


def test_the_care_sheet_says_how_it_goes_through_the_winter(ada) -> None:
    """A maple: its shelter by the weather of the roof, and that it drinks though it is bare."""
    (care,) = ada.care
    assert care.winter[0].what.startswith("Protect it against winter frost")
    assert [item.what for item in care.winter if not item.when] == [
        "It stands outside and bare, and lives",
        "No heated room, and no feed",
    ]
    assert not [item.what for item in care.do if item.what.startswith("Protect it against winter")]


def test_it_says_each_thing_about_water_once(ada) -> None:
    """What its kind wants, then how it is done; no second sentence on how much it drinks."""
    (care,) = ada.care
    assert care.water[0] == (
        "What its kind wants: plenty while it is in leaf, little while it is bare."
    )
    assert [line for line in care.water if "in leaf" in line] == [care.water[0]]
    assert len(set(care.water)) == len(care.water) == 7


def test_what_several_branches_ask_for_is_told_of_none_of_them() -> None:
    """Wire on left 1 and on right 2 is looked at on both."""
    from datetime import date

    from backbud.plan.followups import FollowUp
    from backbud.species import Window
    from backbud.views.care import _items

    window = Window(date(2026, 5, 1), date(2026, 5, 8), date(2026, 5, 15))
    works = [
        FollowUp(
            id=f"hoshi/bite/wired/{part}", tree="hoshi", act="checked",
            title=f"check wire on {part}", what=f"wire on {part}", window=window, because=(),
            cautions=(), minutes=5,
            settled_by=(), part=part, group="bite/wired",
        )
        for part in ("left 1", "right 2")
    ]  # fmt: skip
    today = date(2026, 4, 1)
    assert [one.what for one in _items(works, 8, today, fuller=True)] == ["Look at the wire"]
    (alone,) = _items(works[:1], 8, today, fuller=True)
    assert alone.what == "Look at the wire on left 1"


def test_it_comes_home_once_it_is_ready_and_not_before(written) -> None:
    """By its heading; a tree that went long ago is kept, and does not come."""
    from backbud.papers.gather import papers_of

    cards = (
        "place yard\n  latitude 54 N\nperson una\nperson ada\n  name Ada\ntree hoshi\n  owner ada\n"
    )
    came = "  kind trident maple\n2026-03-01\nhoshi\n  received from ada\n"
    ready = f"{came}2026-04-01\nhoshi\n  ready\n"
    home = f"{ready}2026-04-03\nhoshi\n  returned to ada\n"
    found = []
    for diary, on in ((came, "2026-03-05"), (ready, "2026-04-02"), (home, "2026-04-10"),
                      (home, "2026-05-20")):  # fmt: skip
        session = written(cards + diary, on, settings='home = "yard"\nkeeper = "una"\n')
        view = papers_of(session, "ada")
        assert view is not None
        page = dict(paper_pages(view))["papers/ada/care-hoshi.html"].decode()
        found.append((view.care[0].stage, "comes home</h1>" in page, "still with us" in page))
    assert found == [
        ("here", False, True),
        ("ready", True, False),
        ("ready", True, False),
        ("home", False, False),
    ]


def test_doses_hours_and_wind_are_nothing_that_an_owner_reads(written) -> None:
    from backbud.papers.gather import papers_of

    session = written(
        "place yard\n  latitude 54 N\nperson una\nperson ada\n  name Ada\ntree hoshi\n  owner ada\n"
        "  kind trident maple\n2026-03-01\nhoshi\n  received from ada\n"
        "2026-03-02\nhoshi\n"
        '  treated with "soft soap", number 0000-00, dose 10 mL/L, against aphids, re-entry 12 h\n'
        "2026-03-03\nhoshi\n  fed 20-10-20, 1 g/L\n",
        "2026-03-05",
        settings='home = "yard"\nkeeper = "una"\n',
    )
    view = papers_of(session, "ada")
    assert view is not None
    assert [line.what for line in view.care[0].done] == [
        "Treated, against aphids, with soft soap",
        "Fed",
    ]


def test_a_receipt_says_what_was_on_the_tree_before_it_was_taken_off(written) -> None:
    """Wired at home in spring, unwired on the day it comes in June."""
    from backbud.papers.gather import papers_of

    session = written(
        "place yard\n  latitude 54 N\nperson una\nperson ada\n  name Ada\ntree hoshi\n  owner ada\n"
        "  kind trident maple\n2026-03-01\nhoshi\n  received from ada\n  wired 2 mm Al on left 1\n"
        "  returned to ada\n2026-06-01\nhoshi\n  received from ada\n  unwired\n",
        "2026-06-05",
        settings='home = "yard"\nkeeper = "una"\n',
    )
    view = papers_of(session, "ada")
    assert view is not None
    assert view.receipts[-1].on_it == ("2 mm aluminium wire on left 1",)


def test_a_treatment_is_warned_of_for_eight_weeks(written) -> None:
    """Treated on 2 March: warned of on 20 April, not on 1 May."""
    from backbud.papers.gather import papers_of

    told = []
    for on in ("2026-04-20", "2026-05-01"):
        session = written(
            "place yard\n  latitude 54 N\nperson una\nperson ada\n  name Ada\ntree hoshi\n"
            "  owner ada\n  kind trident maple\n2026-03-01\nhoshi\n  received from ada\n"
            '2026-03-02\nhoshi\n  treated with "soft soap", against aphids\n',
            on,
            settings='home = "yard"\nkeeper = "una"\n',
        )
        view = papers_of(session, "ada")
        assert view is not None
        told.append(any("treated against pest" in one for one in view.care[0].cautions))
    assert told == [True, False]
