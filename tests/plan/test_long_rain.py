"""In long rain pots in the open are looked at, once a spell; by what was measured alone."""

from __future__ import annotations

import pytest

CARDS = """
place yard
  cover     {cover}
  latitude  52 N
  low   1 1 3 4 7 10 12 12 10 7 4 2 C
  high  7 7 10 13 16 19 21 21 18 14 10 7 C
tree crow
  kind   trident maple
  place  yard
2026-01-10
crow
  noted  well
"""


def rain(days: int, mm: float) -> str:
    """So many days of so much rain from 1 May on."""
    return "".join(
        f"2026-05-{n:02}  low 9 C, high 14 C, rain {mm} mm\n" for n in range(1, days + 1)
    )


@pytest.mark.parametrize(
    ("cover", "weather", "asked"),
    [
        # 10 mm a day: eight wet days and 80 mm by 8 May.
        ("open", rain(12, 10), ["2026-05-08"]),
        ("shade net 30 %", rain(12, 10), ["2026-05-08"]),
        # 7 mm a day: never 80 mm in ten days.
        ("open", rain(12, 7), []),
        # One cloudburst is no long rain.
        ("open", "2026-05-01  low 9 C, high 14 C, rain 90 mm\n", []),
        # Seven wet days are not eight.
        ("open", rain(7, 20), []),
        # From 1 to 30 May: on the 8th, and again three weeks later, on the 29th.
        ("open", rain(30, 10), ["2026-05-08", "2026-05-29"]),
        # No rain falls under glass.
        ("unheated glass", rain(12, 10), []),
    ],
)
def test_long_rain_asks_for_a_look(written, cover: str, weather: str, asked: list[str]) -> None:
    text = CARDS.format(cover=cover) + weather
    session = written(text, "2026-05-31", settings='home = "yard"\n')
    found = [f for f in session.plan().all() if "/long-rain/" in f.id]
    assert [f.window.opens.isoformat() for f in found] == asked
    assert all((f.window.closes - f.window.opens).days == 10 for f in found)
    assert all("80 mm fell here" in f.because[-1].text or asked[1:] for f in found)


def test_it_is_asked_where_the_tree_stands_then_and_not_where_it_wintered(written) -> None:
    """It stood under glass on New Year's Day, and goes out in April, or the other way round."""
    glass = "place glass\n  within  yard\n  cover   unheated glass\n"

    def asked(first: str, then: str) -> list[str]:
        cards = glass + CARDS.format(cover="open").replace(
            "place  yard\n2026", f"place  {first}\n2026"
        )
        moved = f"2026-04-01\ncrow\n  moved  {then}\n"
        session = written(cards + moved + rain(12, 10), "2026-05-31", settings='home = "yard"\n')
        return [f.window.opens.isoformat() for f in session.plan().all() if "/long-rain/" in f.id]

    assert asked("glass", "yard") == ["2026-05-08"]
    assert asked("yard", "glass") == []


@pytest.mark.parametrize(
    ("wet", "asked"),
    [
        # Eight days of 10 mm: up to 31 December, up to New Year's Day, and up to the day after.
        (["2026-12-24", "2026-12-25", "2026-12-26", "2026-12-27", "2026-12-28", "2026-12-29",
          "2026-12-30", "2026-12-31"], "2026-12-31"),
        (["2026-12-25", "2026-12-26", "2026-12-27", "2026-12-28", "2026-12-29", "2026-12-30",
          "2026-12-31", "2027-01-01"], "2027-01-01"),
        (["2026-12-26", "2026-12-27", "2026-12-28", "2026-12-29", "2026-12-30", "2026-12-31",
          "2027-01-01", "2027-01-02"], "2027-01-02"),
    ],
)  # fmt: skip
def test_rain_round_new_year_is_told_once(written, wet: list[str], asked: str) -> None:
    """Each day belongs to one growing year."""
    weather = "".join(f"{day}  low 1 C, high 6 C, rain 10 mm\n" for day in wet)
    session = written(
        CARDS.format(cover="open") + weather, "2027-01-05", settings='home = "yard"\n'
    )
    found = [f for f in session.plan().all() if "/long-rain/" in f.id]
    assert [f.window.opens.isoformat() for f in found] == [asked]
