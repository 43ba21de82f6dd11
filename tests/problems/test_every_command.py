"""Every command tells the same problems of a journal, and ends with the same status."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest

import backbud.make
import backbud.session
from backbud import cli
from backbud.consent.files import read_plugins
from backbud.consent.record import record
from backbud.person import CONFIG_VARIABLE
from backbud.session import Session

SETTINGS = 'language = 1\nhome = "yard"\ncurrency = "EUR"\n'
CARDS = """\
place yard
  latitude  52 N
place glass
  cover     unheated glass
material lava
  sold in   bag of 20 L
  price     14 EUR
tree hoshi
  kind      trident maple
  place     yard
tree yuki
  kind      chinese elm
  place     yard
"""
DIARY = """\
2026-05-01
hoshi, yuki
  wired     3 mm Al
"""
RULE_OF_YUKI = """\
from backbud.species import CARE, after, days_after, Proposal

@after("wired", rule="own-look")
def own_look(tree, done, year):
    if tree.handle == "yuki":
        raise KeyError("nothing so called")
    yield Proposal("checked", days_after(done.day, 1, 2, 3), "A look.", weight=CARE)
"""
SECTION = """\
def section(tree, year):
    raise ValueError("no lines")
"""
SPECIES = """\
from backbud.species import Species, each

class Own(Species):
    botanical = "Arbor exempli"
    common = ("own tree",)

    @each("summer", rule="own-rule")
    def own_rule(self, tree, season, year):
        raise ValueError("no summer")
        yield
"""
# Each sort of problem: files beside the sound ones or instead of them, and the codes it is told by.
JOURNALS: dict[str, tuple[dict[str, str], list[str]]] = {
    "none": ({}, []),
    "language": (
        {"diary.txt": DIARY + "  moved  yrd\n  turnd\n"},
        ["unknown-act", "unknown-handle"],
    ),
    "card": (
        {"cards.txt": CARDS + "tree kaze\n  knd  trident maple\n"},
        ["no-kind", "unknown-label"],
    ),
    "replay": (
        {"diary.txt": DIARY + "2026-06-01\nyuki\n  died\n2026-06-02\nyuki\n  watered\n"},
        ["not-here"],
    ),
    "a coming of who is here": (
        {"diary.txt": DIARY + "2026-06-01\nyuki\n  bought  90 EUR\n"},
        ["here-already"],
    ),
    "nothing on that part": (
        {
            "diary.txt": DIARY.replace("3 mm Al", "3 mm Al on left 1")
            + "2026-06-01\nyuki\n  unwired  on right 9\n"
        },
        ["held-back"],
    ),
    "weather file": (
        {"cards.txt": CARDS.replace("52 N", "52 N\n  weather a.csv"), "a.csv": "no weather\n"},
        ["unknown-weather-form"],
    ),
    "a place without weather": (
        {"cards.txt": CARDS.replace("unheated glass", "unheated glass\n  longitude -4 E")},
        ["two-signs"],
    ),
    "a height of a place without weather": (
        {"cards.txt": CARDS.replace("unheated glass", "unheated glass\n  elevation 20000 m")},
        ["impossible-value"],
    ),
    # Home is no place with a card, and yet two lines differ on one day there.
    "day lines and no place": (
        {
            "backbud.toml": "language = 1\n",
            "cards.txt": "tree hoshi\n  kind      trident maple\n",
            "diary.txt": "2026-05-01  low 3 C\nhoshi\n  wired     3 mm Al\n2026-05-01  low 4 C\n",
        },
        ["repeated-day", "unknown-hemisphere"],
    ),
    "hemisphere": ({"cards.txt": CARDS.replace("  latitude  52 N\n", "")}, ["unknown-hemisphere"]),
    "species": (
        {"cards.txt": CARDS.replace("chinese elm", "chinse elm")},
        ["unknown-species"],
    ),
    "figures": ({"backbud.toml": SETTINGS + "[figures]\npot_margn_c = 4\n"}, ["unknown-figure"]),
    # More is used than was ever bought: the shelf says so, and it is no problem of the journal.
    "stores": (
        {"diary.txt": DIARY + "2026-06-01\nlava\n  bought  1\nhoshi\n  used  lava 900 L\n"},
        [],
    ),
    "a rule of a plugin": ({"plugins/own.py": RULE_OF_YUKI}, ["rule-failed"]),
    "a section of a plugin": ({"plugins/own.py": SECTION}, ["section-failed"]),
    "a species of a plugin": (
        {"plugins/own.py": SPECIES, "cards.txt": CARDS.replace("chinese elm", "own tree")},
        ["rule-failed"],
    ),
    "a plugin that cannot be imported": (
        {"plugins/own.py": "import nothing_so_called\n"},
        ["plugin-failed"],
    ),
}
COMMANDS = (
    ["check"],
    ["make"],
    ["due"],
    ["due", "--tree", "hoshi"],
    ["tree", "hoshi"],
    ["stores"],
    ["why", "hoshi/wire-check/"],
)


@pytest.mark.parametrize("sort", JOURNALS)
def test_every_command_tells_the_same(
    sort: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv(CONFIG_VARIABLE, str(tmp_path / "config"))
    opened: list[Session] = []

    def open_session(*arguments: object, **options: object) -> Session:
        opened.append(REAL(*arguments, **options))
        return opened[-1]

    monkeypatch.setattr(backbud.session, "open_session", open_session)
    monkeypatch.setattr(backbud.make, "open_session", open_session)
    files, codes = JOURNALS[sort]
    folder = tmp_path / "journal"
    for name, text in {
        "backbud.toml": SETTINGS,
        "cards.txt": CARDS,
        "diary.txt": DIARY,
        **files,
    }.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text)
    if (folder / "plugins").exists():
        record(str(folder), read_plugins(str(folder)).files)
    told = {}
    # What one command leaves in the memory changes nothing for the next, nor does its absence.
    for forgets, commands in ((True, COMMANDS), (False, COMMANDS[:3])):
        for command in commands:
            if forgets:
                shutil.rmtree(folder / ".backbud", ignore_errors=True)
            status = cli.main([*command, str(folder), "--on", "2026-11-20"])
            printed = "".join(capsys.readouterr())
            count = re.search(r"(\d+) problems? in ", printed)
            problems = [
                (p.code, p.file, p.line, p.column, p.message) for p in opened[-1].problems()
            ]
            assert int(count[1] if count else 0) == len(problems), (command, printed)
            assert status == (1 if problems else 0), (command, printed)
            told[*command, forgets] = problems
    assert sorted(problem[0] for problem in told["check", True]) == codes
    assert all(problems == told["check", True] for problems in told.values()), told


REAL = backbud.session.open_session


def test_json_of_check_and_of_make_hold_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv(CONFIG_VARIABLE, str(tmp_path / "config"))
    folder = tmp_path / "journal"
    (folder / "plugins").mkdir(parents=True)
    for name, text in {
        "backbud.toml": SETTINGS,
        "cards.txt": CARDS,
        "diary.txt": DIARY + "  turnd\n",
        "plugins/own.py": RULE_OF_YUKI,
    }.items():
        (folder / name).write_text(text)
    record(str(folder), read_plugins(str(folder)).files)
    found = []
    for command in ("check", "make"):
        assert cli.main([command, str(folder), "--on", "2026-11-20", "--json"]) == 1
        found.append(json.loads(capsys.readouterr().out))
    assert [one["code"] for one in found[0]] == ["unknown-act", "rule-failed"]
    assert found[1]["problems"] == found[0]
