"""Dates at the ends of the calendar, figures that no bench has, folders without end go in; each is
told as a problem, and everything else is compiled."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from backbud import cli
from backbud.journal.read import read_journal
from backbud.make import make
from backbud_grammar.problems import Problem

DAY = date(2027, 6, 1)
SETTINGS = 'language = 1\nhome = "yard"\ncurrency = "EUR"\n'
CARDS = """\
place yard
  latitude 52 N
  low 1 1 2 4 6 9 11 11 9 7 4 2 C
  high 7 7 9 12 15 18 20 20 18 14 10 8 C
mix maple
  akadama 2
material akadama
  sold in bag of 14 L
  price 20 EUR
pot tray-1
  inside 30 x 20 x 5 cm
tree hoshi
  kind trident maple
  place yard
  pot tray-1
"""
SOUND = "2020-03-06\nhoshi\n  watered\n"
Compiled = Callable[..., list[tuple[str, int, str]]]


@pytest.fixture
def compiled(tmp_path: Path) -> Compiled:
    """Compile a diary; each problem by its code, line and message. One line is always sound."""

    def compile_it(diary: str = "", cards: str = "", **files: str) -> list[tuple[str, int, str]]:
        (tmp_path / "backbud.toml").write_text(SETTINGS, "utf-8")
        texts = {"cards.txt": CARDS + cards, "diary.txt": diary, "sound.txt": SOUND}
        for name, text in texts.items():
            (tmp_path / name).write_text(text, "utf-8")
        for name, text in files.items():
            (tmp_path / name.replace("_", ".")).write_text(text, "utf-8")
        made = make(str(tmp_path), DAY)
        assert b"watered" in (tmp_path / "made/trees/hoshi.html").read_bytes()
        return [_told(problem) for problem in made.problems]

    return compile_it


def _told(problem: Problem) -> tuple[str, int, str]:
    return problem.code, problem.line, problem.message


@pytest.mark.parametrize(
    ("day", "code", "message"),
    [
        ("2026-00-00", "no-such-date", "There is no 2026-00-00"),
        ("0000-01-01", "bad-date", "“0000-01-01” is not in the years 0001 to 9999"),
        ("0001-01-01", "far-date", "0001-01-01 is too far off to reckon with"),
        ("0099-12-31", "far-date", "0099-12-31 is too far off to reckon with"),
        ("0001-21", "far-date", "0001-21 is too far off to reckon with"),
        ("00XX", "bad-date", "“00XX” is not in the years 0001 to 9999"),
        ("9999-12-31", "far-date", "9999-12-31 is too far off to reckon with"),
        ("9999", "far-date", "9999 is too far off to reckon with"),
        ("9999-W52", "far-date", "9999-W52 is too far off to reckon with"),
        ("9800-12-31", "future-date", "9800-12-31 has not come yet (today is 2027-06-01)"),
        ("0100-01-01", "old-date", "0100-01-01 is long ago"),
    ],
)
def test_a_page_at_an_end_of_the_calendar(
    compiled: Compiled, day: str, code: str, message: str
) -> None:
    acts = "  staged 10\n  wired 3 mm Al\n  put-off repot, to 9999\n  planned repot, to 0001\n"
    first, *more = compiled(f"{day}\nhoshi\n{acts}")
    assert first == (code, 1, message)
    # Where the day can be reckoned with, the plans of year 9999 and year 1 are too far from it.
    far = {"9800-12-31": [5, 6], "0100-01-01": [5]}.get(day, [])
    assert [(what, line) for what, line, _ in more] == [("far-date", line) for line in far]


@pytest.mark.parametrize(
    ("act", "far"),
    [
        ("planned repot, to 9999-12-31", "9999-12-31"),
        ("planned repot, to 9999-12", "9999-12"),
        ("planned repot, to 0001-01-01", "0001-01-01"),
        ("planned repot, to ../9999", "../9999"),
        ("planned repot, to 0001/..", "0001/.."),
        # The page is of 2027.
        ("planned repot, to 2128", "2128"),
        ("put-off wire, to 9999-12-31", "9999-12-31"),
        ("checked wire, again 9999-12-31", "9999-12-31"),
        ("checked wire, again in 99999 weeks", "99999 weeks"),
        ("planned wire, in 99999999 weeks", "99999999 weeks"),
        ("planned wire, in 1201 months", "1201 months"),
        ("quarantined until 9999", "9999"),
    ],
)
def test_an_act_that_reaches_too_far_from_its_page_is_held_back(
    compiled: Compiled, act: str, far: str
) -> None:
    assert compiled(f"2027-03-06\nhoshi\n  {act}\n") == [
        (
            "far-date",
            3,
            f"{far} is too far off to reckon with, so this line is held back and changes nothing",
        )
    ]


@pytest.mark.parametrize(
    "act",
    ["planned repot, to 2127", "planned repot, to ../2127", "planned wire, in 1200 months",
     "checked wire, again in 5200 weeks"],
)  # fmt: skip
def test_an_act_may_reach_a_hundred_years_from_its_page(compiled: Compiled, act: str) -> None:
    assert compiled(f"2027-03-06\nhoshi\n  {act}\n") == []


def test_the_same_words_are_too_far_off_on_another_page_only(compiled: Compiled) -> None:
    diary = "1927-03-06\nhoshi\n  planned repot, to 2028\n\n"
    pages = diary + diary.replace("1927", "2027")
    assert [(code, line) for code, line, _ in compiled(pages)] == [("far-date", 3)]


def test_days_at_the_ends_of_the_calendar_on_cards(compiled: Compiled) -> None:
    line = CARDS.count("\n") + 1
    assert compiled("", "  since 0001\n  wanted 9999-12-31\n") == [
        ("far-date", line, "0001 is too far off to reckon with"),
        ("far-date", line + 1, "9999-12-31 is too far off to reckon with"),
    ]


def test_weather_of_year_1(compiled: Compiled) -> None:
    place = "place cold\n  latitude 52 N\n  weather days.csv\n"
    rows = "date,low,high,rain\n0001-01-01,1,9,4\n2027-03-05,1,9,4\n2027-03-06,1,9,4\n"
    assert ("far-date", 2, "0001-01-01 is too far off to reckon with") in compiled(
        cards=place, days_csv=rows
    )


NINES = "9" * 400


@pytest.mark.parametrize(
    ("act", "told"),
    [
        (f"repotted same pot, mix maple {NINES} L", ["bad-number"]),
        (f"wired {NINES} mm Al on left 1", ["bad-number"]),
        (f"watered 0.{NINES} L", ["bad-number"]),
        (f"used akadama {NINES} L", ["bad-number"]),
        (f"billed {NINES} EUR", ["bad-number"]),
        ("measured trunk 0 cm", []),
        ("measured root ball 0 x 0 x 0 cm", []),
        ("repotted same pot, mix maple 0 L", []),
        ("worked 0 h", []),
    ],
)
def test_a_figure_that_no_bench_has(compiled: Compiled, act: str, told: list[str]) -> None:
    found = compiled(f"2027-03-06\nhoshi\n  {act}\n")
    assert [code for code, _, _ in found if code != "unknown-handle"] == told
    if told:
        assert "…” has more digits than a measure can have" in found[0][2]


def test_the_largest_figures_can_be_reckoned_with(compiled: Compiled) -> None:
    nines = "9" * 9
    diary = (
        f"2027-03-06\nakadama\n  bought {nines} m3, {nines} EUR\nhoshi\n"
        f"  repotted same pot, mix maple {nines} L\n  used akadama {nines} L\n"
        f"  wired {nines} mm Al\n  worked {nines} h\n  measured height {nines} m\n"
    )
    cards = f"material y\n  sold in bag of 0.000000001 mL\n  price {nines} EUR\n"
    assert compiled(diary, cards) == []


@pytest.mark.parametrize(
    ("card", "code"),
    [
        ("place p\n  elevation 99999 m", "impossible-value"),
        ("place p\n  elevation -600 m", "impossible-value"),
        ("place p\n  cover heated glass 999 C", "out-of-range"),
        ("place p\n  cover shade net 101 %", "out-of-range"),
    ],
)
def test_a_place_that_cannot_be(compiled: Compiled, card: str, code: str) -> None:
    assert [told[0] for told in compiled(cards=f"{card}\n  latitude 52 N\n")] == [code]


def test_things_of_no_size(compiled: Compiled) -> None:
    cards = (
        "pot nought\n  inside 0 x 0 x 0 cm\nmix none\n  akadama 0\n"
        "tree sakura\n  kind trident maple\n  pot nought\n  mix none\n  place yard\n"
        "  spread 0 cm\n  height 0 cm\n  trunk 0 cm\n  root ball 0 x 0 x 0 cm\n"
    )
    diary = "2027-03-06\nsakura\n  repotted same pot, 2 cm off below\n  wired 0 mm Al\n  watered\n"
    codes = {code for code, _, _ in compiled(diary, cards)}
    assert "fault" not in codes and "rule-failed" not in codes


def test_a_mean_at_the_edge_of_what_air_can_be(compiled: Compiled) -> None:
    """The curve through monthly means swings beyond them; no sum may break on it."""
    low = " ".join(["-90", "57"] * 6)
    place = f"place p\n  latitude 52 N\n  low {low} C\n  high {low} C\n"
    tree = "tree sakura\n  kind trident maple\n  place p\n"
    assert compiled("2027-03-06\nsakura\n  watered\n", place + tree) == []


@pytest.mark.parametrize(
    ("figure", "codes"),
    [
        ("young_roots_c = -400", []),
        ("spread_of_pot = 1e308", ["bad-settings"]),
        ("spread_of_pot = nan", ["bad-settings"]),
        ("glass_high_c = 1000000000", []),
    ],
)
def test_a_figure_of_the_settings_that_makes_no_sense(
    compiled: Compiled, monkeypatch: pytest.MonkeyPatch, figure: str, codes: list[str]
) -> None:
    monkeypatch.setattr(f"{__name__}.SETTINGS", f"{SETTINGS}[figures]\n{figure}\n")
    cards = "place glass\n  within yard\n  cover unheated glass\n"
    tree = "tree sakura\n  kind trident maple\n  place glass\n"
    assert [told[0] for told in compiled(cards=cards + tree)] == codes


# ------------------------------------------------------------------ files and folders


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
def test_links_that_lead_round_in_a_ring(compiled: Compiled, tmp_path: Path) -> None:
    for link, to in (("a.txt", "b"), ("b", "a.txt"), ("self", "."), (".gitignore", ".gitignore")):
        (tmp_path / link).symlink_to(to)
    assert [code for code, _, _ in compiled()] == ["link", "link"]


@pytest.mark.skipif(os.name == "nt", reason="no such path can be made there")
def test_folders_without_end(compiled: Compiled, tmp_path: Path) -> None:
    at = os.open(tmp_path, os.O_RDONLY)
    try:
        for _ in range(1200):
            os.mkdir("f", dir_fd=at)
            inner = os.open("f", os.O_RDONLY, dir_fd=at)
            os.close(at)
            at = inner
        os.close(at)
        assert compiled() == [
            ("too-deep", 1, "this folder lies more than 100 folders down, and was left out")
        ]
    finally:
        # Deeper than Python's own way of removing can go.
        subprocess.run(["rm", "-rf", str(tmp_path / "f")], check=True)


# ------------------------------------------------------------------ the command line


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        (["due", "--on", "0001-01-01"], 2, "0001-01-01 is too far off to reckon with"),
        (["due", "--on", "9999-12-31"], 2, "9999-12-31 is too far off to reckon with"),
        (["due", "--on", "2026-00-00"], 2, "There is no 2026-00-00"),
        (["due", "--on", "0100-01-01"], 0, ""),
        (["stores", "--on", "9800-12-31"], 0, ""),
        (["make", "--on", "9800-12-31"], 0, ""),
        (["make", "--on", "0100-01-01"], 0, ""),
        (["due", "--on", "9800-12-31", "--within", "36500d"], 0, ""),
        (["due", "--within", "9" * 5000], 2, "--within is a number of days or weeks"),
    ],
)
def test_an_odd_day_is_misuse(
    compiled: Compiled, tmp_path: Path, capsys: pytest.CaptureFixture[str],
    words: list[str], status: int, said: str,
) -> None:  # fmt: skip
    compiled()
    assert cli.main([*words, str(tmp_path)]) == status
    assert said in capsys.readouterr().err


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="no device that is always full")
@pytest.mark.parametrize(
    ("ends", "status", "said"),
    [
        ("> /dev/full", 3, b"backbud: what there is to say cannot be written: No space left"),
        ("> /dev/full 2> /dev/full", 3, b""),
        (">&-", 0, b""),
        (">&- 2>&-", 0, b""),
    ],
)
def test_a_place_to_print_that_refuses(
    compiled: Compiled, tmp_path: Path, ends: str, status: int, said: bytes
) -> None:
    compiled()
    for word in ("check", "make", "make"):
        command = f'"{sys.executable}" -m backbud {word} "{tmp_path}" {ends}'
        environ = {**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, sys.path))}
        ended = subprocess.run(command, shell=True, capture_output=True, check=False, env=environ)
        assert (ended.returncode, ended.stderr[: len(said)]) == (status, said)
        assert b"Traceback" not in ended.stderr


@pytest.mark.parametrize("line", ["2026,9999999999 0", "2026-05-01\n9999999999.0"])
def test_a_day_of_ten_digits_is_no_date_and_no_fault(written, line) -> None:
    codes = {p.code for p in written(f"{line}\n", any_problems=True).problems()}
    assert "bad-date" in codes
    assert "fault" not in codes


def test_a_card_whose_day_has_not_come_is_told_but_not_in_a_look_back(tmp_path: Path) -> None:
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "a.txt").write_text("tree hoshi\n  kind trident maple\n  since 2031-02\n")
    (problem,) = read_journal(str(tmp_path), DAY).problems()
    assert (problem.code, problem.line, problem.column) == ("future-date", 3, 9)
    assert problem.message == "2031-02 has not come yet (today is 2027-06-01)"
    assert read_journal(str(tmp_path), DAY, as_of=True).problems() == ()
