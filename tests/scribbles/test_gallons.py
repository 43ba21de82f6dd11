"""A gallon alone asks whose; where the settings say, it is read, and so are quarts and spoons.

A tablespoon is 1/256 of a US gallon, a teaspoon 1/768: 3.90625 and 1.30208 mL/L.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from backbud.session import Session
from backbud_grammar.scribbles.gallons import with_gallons

Written = Callable[..., Session]
TREE = "tree hoshi\n  kind trident maple\n2026-03-01\nhoshi\n  "


def test_a_gallon_alone_asks_whose(written: Written) -> None:
    session = written(f"{TREE}watered 2 gal\n", problems=("unknown-unit",))
    [hint] = [one.hint for one in session.problems() if one.code == "unknown-unit"]
    assert hint == (
        "Write US gal or UK gal (the UK one is a fifth larger), or say whose in backbud.toml."
    )


@pytest.mark.parametrize(
    ("gallon", "line", "read"),
    [
        ("US", "watered 2 gal", "2 US gal"),
        ("UK", "watered 2 gal", "2 UK gal"),
        ("US", "soaked 1/2 gallon", "1/2 US gal"),
        ("US", "watered 2 qt", "0.5 US gal"),
        ("UK", "watered 1 1/2 quarts", "0.375 UK gal"),
        ("US", "treated soap 2 tbs/gal", "soap 7.81 mL/L"),
        ("US", "treated soap 1/4 tsp/gal", "soap 0.33 mL/L"),
    ],
)
def test_the_settings_say_whose(written: Written, gallon: str, line: str, read: str) -> None:
    session = written(f"{TREE}{line}\n", settings=f'\n[units]\ngallon = "{gallon}"\n')
    [entry] = session.histories.trees["hoshi"].entries
    assert entry.event.text == read


def test_another_gallon_is_none(written: Written) -> None:
    written(f"{TREE}watered\n", settings='\n[units]\ngallon = "wet"\n', problems=("bad-settings",))


def test_a_quart_is_that_of_pint() -> None:
    import pint

    of = pint.get_application_registry()
    assert with_gallons("6 qt", "US") == f"{of('6 quart').to('gallon').magnitude:g} US gal"
    assert with_gallons("6 qt", "UK") == (
        f"{of('6 imperial_quart').to('imperial_gallon').magnitude:g} UK gal"
    )


@pytest.mark.parametrize("spoon", ["tablespoon", "teaspoon"])
def test_spoons_are_those_of_pint(spoon: str) -> None:
    import pint

    of_litre = pint.get_application_registry()(f"{spoon}/gallon").to("mL/L").magnitude
    said = with_gallons(f"1 {'tbsp' if spoon == 'tablespoon' else 'tsp'}/gal", "US")
    assert said == f"{of_litre:.2f} mL/L"
