"""A statement's lines add up to what was billed and is still to bill, and none was not done."""

from __future__ import annotations

import pytest

from backbud.pages.account_sheet import statement_sheet
from backbud.papers.gather import papers_of
from backbud.views.paper import StatementView

CARDS = """\
place yard
  latitude 54 N
person una
  name Una Wren
  rate 40 EUR/h
person ada
  name Ada Pell
  address 12 Weir Row
  town Quay
material al-3
  sold in roll of 60 m
  price 30 EUR
  metal Al
tree hoshi
  kind trident maple
  owner ada
"""
SETTINGS = 'home = "yard"\nkeeper = "una"\n'
TAX = '[tax]\nname = "VAT"\nrate = 20\nnumber = "XX 1"\n'
CAME = "2026-03-01\nhoshi\n  received from ada\n"
HOME = "  returned to ada\n"


@pytest.fixture
def stated(written):
    """The statement of a diary on a day."""

    def state(diary: str, on: str = "2026-05-01", settings: str = "") -> StatementView:
        session = written(CARDS + diary, on, settings=SETTINGS + settings)
        found = papers_of(session, "ada")
        assert found is not None
        assert found.statement is not None
        return found.statement

    return state


def rows(view: StatementView) -> list[tuple[str, str]]:
    sheet = statement_sheet(view)
    trees = [(row.what, row.amount) for tree in sheet.trees for row in tree.rows]
    return trees + [(row.what, row.amount) for row in sheet.others]


def beside(view: StatementView) -> list[str]:
    return [said for tree in statement_sheet(view).trees for said in tree.beside]


def last(view: StatementView) -> list[tuple[str, str, str]]:
    (sums,) = statement_sheet(view).sums
    at = next(n for n, row in enumerate(sums) if row.label == "Comes to")
    return [(row.label, row.said, row.amount) for row in sums[at:]]


def test_work_that_was_skipped_is_no_line_and_asks_for_nothing(stated) -> None:
    view = stated(
        f"{CAME}  agreed 150 EUR for repotting\n2026-04-01\nhoshi\n  skipped repot -- too weak\n"
        f'2026-04-20\nhoshi\n  billed 60 EUR for "quarantine and care", number 4\n{HOME}'
    )
    assert rows(view) == [("Quarantine and care", "60.00 EUR")]
    assert beside(view) == ["Not done, and not in the sum: repotting, agreed at 150.00 EUR."]
    assert last(view) == [
        ("Comes to", "", "60.00 EUR"),
        ("Billed", "20 April 2026, number 4", "60.00 EUR"),
        ("To pay", "please by 4 May 2026", "60.00 EUR"),
    ]


def test_a_bill_of_another_sum_than_was_agreed_is_told_by_its_own_words(stated) -> None:
    view = stated(
        f'{CAME}  agreed 150 EUR for "soil and wire"\n  worked 2 h 30\n  used al-3 3 m\n'
        f"2026-04-20\nhoshi\n  billed 90 EUR, number 4\n{HOME}"
    )
    assert rows(view) == [("Work, as billed", "90.00 EUR")]
    assert beside(view) == [
        "In the price: 2 hours 30 minutes of work; 3 m of al-3 wire.",
        "Not in the sum: soil and wire, agreed at 150.00 EUR; what was billed stands above in its "
        "place.",
    ]


def test_hours_that_were_not_charged_are_said_to_be_so(stated) -> None:
    """3 h at 40.00: 120.00. 6 m of a roll of 60 m for 30.00: 3.00. Billed 110.00: 13.00 less."""
    view = stated(
        f"{CAME}  worked 3 h\n  used al-3 6 m\n2026-04-20\nhoshi\n  billed 110 EUR\n{HOME}"
    )
    assert rows(view) == [
        ("Work", "120.00 EUR"),
        ("Al-3 wire", "3.00 EUR"),
        ("Not charged", "−13.00 EUR"),
    ]
    assert last(view)[0] == ("Comes to", "", "110.00 EUR")


def test_what_a_bill_has_beyond_the_hours_is_said_to_be_in_it(stated) -> None:
    """An hour at 40.00, and 55.00 billed: 15.00 more, in the bill's own words where it has any."""
    hour = f"{CAME}  worked 1 h\n2026-04-20\nhoshi\n"
    for said, told in (("", "Also in the bill"), (' for "soil and moss"', "Soil and moss")):
        view = stated(f"{hour}  billed 55 EUR{said}\n{HOME}")
        assert rows(view) == [("Work", "40.00 EUR"), (told, "15.00 EUR")]


def test_a_bill_to_the_person_stands_for_the_visit(stated) -> None:
    """It is asked for once, not once as billed and once as to bill."""
    view = stated(f"{CAME}  agreed 90 EUR\n{HOME}2026-04-20\nada\n  billed 90 EUR, number 4\n")
    assert rows(view) == [("As agreed", "90.00 EUR")]
    assert last(view)[-1] == ("To pay", "please by 4 May 2026", "90.00 EUR")
    more = stated(f"{CAME}  agreed 90 EUR\n{HOME}2026-04-20\nada\n  billed 100 EUR, number 4\n")
    assert rows(more) == [("As agreed", "90.00 EUR"), ("Also in the bill", "10.00 EUR")]


def test_what_is_agreed_and_not_done_yet_is_not_in_the_sum(stated) -> None:
    """Nor is a deposit asked for again; once the tree is ready it is in it."""
    here = f"{CAME}  agreed 150 EUR for repotting\n  paid 50 EUR deposit\n"
    view = stated(here)
    assert rows(view) == []
    assert beside(view) == ["Agreed, and in the sum once the tree is ready: repotting, 150.00 EUR."]
    assert last(view)[1:] == [
        ("Paid", "1 March 2026, deposit", "50.00 EUR"),
        ("Paid ahead", "", "50.00 EUR"),
    ]
    ready = stated(f"{here}2026-04-20\nhoshi\n  ready\n")
    assert rows(ready) == [("Repotting", "150.00 EUR")]
    assert last(ready)[-2:] == [
        ("Paid ahead", "", "50.00 EUR"),
        ("So far, not billed yet", "", "150.00 EUR"),
    ]


def test_what_is_asked_for_is_what_was_billed_and_not_what_came_after(stated) -> None:
    """A bill of 40.00 long due; half an hour since, 20.00, is not billed."""
    view = stated(
        f"{CAME}  worked 1 h\n2026-04-01\nhoshi\n  billed 40 EUR\n"
        "2026-04-10\nhoshi\n  worked 30 min\n"
    )
    assert last(view)[-2:] == [
        ("To pay", "it was to be paid by 15 April 2026", "40.00 EUR"),
        ("Not billed yet", "", "20.00 EUR"),
    ]


def test_a_credit_that_takes_back_a_wrong_bill_leaves_the_right_one(stated) -> None:
    """340 billed, 340 credited, 330 billed: 330 were done and 330 are owed."""
    view = stated(
        f"{CAME}  agreed 330 EUR for wiring\n2026-04-20\nhoshi\n  billed 340 EUR, number 4\n"
        f"2026-04-21\nhoshi\n  credited 340 EUR, on bill 4\n  billed 330 EUR, number 5\n{HOME}"
    )
    assert rows(view) == [("Wiring", "330.00 EUR")]
    assert last(view)[0] == ("Comes to", "", "330.00 EUR")
    assert last(view)[-1][::2] == ("To pay", "330.00 EUR")


def test_the_line_of_a_bill_has_its_tax_before_or_in_it(stated) -> None:
    """Of 100.00 with 20 % in it 16.67 are tax; prices before tax make it a line of 83.33."""
    diary = f"{CAME}  agreed 150 EUR\n2026-04-20\nhoshi\n  billed 100 EUR\n{HOME}"
    for prices, line in (("with tax", "100.00 EUR"), ("before tax", "83.33 EUR")):
        view = stated(diary, settings=f'{TAX}prices = "{prices}"\n')
        assert rows(view) == [("Work, as billed", line)]
        (sums,) = view.sums
        assert (str(sums.comes_to), str(sums.taxes[0].tax)) == ("100.00", "16.67")


def test_a_bill_says_who_writes_it_to_whom_and_when_the_work_was_done(stated) -> None:
    view = stated(
        f"{CAME}  worked 1 h\n2026-03-20\nhoshi\n  worked 1 h\n"
        f"2026-04-20\nhoshi\n  billed 80 EUR, number 26-4\n{HOME}",
        settings=f'{TAX}[letterhead]\nname = "Una Wren, trees"\naddress = "1 Mill Lane"\n'
        'telephone = "0000 1"\nemail = "una@trees.example"\npay = "by transfer"\n',
    )
    us, them = view.issuer, view.to
    assert (us.name, us.address, us.telephone, us.email, us.tax_number) == (
        "Una Wren, trees", "1 Mill Lane", "0000 1", "una@trees.example", "XX 1",
    )  # fmt: skip
    assert (them.name, them.address, them.town) == ("Ada Pell", "12 Weir Row", "Quay")
    assert statement_sheet(view).head == (
        ("bill", "number 26-4, of 20 April 2026"),
        ("work done", "1 to 20 March 2026"),
        ("how to pay", "by transfer"),
    )


def test_a_yen_has_no_hundredths(stated) -> None:
    """A month of 4500 from 1 March to 1 April, and 4500 more to 1 May."""
    view = stated(f"{CAME}  agreed 4500 JPY a month for keep\n")
    assert rows(view) == [("Keep", "9000 JPY")]
    (row,) = statement_sheet(view).trees[0].rows
    assert (row.quantity, row.unit_price) == ("2 months", "4500")


def test_a_slip_in_the_letterhead_is_told(written) -> None:
    """With the near word of the same sort, and the rest of the journal compiles."""
    settings = SETTINGS + '[letterhead]\nadress = "1 Mill Lane"\n'
    session = written(CARDS, "2026-05-01", settings=settings, problems=("bad-settings",))
    (told,) = (one for one in session.problems() if one.code == "bad-settings")
    assert told.message == "“adress” is no setting of [letterhead]"
    assert "address" in told.hint
    assert session.journal.settings.letterhead.address == ""


def test_what_rounding_bill_by_bill_makes_is_called_so(stated) -> None:
    """33.33 and 19 % are 39.6627: 39.66 a bill, 79.32 both; 66.66 and 12.6654 are 79.33."""
    hour = "hoshi\n  worked 1 h\n  billed 39.66 EUR, number"
    view = stated(
        f"{CAME}  agreed 33.33 EUR/h\n2026-04-02\n{hour} 4\n2026-04-10\n{hour} 5\n{HOME}",
        settings='[tax]\nrate = 19\nprices = "before tax"\n',
    )
    assert rows(view) == [
        ("Work", "33.33 EUR"),
        ("Work", "33.33 EUR"),
        ("Rounded, bill by bill", "−0.01 EUR"),
    ]
