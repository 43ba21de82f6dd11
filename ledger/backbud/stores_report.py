"""The stores go in; the lines that a terminal prints, or JSON for a program, come out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal

from backbud.pages.stores import StoresSheet, sheet_of
from backbud.plan.stores.values import Buy, Material, StockedMaterial, Stores


def stores_lines(stores: Stores, year: int) -> Iterator[str]:
    """What to buy, what is on the shelf, and what could not be reckoned."""
    sheet = sheet_of(stores, year)
    if not (sheet.shelf or sheet.to_buy or sheet.missing):
        yield "Nothing is written of what is bought and used up: begin with a material card."
        return
    yield from _to_buy(sheet)
    yield ""
    yield "On the shelf" + (f", {sheet.value}" if sheet.value.amount else "")
    yield from _columns(
        [(one.amount, one.name, one.as_sold, one.value, one.wrong) for one in sheet.shelf]
    )
    if sheet.missing:
        yield ""
        yield "Not reckoned"
        for one in sheet.missing:
            trees = f": {', '.join(one.trees)}" if one.trees else ""
            yield f"  {one.what}{trees}"
            yield f"      write {one.to_write}"


def _to_buy(sheet: StoresSheet) -> Iterator[str]:
    if not sheet.to_buy:
        reckoned = ", of what could be reckoned" if sheet.unreckoned else ""
        yield f"Nothing to buy for the works until {sheet.until}{reckoned}."
        return
    cost = f", {sheet.cost}" if sheet.cost.amount else ""
    yield f"To buy for the works until {sheet.until}{cost}"
    yield from _columns([(one.count, one.name, one.cost, one.why) for one in sheet.to_buy])


def _columns(rows: Sequence[tuple[str, ...]]) -> Iterator[str]:
    """The rows with their first column to the right, and the others lined up."""
    widths = [max(len(row[n]) for row in rows) for n in range(len(rows[0]))] if rows else []
    for row in rows:
        first, *rest = row
        cells = [cell.ljust(width) for cell, width in zip(rest, widths[1:], strict=True)]
        yield "  ".join(["", first.rjust(widths[0]), *cells]).rstrip()


def stores_json(stores: Stores) -> dict[str, object]:
    """The stores for a program: quantities in the unit of each, money as text, to be exact.

    What was written of a mix is told as it left the bags: with a usual sieving loss, from memory.
    """
    return {
        "currency": stores.currency,
        "until": stores.until.isoformat() if stores.until else None,
        "margin_percent": stores.margin_percent,
        "value": _money(stores.value),
        "cost": _money(stores.cost),
        "shelf": [_kept(kept) for kept in stores.shelf],
        "buy": [_buy(buy) for buy in stores.buying],
        "missing": [
            {
                "what": one.what,
                "write": one.to_write,
                "trees": list(one.trees),
                "times": one.times,
            }
            for one in stores.missing
        ],
    }


def _kept(kept: StockedMaterial) -> dict[str, object]:
    return {
        **_material(kept.material),
        "on_hand": _rounded(kept.on_hand),
        "bought": _rounded(kept.bought),
        "used_as_written_plus_sieving": _rounded(kept.written),
        "used_as_reckoned": _rounded(kept.reckoned),
        "uses_not_taken_off": kept.untold,
        "used_in_a_year": _rounded(kept.year),
        "since": kept.since.isoformat() if kept.since else None,
        "counted": kept.counted.isoformat() if kept.counted else None,
        "price": _money(kept.price),
        "value": _money(kept.value),
    }


def _buy(buy: Buy) -> dict[str, object]:
    return {
        **_material(buy.material),
        "wanted": _rounded(buy.wanted),
        "with_margin": _rounded(buy.with_margin),
        "on_hand": _rounded(buy.on_hand),
        "short": _rounded(buy.short),
        "count": buy.count,
        "cost": _money(buy.cost),
        "for": [
            {
                "id": want.follow_up,
                "tree": want.tree,
                "title": want.title,
                "day": want.day.isoformat(),
                "quantity": _rounded(want.quantity),
                "because": want.because,
            }
            for want in buy.wants
        ],
    }


def _material(material: Material) -> dict[str, object]:
    return {
        "material": material.key,
        "name": material.title,
        "has_card": material.carded,
        "unit": material.unit or "piece",
        "sold_in": material.container or None,
        "units_in_one": _rounded(material.sold_units),
    }


def _rounded(quantity: float | None) -> float | None:
    return None if quantity is None else round(quantity, 3)


def _money(amount: Decimal | None) -> str | None:
    return None if amount is None else f"{amount:z.2f}"
