"""Writes a bill as a UBL 2.1 invoice, with the amounts of EN 16931: a net amount for each line, the
tax of each rate on their sum, and what was paid ahead.

Written with the standard library: the libraries that write UBL want numbers of traders, countries
and routes that a diary does not have.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from xml.etree import ElementTree as ET

from backbud.bench.money import rounded
from backbud.tongue import phrase
from backbud.views.paper import PartyView, StatedSumsView, StatementView
from backbud.views.visit import ChargeView

_UBL = "urn:oasis:names:specification:ubl:schema:xsd"
_INVOICE = f"{_UBL}:Invoice-2"
_CAC = f"{_UBL}:CommonAggregateComponents-2"
_CBC = f"{_UBL}:CommonBasicComponents-2"
# UN/ECE Recommendation 20: units of measure.
_UNITS = {
    "h": "HUR", "week": "WEE", "month": "MON", "year": "ANN", "L": "LTR", "mL": "MLT", "kg": "KGM",
    "g": "GRM", "m": "MTR", "cm": "CMT", "mm": "MMT",
}  # fmt: skip
_ONE = "C62"


def invoice_of(view: StatementView) -> bytes | None:
    """The invoice; None where the statement is not one bill: with one number, in one currency, for
    what its lines come to, and nothing credited."""
    billed = [one for one in view.bills if one.sort == "bill"]
    if len(view.numbers) != 1 or len(view.sums) != 1 or len(billed) != len(view.bills):
        return None
    (sums,) = view.sums
    if not billed or view.unpriced or sums.billed != sums.comes_to:
        return None
    return _written(view, sums)


def _written(view: StatementView, sums: StatedSumsView) -> bytes:
    for prefix, space in (("", _INVOICE), ("cac", _CAC), ("cbc", _CBC)):
        ET.register_namespace(prefix, space)
    root = ET.Element(f"{{{_INVOICE}}}Invoice")
    currency = sums.currency
    issued = min(one.day for one in view.bills)
    _text(root, "CustomizationID", "urn:cen.eu:en16931:2017")
    _text(root, "ID", view.numbers[0])
    _text(root, "IssueDate", issued.isoformat())
    if view.due_until is not None:
        _text(root, "DueDate", view.due_until.isoformat())
    _text(root, "InvoiceTypeCode", "380")
    for note in _notes(view):
        _text(root, "Note", note)
    _text(root, "DocumentCurrencyCode", currency)
    _party(root, "AccountingSupplierParty", view.issuer)
    _party(root, "AccountingCustomerParty", view.to)
    lines = list(_lines(view, sums))
    total = _part(root, "TaxTotal")
    _money(total, "TaxAmount", sum((one.tax for one in sums.taxes), Decimal(0)), currency)
    for one in sums.taxes:
        part = _part(total, "TaxSubtotal")
        _money(part, "TaxableAmount", one.net, currency)
        _money(part, "TaxAmount", one.tax, currency)
        _category(_part(part, "TaxCategory"), one.rate, reason=True)
    net = sum((amount for _, amount in lines), Decimal(0))
    monetary = _part(root, "LegalMonetaryTotal")
    _money(monetary, "LineExtensionAmount", net, currency)
    _money(monetary, "TaxExclusiveAmount", net, currency)
    _money(monetary, "TaxInclusiveAmount", sums.comes_to, currency)
    if sums.paid:
        _money(monetary, "PrepaidAmount", sums.paid, currency)
    _money(monetary, "PayableAmount", sums.comes_to - sums.paid, currency)
    for number, (line, amount) in enumerate(lines, 1):
        _line(root, number, line, amount)
    ET.indent(root)
    written: bytes = ET.tostring(root, encoding="UTF-8", xml_declaration=True)
    return written + b"\n"


def _lines(view: StatementView, sums: StatedSumsView) -> Iterator[tuple[ChargeView, Decimal]]:
    """The lines and their net amounts, which add up to what is taxed under each rate: where prices
    have the tax in them, a rest of rounding goes to the largest line."""
    charges = [*(line for tree in view.trees for line in tree.charges), *view.others]
    charged = [
        line for line in charges if line.amount is not None and line.currency == sums.currency
    ]
    for one in sums.taxes:
        of_rate = [line for line in charged if line.tax_rate == one.rate]
        whole = Decimal(100) if not view.tax_within else 100 + (one.rate or Decimal(0))
        nets = [rounded((line.amount or 0) * 100 / whole, sums.currency) for line in of_rate]
        rest = one.net - sum(nets, Decimal(0))
        if rest:
            nets[nets.index(max(nets))] += rest
        yield from zip(of_rate, nets, strict=True)


def _line(root: ET.Element, number: int, line: ChargeView, net: Decimal) -> None:
    part = _part(root, "InvoiceLine")
    _text(part, "ID", str(number))
    quantity = line.quantity.quantize(Decimal("0.0001")).normalize()
    unit = _UNITS.get(line.unit, _ONE)
    _text(part, "InvoicedQuantity", f"{quantity:f}", unitCode=unit)
    _money(part, "LineExtensionAmount", net, line.currency)
    item = _part(part, "Item")
    named = {
        "hours": "work",
        "price": phrase("work as agreed"),
        "period": "keep",
        "billed": phrase("work as billed"),
        "also billed": phrase("also in the bill"),
        "rounding": phrase("rounded, bill by bill"),
    }
    _text(item, "Name", line.what or named.get(line.sort, line.sort))
    _category(_part(item, "ClassifiedTaxCategory"), line.tax_rate, reason=False)
    price = net / line.quantity if line.quantity else net
    amount = f"{price.quantize(Decimal('0.0001')).normalize():f}"
    _text(_part(part, "Price"), "PriceAmount", amount, currencyID=line.currency)


def _notes(view: StatementView) -> Iterator[str]:
    for tree in view.trees:
        came = phrase(" from {came}", came=tree.came) if tree.came else ""
        yield phrase(
            "{name}, {kind}: here{came} until {went}.",
            name=tree.tree.name,
            kind=tree.tree.kind,
            came=came,
            went=tree.went or view.day,
        )


def _party(root: ET.Element, name: str, party: PartyView) -> None:
    part = _part(_part(root, name), "Party")
    _text(_part(part, "PartyName"), "Name", party.house or party.name)
    if party.town or party.address:
        address = _part(part, "PostalAddress")
        for name_, text in (("StreetName", party.address), ("CityName", party.town)):
            if text:
                _text(address, name_, text)
    if party.tax_number:
        scheme = _part(part, "PartyTaxScheme")
        _text(scheme, "CompanyID", party.tax_number)
        _text(_part(scheme, "TaxScheme"), "ID", "VAT")
    _text(_part(part, "PartyLegalEntity"), "RegistrationName", party.name)
    if party.telephone or party.email:
        contact = _part(part, "Contact")
        for name_, text in (("Telephone", party.telephone), ("ElectronicMail", party.email)):
            if text:
                _text(contact, name_, text)


def _category(part: ET.Element, rate: Decimal | None, *, reason: bool) -> None:
    """S: the usual, Z: of nought, O: no tax on it (UNTDID 5305, as EN 16931 takes it)."""
    _text(part, "ID", "O" if rate is None else "S" if rate else "Z")
    if rate is not None:
        _text(part, "Percent", f"{rate.normalize():f}")
    elif reason:
        _text(part, "TaxExemptionReason", phrase("No tax is told of."))
    _text(_part(part, "TaxScheme"), "ID", "VAT")


def _part(parent: ET.Element, name: str) -> ET.Element:
    return ET.SubElement(parent, f"{{{_CAC}}}{name}")


def _text(parent: ET.Element, name: str, text: str, **attributes: str) -> None:
    ET.SubElement(parent, f"{{{_CBC}}}{name}", attributes).text = text


def _money(parent: ET.Element, name: str, amount: Decimal, currency: str) -> None:
    _text(parent, name, f"{rounded(amount, currency):f}", currencyID=currency)
