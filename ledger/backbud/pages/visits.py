"""Lays out the page of visits: other people's trees in the house, and what is open of others."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from decimal import Decimal

from msgspec import Struct

from backbud import words
from backbud.pages.links import tree_page
from backbud.pages.papers import TITLES, PaperPage
from backbud.views.visit import AccountView, MoneyView, VisitView, in_the_house

_HUNDREDTH = Decimal("0.01")
MOST_WAITING = 3


class VisitLine(Struct, frozen=True):
    """A line about a visit: its label in the margin, and what is said; `late`: it is past."""

    label: str
    said: str
    late: bool = False


class VisitRow(Struct, frozen=True):
    """A visit on the page: `ways` to its papers, each with what it is called."""

    name: str
    page: str
    kind: str
    owner: str
    lines: tuple[VisitLine, ...]
    cautions: tuple[str, ...]
    ways: tuple[tuple[str, str], ...]


class VisitsSheet(Struct, frozen=True):
    """The page: trees in the house, those that went home with something open, what is open in all.

    `open`: by currency, in words.
    """

    here: tuple[VisitRow, ...]
    gone: tuple[VisitRow, ...]
    open: tuple[str, ...]
    to_bill: tuple[str, ...]


def sheet(
    accounts: Sequence[AccountView], papers: Mapping[str, Sequence[PaperPage]], today: date
) -> VisitsSheet:
    """The page on a day. `papers`: by the person's handle."""
    gone = [
        one
        for account in accounts
        for one in account.visits
        if not one.is_here and (one.owed or any(sums.to_bill for sums in one.money))
    ]
    sums = [one for account in accounts for one in account.money]
    return VisitsSheet(
        tuple(_row(one, papers, today) for one in in_the_house(accounts)),
        tuple(_row(one, papers, today) for one in gone),
        tuple(_by_currency((one.currency, one.open) for one in sums)),
        tuple(_by_currency((one.currency, one.to_bill) for one in sums)),
    )


def _by_currency(sums: Iterable[tuple[str, Decimal]]) -> Iterator[str]:
    found: dict[str, Decimal] = {}
    for currency, amount in sums:
        found[currency] = found.get(currency, Decimal(0)) + amount
    return (words.money(amount, currency) for currency, amount in found.items() if amount)


def _row(one: VisitView, papers: Mapping[str, Sequence[PaperPage]], today: date) -> VisitRow:
    return VisitRow(
        one.name,
        tree_page(one.tree),
        one.kind,
        one.owner_name,
        tuple(_lines(one, today)),
        tuple(_cautions(one, today)),
        tuple(_ways(one, papers.get(one.owner, ()))),
    )


def _lines(one: VisitView, today: date) -> Iterator[VisitLine]:
    year = today.year
    if one.is_here:
        came = f"since {words.day(one.came, year)}" if one.came else "since before this diary"
        yield VisitLine("here", f"{came}, in quarantine" if one.apart else came)
    elif one.went is not None:
        yield VisitLine("went home", words.day(one.went, year))
    if one.condition:
        yield VisitLine("it came", one.condition)
    if one.agreed:
        yield VisitLine("agreed", "; ".join(one.agreed))
    if one.wanted_by is not None:
        past = one.wanted_by.last < today
        yield VisitLine("wanted by", words.written(one.wanted_by, year), past)
    yield VisitLine("done", _done(one, year))
    if one.waiting:
        titles = [work.title for work in one.waiting]
        more = len(titles) - MOST_WAITING
        said = "; ".join(titles[:MOST_WAITING])
        yield VisitLine("waiting", f"{said}; and {more} more" if more > 0 else said)
    if one.ready is not None:
        yield VisitLine("ready", f"since {words.day(one.ready, year)}")
    if one.is_here:
        home = f"from {words.day(one.home_from, year)}" if one.home_from else "any day"
        yield VisitLine("can go home", home)
    if one.asked_after is not None:
        yield VisitLine("asked after", words.day(one.asked_after, year))
    for sums in one.money:
        yield VisitLine("money", _money(sums, one.owed.get(sums.currency)))


def _done(one: VisitView, year: int) -> str:
    if not one.done:
        return "nothing yet"
    last = one.done[-1]
    hours = f", {words.minutes(round(one.hours * 60))}" if one.hours else ""
    when = words.written(last.when, year)
    return f"{words.number(len(one.done), 'work')}{hours}; last {last.act} {when}"


def _money(sums: MoneyView, owed: Decimal | None) -> str:
    currency = sums.currency
    parts = [f"comes to {words.money(sums.comes_to, currency)}"]
    for label, amount in (("billed", sums.billed), ("paid", sums.paid), ("to bill", sums.to_bill)):
        if amount:
            parts.append(f"{label} {words.money(amount, currency)}")
    if owed:
        parts.append(f"open {words.money(owed, currency)}")
    elif sums.open < 0:
        parts.append(f"paid ahead {words.money(-sums.open, currency)}")
    return ", ".join(parts)


def _cautions(one: VisitView, today: date) -> Iterator[str]:
    """What to think of before it goes home."""
    if not one.is_here:
        return
    if one.home_from is not None:
        holds = " and ".join(hold.runs for hold in one.holds if hold.until > today)
        day = words.day(one.home_from, today.year)
        if one.held_past_wanted:
            yield (
                f"It is wanted home before {day}, and until then {holds} should not be broken off."
            )
        else:
            yield f"Not home before {day}: until then {holds} should not be broken off."
    for old in (True, False):
        wires = [
            f"{wire.what}, since {words.month(wire.since, today.year)}"
            for wire in one.wires
            if wire.old == old
        ]
        if wires:
            told = "; ".join(wires)
            said = f"old wire on it: {told}" if old else f"this on it: {told}"
            yield f"As it stands it goes home with {said}."
    if one.unpriced:
        yield f"No price is known of {words.number(one.unpriced, 'line')}."


def _ways(one: VisitView, papers: Sequence[PaperPage]) -> Iterator[tuple[str, str]]:
    """The papers of a visit: its own receipt, its tree's, and the account of all."""
    for page in papers:
        if page.sort == "statement" or (page.tree == one.tree and page.day in (None, one.came)):
            yield TITLES[page.sort], page.path
