"""The papers that go with somebody's tree, as frozen data: receipt, statement, care, provenance.

They are written to somebody who owns one tree, about that tree and nothing else; no line of the
diary is pointed to, and no remark, place or other person is in them.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Literal

from msgspec import Struct

from backbud.views.history import DateView
from backbud.views.photograph import PairView, PhotographView
from backbud.views.plain_words import DoneLine
from backbud.views.visit import BookedView, ChargeView

PaperSort = Literal["receipt", "statement", "care", "provenance"]
LAW_OF_BILLS = (
    "What must stand on a bill, how tax is told, and how long a bill is kept, local rules decide."
)
LAW_OF_PLANTS = "On plant passports, and on moving a plant over a border, local rules decide."
ADVICE = (
    "What is advised here is common practice of the trade, where no source is named. The tree in "
    "front of you comes first: if it tells you something else, believe it, and ask us."
)


class PartyView(Struct, frozen=True):
    """Who writes a paper or gets it. `address`: street and house. `house`: the name of the
    collection, `tax_number`: under which the keeper is registered for tax, `contact`, `telephone`,
    `email`: how to reach the keeper, `pay`: how a bill is paid; all "" of an owner."""

    name: str
    town: str
    house: str = ""
    tax_number: str = ""
    contact: str = ""
    address: str = ""
    telephone: str = ""
    email: str = ""
    pay: str = ""


class PaperTreeView(Struct, frozen=True):
    """The tree a paper is about. `sizes`: as written, with their units."""

    tree: str
    name: str
    kind: str
    cultivar: str
    botanical: str
    sizes: dict[str, str]


class ReceiptView(Struct, frozen=True, kw_only=True):
    """What was taken in, to be signed on both sides.

    `condition`: in words, "" where nothing was written. `on_it`: what was on it as it came. `pot`:
    what pot, `pot_owner`: whose, "" where nobody says. `insured`: null where nothing is said.
    `agreed`: each agreement in words. `apart_until`: kept apart until then, null where it is not.
    `missing`: what a receipt should say and the diary does not.
    """

    day: date
    issuer: PartyView
    to: PartyView
    tree: PaperTreeView
    came: date | None
    condition: str
    photographs: tuple[PhotographView, ...]
    on_it: tuple[str, ...]
    pot: str
    pot_owner: str
    insured: Decimal | None
    insured_currency: str
    insured_by: str
    agreed: tuple[str, ...]
    risks: tuple[str, ...]
    deposit: Decimal | None
    deposit_currency: str
    deposit_paid: tuple[BookedView, ...]
    wanted: DateView | None
    apart: bool
    apart_until: date | None
    missing: tuple[str, ...]
    law: str = LAW_OF_PLANTS


class StatedTreeView(Struct, frozen=True):
    """One visit in a statement: what was done, its hours, and the lines that are in its sum, with
    those within a price.

    `ahead`: prices that were agreed for what is not done yet; `left_out`: those that were agreed
    and are not billed, or that were skipped; neither is in the sum. `to_come`: it is not here yet.
    `supplied`: the first and the last day of work, null where none is told of.
    """

    tree: PaperTreeView
    came: date | None
    went: date | None
    done: tuple[DoneLine, ...]
    hours: Decimal
    charges: tuple[ChargeView, ...]
    ahead: tuple[ChargeView, ...] = ()
    left_out: tuple[ChargeView, ...] = ()
    to_come: bool = False
    supplied: tuple[date, date] | None = None


class TaxSumView(Struct, frozen=True):
    """What stands under one rate of tax; `rate`: percent, null where no tax is written down."""

    rate: Decimal | None
    net: Decimal
    tax: Decimal
    gross: Decimal


class StatedSumsView(Struct, frozen=True, kw_only=True):
    """The sums of a statement in one currency, exact.

    `comes_to`: of its lines, tax and all; it is what was billed and `to_bill`, what was not billed
    yet. `billed`, `paid`: of what it lists. `before`: what was open from earlier visits, below 0
    where more was paid. `due`: billed and still to bill, and what was open before, less what was
    paid; below 0 it is to be given back. `open`: of that what was billed, below 0 where it was paid
    ahead. `due_until`: by when the oldest open bill was or is to be paid, null where none is open.
    """

    currency: str
    taxes: tuple[TaxSumView, ...]
    comes_to: Decimal
    billed: Decimal
    paid: Decimal
    before: Decimal
    to_bill: Decimal
    due: Decimal
    open: Decimal = Decimal(0)
    due_until: date | None = None


class StatementView(Struct, frozen=True, kw_only=True):
    """An account of the work on somebody's trees.

    `numbers`: of the bills in it. `from_day`: of the first visit in it, null where it was here
    before the diary speaks of it. `tax_name`; `tax_within`: prices have it in them already.
    `unpriced`: how many lines no price is known of. `due_until`: by when the oldest open bill is to
    be paid, null where none is open. `others`: lines of bills that are written of the person.
    """

    day: date
    person: str
    issuer: PartyView
    to: PartyView
    numbers: tuple[str, ...]
    from_day: date | None
    trees: tuple[StatedTreeView, ...]
    bills: tuple[BookedView, ...]
    payments: tuple[BookedView, ...]
    sums: tuple[StatedSumsView, ...]
    tax_name: str
    tax_within: bool
    unpriced: int
    due_until: date | None
    others: tuple[ChargeView, ...] = ()
    law: str = LAW_OF_BILLS


CareStage = Literal["here", "ready", "home"]


class CareItem(Struct, frozen=True):
    """One piece of advice: what, when (`4 to 20 May`, "" for always), and why or how, "" for
    somebody who knows."""

    what: str
    when: str
    why: str


class CareView(Struct, frozen=True, kw_only=True):
    """How to keep a tree that goes home.

    `stage`: whether it is still here and not ready, ready to go, or at home. `photograph`: the last
    that its owner may see, null where there is none. `winter`: what winter asks for.
    `place`: by whose weather the dates are, in words. `fuller`: written for a beginner. `done`:
    what was done here. `do`, `leave`: what to do and what not. `water`: how to water this pot;
    `stands`: where it is best kept, and what its kind asks for.
    `trouble`: signs, each with what it means. `back`: when to bring it. `cautions`: what can hurt
    people or animals.
    """

    day: date
    issuer: PartyView
    to: PartyView
    tree: PaperTreeView
    stage: CareStage
    photograph: PhotographView | None
    place: str
    fuller: bool
    done: tuple[DoneLine, ...]
    do: tuple[CareItem, ...]
    winter: tuple[CareItem, ...]
    leave: tuple[CareItem, ...]
    water: tuple[str, ...]
    stands: tuple[str, ...]
    trouble: tuple[CareItem, ...]
    back: tuple[CareItem, ...]
    cautions: tuple[str, ...]
    advice: str = ADVICE
    law: str = LAW_OF_PLANTS


class YearDone(Struct, frozen=True):
    """What was done to a tree in one year, in plain words."""

    year: int
    done: tuple[DoneLine, ...]


class ProvenanceView(Struct, frozen=True, kw_only=True):
    """Where a tree comes from and what became of it: for a sale or a show.

    `here_since`: as written on its card, null where nobody says. `passports`: plant passport or
    import numbers. `grown`: sizes by the day they were measured. `pairs`: the same side then and
    now. `shown`: exhibitions, with awards.
    """

    day: date
    issuer: PartyView
    tree: PaperTreeView
    style: str
    pot: str
    origin: str
    passports: tuple[str, ...]
    here_since: DateView | None
    grown: tuple[tuple[DateView, str], ...]
    years: tuple[YearDone, ...]
    shown: tuple[DoneLine, ...]
    portrait: PhotographView | None
    pairs: tuple[PairView, ...]
    law: str = LAW_OF_PLANTS


class PapersView(Struct, frozen=True):
    """All papers of one person: a receipt of each visit and a care sheet and the provenance of each
    tree, and one statement of them all."""

    person: str
    name: str
    receipts: tuple[ReceiptView, ...]
    statement: StatementView | None
    care: tuple[CareView, ...]
    provenance: tuple[ProvenanceView, ...]
