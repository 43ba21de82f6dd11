"""Lays out for a terminal the visits of other people's trees, and a person's account."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from decimal import Decimal

from backbud.say import Heading
from backbud.tongue import full_day
from backbud.views.visit import AccountView, BookedView, ChargeView, MoneyView, VisitView
from backbud.words import day, minutes, money, number, written

_HOURS = Decimal("0.01")


def visit_lines(
    visits: Sequence[VisitView], today: date, to_come: Sequence[VisitView] = ()
) -> Iterator[str]:
    """The trees of others that are in the house: what was agreed, done, waits, and is open; then
    those that were agreed on and are not here yet."""
    if visits:
        yield Heading(f"In the house ({len(visits)})")
    else:
        yield "No tree of anybody else is here."
    for one in visits:
        yield f"  {one.name}, {one.owner_name}{_since(one, today.year)}{_wanted(one, today)}"
        if one.condition:
            yield f"      came     {one.condition}"
        if one.pot_owner_name:
            yield f"      pot      {one.pot_name}, {one.pot_owner_name}'s own"
        for agreed in one.agreed:
            yield f"      agreed   {agreed}"
        yield f"      done     {_done(one, today.year)}"
        if one.waiting:
            more = f", and {len(one.waiting) - 3} more" if len(one.waiting) > 3 else ""
            yield f"      waiting  {'; '.join(w.title for w in one.waiting[:3])}{more}"
        if one.ready is not None:
            yield f"      ready    since {day(one.ready, today.year)}"
        if one.apart:
            yield "      apart    in quarantine"
        if one.not_yet:
            yield f"      home     not yet: {' and '.join(one.not_yet)}"
        yield from (f"      ! {caution}" for caution in cautions(one, today))
        for sum_ in one.money:
            yield f"      money    {_sums(sum_)}"

    if to_come:
        yield Heading(f"Agreed, not here yet ({len(to_come)})")
    for one in to_come:
        yield f"  {one.name}, {one.owner_name}{_wanted(one, today)}"
        yield from (f"      agreed   {agreed}" for agreed in one.agreed)
        yield from (f"      money    {_sums(sum_)}" for sum_ in one.money)


def cautions(visit: VisitView, today: date) -> Iterator[str]:
    """What to think of before it goes home."""
    if visit.home_from is not None:
        holds = " and ".join(hold.runs for hold in visit.holds if hold.until > today)
        until = day(visit.home_from, today.year)
        text = f"not home before {until}: until then {holds} should not be broken off"
        yield f"{text}, and it is wanted earlier" if visit.held_past_wanted else text
    if visit.still_on and visit.ready is not None:
        yield f"it goes home with {', '.join(visit.still_on)} on it"
    if visit.unpriced:
        yield f"no price is known of {number(visit.unpriced, 'line')}"


def account_lines(account: AccountView, today: date) -> Iterator[str]:
    """A person's account: each visit with its lines, the bills, the payments, what is open."""
    yield Heading(account.name)
    for visit in account.visits:
        yield f"  {visit.name}, {_stay(visit)}"
        yield from (f"    {line}" for line in _table(map(_charge, visit.charges)))
    for heading, booked in (("Billed", account.bills), ("Paid", account.payments)):
        if booked:
            yield f"  {heading}"
            yield from (f"    {line}" for line in _table(map(_booking, booked)))
    for sums in account.money:
        yield f"  {_sums(sums)}"


def _stay(visit: VisitView) -> str:
    """`6 March 2026 to 6 April 2026`, `here since 6 March 2026`, `agreed, not here yet`."""
    if visit.to_come:
        return "agreed, not here yet"
    if visit.came is None:
        stays = f"here until {full_day(visit.went)}" if visit.went else "here"
        return f"{stays}, the day it came is not written"
    came = full_day(visit.came)
    return f"{came} to {full_day(visit.went)}" if visit.went else f"here since {came}"


def number_of(quantity: Decimal, unit: str) -> str:
    """`1 month`, `4.39 months`."""
    figure = f"{quantity.quantize(_HOURS).normalize():f}"
    return f"{figure} {unit if figure == '1' else unit + 's'}"


def _time(hours: Decimal) -> str:
    """`35 min`, `1 h 20`."""
    return minutes(int((hours * 60).to_integral_value()))


def _since(one: VisitView, year: int) -> str:
    return f", here since {day(one.came, year)}" if one.came else ""


def _wanted(one: VisitView, today: date) -> str:
    if one.wanted_by is None:
        return ""
    by = one.wanted_by
    return f", wanted by {written(by, today.year)}" + (" – past" if by.last < today else "")


def _done(one: VisitView, year: int) -> str:
    if not one.done:
        return "nothing yet"
    last = one.done[-1]
    hours = f", {_time(one.hours)}" if one.hours else ""
    return f"{number(len(one.done), 'work')}{hours}; last {last.act} {day(last.when.first, year)}"


def _sums(sums: MoneyView) -> str:
    parts = [f"comes to {money(sums.comes_to, sums.currency)}"]
    if sums.billed:
        parts.append(f"billed {money(sums.billed, sums.currency)}")
    if sums.paid:
        parts.append(f"paid {money(sums.paid, sums.currency)}")
    if sums.open > 0:
        parts.append(f"open {money(sums.open, sums.currency)}")
    elif sums.open < 0:
        parts.append(f"paid ahead {money(-sums.open, sums.currency)}")
    if sums.to_bill:
        parts.append(f"to bill {money(sums.to_bill, sums.currency)}")
    return ", ".join(parts)


def _charge(one: ChargeView) -> tuple[str, str, str]:
    amount = f"{one.quantity.quantize(_HOURS).normalize():f} {one.unit}".strip()
    if one.sort == "hours":
        amount = _time(one.quantity)
    elif one.sort == "period":
        amount = number_of(one.quantity, one.unit)
    agreed = {"price": "agreed:", "skipped": "agreed and skipped:"}.get(one.sort, amount)
    parts = (agreed, one.what)
    told = " ".join(part for part in parts if part)
    if one.amount is not None:
        price = money(one.amount, one.currency)
    else:
        price = "within the price" if one.within else "no price known"
    return full_day(one.day), told, price


def _booking(one: BookedView) -> tuple[str, str, str]:
    number_ = f"number {one.number}" if one.number else ""
    credit = "credit" if one.sort == "credit" else ""
    credit += f" on bill {one.of_bill}" if credit and one.of_bill else ""
    was = f"corrected; first {money(one.first, one.currency)}" if one.first is not None else ""
    told = ", ".join(part for part in (number_, credit, one.what, one.how, one.tree, was) if part)
    amount = money(one.amount, one.currency) if one.amount is not None else "no amount written"
    return full_day(one.day), told, amount


def _table(rows: Iterator[tuple[str, str, str]]) -> Iterator[str]:
    found = list(rows)
    widths = [max((len(row[n]) for row in found), default=0) for n in range(3)]
    for when, told, amount in found:
        yield f"{when:<{widths[0]}}  {told:<{widths[1]}}  {amount:>{widths[2]}}".rstrip()
