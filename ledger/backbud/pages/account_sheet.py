"""Lays out the account of the work: its rows, what is told beside the sum, and the sums."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from decimal import Decimal

from msgspec import Struct

from backbud import words
from backbud.bench.money import rounded
from backbud.pages.plain_amounts import hours_and_minutes, plain_amount
from backbud.tongue import full_day, phrase
from backbud.views.paper import PaperTreeView, StatedSumsView, StatedTreeView, StatementView
from backbud.views.plain_words import DoneLine
from backbud.views.statement import SHARED_GLANCE, stood_for
from backbud.views.visit import BookedView, ChargeView

_HUNDREDTH = Decimal("0.01")
ACCOUNT = "Account of the work"
# What a line is, where the diary has no words for it.
_NAMED = {
    "hours": "Work",
    "price": "As agreed",
    "period": "Keep",
    "billed": "Work, as billed",
    "also billed": "Also in the bill",
    "not charged": "Not charged",
    "rounding": "Rounded, bill by bill",
}


class ChargeRow(Struct, frozen=True):
    """A line of a statement as print sets it."""

    when: str
    what: str
    quantity: str
    unit_price: str
    tax: str
    amount: str


class StatedTree(Struct, frozen=True):
    """A tree of a statement; `beside`: what is within its price, and what is not in the sum, in a
    sentence each."""

    name: str
    here: str
    done: tuple[DoneLine, ...]
    rows: tuple[ChargeRow, ...]
    beside: tuple[str, ...]


class SumRow(Struct, frozen=True):
    """A sum: its label, what is said beside it, the amount; `last`: the one that counts."""

    label: str
    said: str
    amount: str
    last: bool = False


class StatementSheet(Struct, frozen=True):
    """A statement with its rows, and its sums. `head`: label and text of what a bill must say."""

    view: StatementView
    title: str
    head: tuple[tuple[str, str], ...]
    trees: tuple[StatedTree, ...]
    others: tuple[ChargeRow, ...]
    sums: tuple[tuple[SumRow, ...], ...]
    taxed: bool
    notes: tuple[str, ...]


def called(tree: PaperTreeView) -> str:
    """`trident maple ‘Naruto’, Acer buergerianum`."""
    kind = f"{tree.kind} ‘{tree.cultivar}’" if tree.cultivar else tree.kind
    known = not tree.botanical or tree.botanical.casefold() == tree.kind.casefold()
    return kind if known else f"{kind}, {tree.botanical}"


def statement_sheet(view: StatementView) -> StatementSheet:
    """A statement as a page shows it."""
    charges = [row for tree in view.trees for row in tree.charges]
    taxed = any(row.tax_rate is not None for row in (*charges, *view.others))
    number = ", ".join(view.numbers)
    title = phrase(ACCOUNT)
    if len(view.numbers) > 1:
        title = phrase("{account}, bills {numbers}", account=title, numbers=number)
    elif number:
        title = phrase("{account}, bill {number}", account=title, number=number)
    notes = []
    if taxed:
        within = (
            phrase("Prices have it in them.")
            if view.tax_within
            else phrase("Prices are without it.")
        )
        notes.append(
            phrase(
                "{tax_name} is told with each line. {within}",
                tax_name=words.sentence(view.tax_name),
                within=within,
            )
        )
    if view.unpriced:
        count = words.number(view.unpriced, "line")
        notes.append(
            phrase("No price is written down yet of {count}; it is not in the sum.", count=count)
        )
    return StatementSheet(
        view,
        title,
        tuple(_head(view)),
        tuple(_stated(tree, view.day.year) for tree in view.trees),
        tuple(_row(row, view.day.year) for row in view.others),
        tuple(tuple(_sums(one, view)) for one in view.sums),
        taxed,
        tuple(notes),
    )


def _head(view: StatementView) -> Iterator[tuple[str, str]]:
    """What a bill is known by, and when what it is for was done."""
    bills = [one for one in view.bills if one.sort == "bill"]
    for one in bills:
        number = phrase("number {number}, ", number=one.number) if one.number else ""
        yield (
            phrase("bill"),
            phrase("{number}of {full_day}", number=number, full_day=full_day(one.day)),
        )
    if not bills:
        yield (
            phrase("bill"),
            phrase("none yet: this says how the work stands, and asks for nothing"),
        )
    days = [day for tree in view.trees if tree.supplied for day in tree.supplied]
    if days:
        yield phrase("work done"), words.between_in_full(min(days), max(days))
    if view.issuer.pay and any(one.open > 0 for one in view.sums):
        yield phrase("how to pay"), view.issuer.pay


def _stated(tree: StatedTreeView, year: int) -> StatedTree:
    return StatedTree(
        f"{tree.tree.name}, {called(tree.tree)}",
        _here(tree),
        tree.done,
        tuple(_row(row, year, tree.supplied) for row in tree.charges if not row.within),
        tuple(_beside(tree)),
    )


def _here(tree: StatedTreeView) -> str:
    if tree.to_come:
        return phrase("It has not come to us yet.")
    went = full_day(tree.went) if tree.went else ""
    if tree.came is None and went:
        return phrase("With us until {day}; the day it came is not written.", day=went)
    if tree.came is None:
        return phrase("With us; the day it came is not written.")
    came = full_day(tree.came)
    if not went:
        return phrase("With us since {came}.", came=came)
    return phrase("With us from {came} to {full_day}.", came=came, full_day=went)


def _beside(tree: StatedTreeView) -> Iterator[str]:
    for row in tree.ahead:
        what = f"{row.what}, " if row.what else ""
        yield phrase(
            "Agreed, and in the sum once the tree is ready: {what}{money}.",
            what=what,
            money=_money(row.amount, row),
        )
    within = _within([row for row in tree.charges if row.within])
    if within:
        yield within
    for row in tree.left_out:
        what = f"{row.what}, " if row.what else ""
        agreed = phrase("{what}agreed at {money}", what=what, money=_money(row.unit_price, row))
        if row.sort == "skipped":
            yield phrase("Not done, and not in the sum: {agreed}.", agreed=agreed)
        else:
            yield phrase(
                "Not in the sum: {agreed}; what was billed stands above in its place.",
                agreed=agreed,
            )


def _money(amount: Decimal | None, row: ChargeView) -> str:
    return words.money(amount or Decimal(0), row.currency)


def _within(rows: Sequence[ChargeView]) -> str:
    """Hours and materials that a price stands for, each material once."""
    hours, materials = stood_for(rows)
    parts = (
        [
            phrase(
                "{hours_and_minutes} of work",
                hours_and_minutes=hours_and_minutes(round(hours * 60)),
            )
        ]
        if hours > SHARED_GLANCE
        else []
    )
    parts += [plain_amount(much, unit, what) for (what, unit), much in materials.items()]
    return phrase("In the price: {parts}.", parts="; ".join(parts)) if parts else ""


def _row(row: ChargeView, year: int, worked: tuple[date, date] | None = None) -> ChargeRow:
    """A line. `worked`: the first and last day of work, which a price was not agreed on."""
    what = row.what or phrase(_NAMED.get(row.sort, ""))
    when = words.day(row.day, year)
    if row.sort == "period" and row.until is not None:
        when = words.between(row.day, row.until, year)
    elif row.sort == "price":
        when = words.between(*worked, year) if worked else ""
    counts = row.sort in ("hours", "material", "period")
    return ChargeRow(
        when,
        words.sentence(what),
        _amount(row.quantity, row.unit) if counts else "",
        _each(row) if counts else "",
        f"{row.tax_rate.normalize():f} %" if row.tax_rate is not None else "",
        words.money(row.amount, row.currency) if row.amount is not None else phrase("not priced"),
    )


def _each(row: ChargeView) -> str:
    """The price of one, where it is one that can be paid: what a gram costs is no sum of money."""
    price = row.unit_price
    if price is None or rounded(price, row.currency) != price:
        return ""
    return words.price(price, row.currency)


def _amount(quantity: Decimal, unit: str) -> str:
    """`1 h 20 min`, `3 L`, `4.39 months`."""
    if unit == "h":
        return hours_and_minutes(round(quantity * 60), short=True)
    figure = f"{quantity.quantize(_HUNDREDTH).normalize():f}"
    if unit in ("week", "month", "year"):
        return f"{figure} {unit if figure == '1' else unit + 's'}"
    return f"{figure} {unit}".strip()


def _sums(sums: StatedSumsView, view: StatementView) -> Iterator[SumRow]:
    currency = sums.currency

    def money(amount: Decimal) -> str:
        return words.money(amount, currency)

    for one in sums.taxes:
        if one.rate is not None:
            rate = f"{one.rate.normalize():f} %"
            yield SumRow(
                f"{words.sentence(view.tax_name)} {rate}",
                phrase("on {money}", money=money(one.net)),
                money(one.tax),
            )
    yield SumRow(phrase("Comes to"), "", money(sums.comes_to))
    yield from _booked(view.bills, currency)
    yield from _booked(view.payments, currency)
    if sums.before:
        said = phrase("open from before") if sums.before > 0 else phrase("paid ahead before")
        yield SumRow(phrase("Brought forward"), said, money(abs(sums.before)))
    ahead = [row for tree in view.trees for row in tree.ahead if row.currency == currency]
    yield from _last(sums, view.day, owes_work=bool(ahead or sums.to_bill > 0))


def _last(sums: StatedSumsView, today: date, *, owes_work: bool) -> Iterator[SumRow]:
    """What is asked for: never what was not billed, which is told by itself. `owes_work`: what was
    paid ahead has work to come that it was paid for."""
    nothing_billed = not sums.billed and not sums.before
    billed_last = sums.to_bill <= 0
    if sums.open > 0:
        open_sum = words.money(sums.open, sums.currency)
        yield SumRow(phrase("To pay"), _by(sums.due_until, today), open_sum, last=True)
    elif sums.open < 0:
        label = phrase("Paid ahead") if owes_work else phrase("Stands to your credit")
        yield SumRow(label, "", words.money(-sums.open, sums.currency), last=billed_last)
    elif not nothing_billed:
        said = phrase("nothing: all that was billed is paid, thank you")
        yield SumRow(phrase("To pay"), said, words.money(sums.open, sums.currency), last=True)
    if not billed_last:
        label = phrase("So far, not billed yet") if nothing_billed else phrase("Not billed yet")
        yield SumRow(label, "", words.money(sums.to_bill, sums.currency), last=nothing_billed)


def _by(until: date | None, today: date) -> str:
    if until is None:
        return ""
    day = full_day(until)
    return (
        phrase("please by {day}", day=day)
        if until >= today
        else phrase("it was to be paid by {day}", day=day)
    )


def _booked(booked: Iterable[BookedView], currency: str) -> Iterator[SumRow]:
    for one in booked:
        if one.currency != currency:
            continue
        label = phrase({"bill": "Billed", "credit": "Credited", "payment": "Paid"}[one.sort])
        said = [full_day(one.day)]
        if one.number:
            said.append(phrase("number {number}", number=one.number))
        if one.of_bill:
            said.append(phrase("on bill {of_bill}", of_bill=one.of_bill))
        if one.how:
            said.append(one.how)
        if one.first is not None:
            said.append(
                phrase("corrected; first billed {money}", money=words.money(one.first, currency))
            )
        amount = "" if one.amount is None else words.money(abs(one.amount), currency)
        yield SumRow(label, ", ".join(said), amount)
