"""Lays out the page of visits: other people's trees in the house, and what is open of others."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from decimal import Decimal

from msgspec import Struct
from msgspec.structs import replace

from backbud import words
from backbud.pages.links import tree_page, visits_page_of
from backbud.pages.papers import TITLES, PaperPage
from backbud.tongue import phrase
from backbud.views.open_visits import OpenVisits, first_visits, go_by_person, open_visits
from backbud.views.visit import AccountView, MoneyView, VisitView

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


class PersonVisits(Struct, frozen=True):
    """A person on the page of all where their visits stand on another, `page`, "" where they have
    none: how many trees it tells of, and what stands with them."""

    person: str
    name: str
    page: str
    trees: int
    sums: str


class VisitsSheet(Struct, frozen=True):
    """The page: trees in the house, those that are to come, those that went home with something
    open, and what stands with each person: nothing is added up across people or currencies.

    `left_out`: of each of the three how many more there are; `people`: with whom they stand.
    `whose`: the name of the person, on a page of one alone.
    """

    here: tuple[VisitRow, ...]
    to_come: tuple[VisitRow, ...]
    gone: tuple[VisitRow, ...]
    standing: tuple[tuple[str, str], ...]
    left_out: tuple[int, int, int] = (0, 0, 0)
    people: tuple[PersonVisits, ...] = ()
    whose: str = ""


def sheet(
    accounts: Sequence[AccountView], papers: Mapping[str, Sequence[PaperPage]], today: date
) -> VisitsSheet:
    """The page on a day. `papers`: by the person's handle."""
    found = open_visits(accounts)
    people: tuple[PersonVisits, ...] = ()
    if go_by_person(found):
        found, people = first_visits(found), tuple(_people(accounts))
    shown = _laid_out(found, accounts, papers, today)
    return replace(shown, left_out=found.left_out, people=people)


def sheet_of_person(account: AccountView, papers: Sequence[PaperPage], today: date) -> VisitsSheet:
    """The page of one person, with all of their visits of which something is open."""
    its = {account.person: papers}
    return replace(_laid_out(open_visits((account,)), (account,), its, today), whose=account.name)


def _laid_out(
    found: OpenVisits,
    accounts: Sequence[AccountView],
    papers: Mapping[str, Sequence[PaperPage]],
    today: date,
) -> VisitsSheet:
    return VisitsSheet(
        tuple(_row(one, papers, today) for one in found.here),
        tuple(_row(one, papers, today) for one in found.to_come),
        tuple(_row(one, papers, today) for one in found.gone),
        tuple(_standing(accounts)),
    )


def _people(accounts: Iterable[AccountView]) -> Iterator[PersonVisits]:
    """Everybody of whose visits something is open, or with whom a sum is."""
    for account in accounts:
        trees = open_visits((account,)).how_many
        sums = ", ".join([told for _, told in _standing((account,))])
        if trees or sums:
            page = visits_page_of(account.person) if trees else ""
            yield PersonVisits(account.person, account.name, page, trees, sums)


def _standing(accounts: Iterable[AccountView]) -> Iterator[tuple[str, str]]:
    """Each person with whom anything is open, paid ahead or still to bill, and what."""
    for account in accounts:
        told = []
        for one in account.money:
            if one.open:
                label = phrase("open") if one.open > 0 else phrase("paid ahead")
                told.append(f"{label} {words.money(abs(one.open), one.currency)}")
            if one.to_bill:
                told.append(phrase("to bill {money}", money=words.money(one.to_bill, one.currency)))
        if told:
            yield account.name, ", ".join(told)


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
        came = (
            phrase("since {day}", day=words.day(one.came, year))
            if one.came
            else phrase("since when is not written")
        )
        yield VisitLine(
            phrase("here"), phrase("{came}, in quarantine", came=came) if one.apart else came
        )
    elif one.went is not None:
        yield VisitLine(phrase("went home"), words.day(one.went, year))
    if one.condition:
        yield VisitLine(phrase("it came"), one.condition)
    if one.agreed:
        yield VisitLine(phrase("agreed"), "; ".join(one.agreed))
    if one.wanted_by is not None:
        past = one.wanted_by.last < today
        yield VisitLine(phrase("wanted by"), words.written(one.wanted_by, year), past)
    if not one.to_come:
        yield VisitLine(phrase("done"), _done(one, year))
    if one.waiting:
        titles = [work.title for work in one.waiting]
        more = len(titles) - MOST_WAITING
        said = "; ".join(titles[:MOST_WAITING])
        yield VisitLine(
            phrase("waiting"),
            phrase("{said}; and {more} more", said=said, more=more) if more > 0 else said,
        )
    if one.ready is not None:
        yield VisitLine(phrase("ready"), phrase("since {day}", day=words.day(one.ready, year)))
    if one.is_here:
        yield VisitLine(phrase("can go home"), can_go_home(one, year))
    if one.asked_after is not None:
        yield VisitLine(phrase("asked after"), words.day(one.asked_after, year))
    for sums in one.money:
        yield VisitLine(phrase("money"), _money(sums, one.owed.get(sums.currency)))


def can_go_home(one: VisitView, year: int) -> str:
    """`any day`, `from 5 April`, `not yet: it is written down as weak`."""
    from_day = phrase("from {day}", day=words.day(one.home_from, year)) if one.home_from else ""
    if one.not_yet:
        more = phrase("; else {from_day}", from_day=from_day) if from_day else ""
        return phrase("not yet: {not_yet}{more}", not_yet=" and ".join(one.not_yet), more=more)
    return from_day or phrase("any day")


def _done(one: VisitView, year: int) -> str:
    if not one.done:
        return phrase("nothing yet") if one.went is None else phrase("nothing written down")
    last = one.done[-1]
    hours = f", {words.minutes(round(one.hours * 60))}" if one.hours else ""
    when = words.written(last.when, year)
    return phrase(
        "{works}{hours}; last {act} {when}",
        works=words.number(len(one.done), "work"),
        hours=hours,
        act=phrase(last.act),
        when=when,
    )


def _money(sums: MoneyView, owed: Decimal | None) -> str:
    currency = sums.currency
    parts = [phrase("comes to {money}", money=words.money(sums.comes_to, currency))]
    for label, amount in (
        (phrase("billed"), sums.billed),
        (phrase("paid"), sums.paid),
        (phrase("to bill"), sums.to_bill),
    ):
        if amount:
            parts.append(f"{label} {words.money(amount, currency)}")
    if owed:
        parts.append(phrase("open {money}", money=words.money(owed, currency)))
    elif sums.open < 0:
        parts.append(phrase("paid ahead {money}", money=words.money(-sums.open, currency)))
    return ", ".join(parts)


def _cautions(one: VisitView, today: date) -> Iterator[str]:
    """What to think of before it goes home."""
    if not one.is_here:
        return
    if one.home_from is not None:
        holds = phrase(" and ").join(phrase(hold.runs) for hold in one.holds if hold.until > today)
        day = words.day(one.home_from, today.year)
        if one.held_past_wanted:
            yield (
                phrase(
                    "It is wanted home before {day}, and until then {holds} should not be "
                    "broken off.",
                    day=day,
                    holds=holds,
                )
            )
        else:
            yield phrase(
                "Not home before {day}: until then {holds} should not be broken off.",
                day=day,
                holds=holds,
            )
    for old in (True, False):
        wires = [
            phrase(
                "{what}, since {month}", what=wire.what, month=words.month(wire.since, today.year)
            )
            for wire in one.wires
            if wire.old == old
        ]
        if wires:
            told = "; ".join(wires)
            said = (
                phrase("old wire on it: {told}", told=told)
                if old
                else phrase("this on it: {told}", told=told)
            )
            yield phrase("As it stands it goes home with {said}.", said=said)
    if one.unpriced:
        yield phrase("No price is known of {lines}.", lines=words.number(one.unpriced, "line"))


def _ways(one: VisitView, papers: Sequence[PaperPage]) -> Iterator[tuple[str, str]]:
    """The papers of a visit: its own receipt, its tree's, and the account of all."""
    for page in papers:
        if page.sort == "statement" or (page.tree == one.tree and page.day in (None, one.came)):
            yield phrase(TITLES[page.sort]), page.path
