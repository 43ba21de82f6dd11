"""The files for editors: as generated, complete, and with patterns that compile.

Nothing but Python is needed; what the editors make of them is tried by hand.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.editors.generate import HERE, files, write
from backbud_grammar.editors.patterns import (
    ACT_WORDS,
    DATE,
    DETAIL_WORDS,
    HEAD,
    MEASURE,
    UNITS,
    WEATHER_WORDS,
    in_lisp,
    in_posix,
    in_vim,
)
from backbud_grammar.kinds import KINDS
from backbud_grammar.measures import UNITS as ALL_UNITS

FILES = files()
GRAMMAR: dict[str, Any] = json.loads(FILES["vscode/backbud.tmLanguage.json"])
RULES: dict[str, Any] = GRAMMAR["repository"]
LABELS = [
    (kind.kind, label, form.prose)
    for kind in KINDS.values()
    for form in kind.forms
    for label in form.labels
]


@pytest.mark.parametrize("name", FILES)
def test_the_files_are_as_generated(name: str) -> None:
    assert (HERE / name).read_text(encoding="utf-8") == FILES[name]


def test_they_can_be_written_elsewhere(tmp_path: Path) -> None:
    write(tmp_path)
    written = [path for path in tmp_path.rglob("*") if path.is_file()]
    assert {path.relative_to(tmp_path).as_posix() for path in written} == set(FILES)


# ------------------------------------------------------------------ patterns


@pytest.mark.parametrize(
    "text",
    ["4.5 L", "4,5", "-6", "38 x 27 x 7 cm", "2 mm x 2", "2-3 weeks", "-6 to -2 C", "1/3", "2 g/L",
     "1:10", "20-10-20", "1 h 20", "1 h 20 min", "120 EUR", "45 EUR/h", "30 %", "10 US gal",
     *(f"3 {writing}" for unit in ALL_UNITS for writing in (unit.symbol, *unit.written))],
)  # fmt: skip
def test_measures(text: str) -> None:
    assert re.fullmatch(MEASURE, text)
    assert re.fullmatch(python(in_posix(MEASURE)), text)


@pytest.mark.parametrize("text", ["4 mx", "L", "3 moss", "two cm", "1,5,"])
def test_no_measures(text: str) -> None:
    assert not re.fullmatch(MEASURE, text)


@pytest.mark.parametrize(
    "text", ["2027-03-06", "2014-05", "2014~", "2014-21", "201X", "2027-W10", "2014-XX-XX",
             "2027-03-06/2027-04-01", "../2028"]
)  # fmt: skip
def test_dates(text: str) -> None:
    assert re.fullmatch(DATE, text)


@pytest.mark.parametrize(
    ("text", "fits"), [("tree hoshi", True), ("mix\tacid ", True), ("tree hoshi, yuki", False),
                       ("trees hoshi", False), ("tree", False)]
)  # fmt: skip
def test_heads_of_cards(text: str, fits: bool) -> None:
    assert bool(re.fullmatch(HEAD, text)) is fits


def test_dialects() -> None:
    pattern = r"^(?:a|b%)+[^ \t]{2}~?\.$"
    assert in_vim(pattern) == r"^%(a|b\%)+[^ \t]{2}\~?\.$"
    assert in_posix(pattern) == r"^(a|b%)+[^[:blank:]]{2}~?\.$"
    assert in_lisp(pattern) == "^\\(?:a\\|b%\\)+[^ \t]\\{2\\}~?\\.$"


def test_no_word_holds_a_sign_of_a_pattern() -> None:
    words = [*ACT_WORDS, *DETAIL_WORDS, *WEATHER_WORDS, *UNITS, *(label for _, label, _ in LABELS)]
    assert not [word for word in words if not re.fullmatch(r"[\w °²³%/-]+", word)]


# ------------------------------------------------------------------ TextMate


def patterns_of(rule: Any) -> Iterator[str]:
    if isinstance(rule, list):
        for one in rule:
            yield from patterns_of(one)
    elif isinstance(rule, dict):
        for key, value in rule.items():
            if key in ("match", "begin", "end"):
                yield value
            elif key != "include":
                yield from patterns_of(value)


def includes_of(rule: Any) -> Iterator[str]:
    if isinstance(rule, list):
        for one in rule:
            yield from includes_of(one)
    elif isinstance(rule, dict):
        for key, value in rule.items():
            if key == "include":
                yield value
            else:
                yield from includes_of(value)


def test_textmate_patterns_compile_and_every_rule_is_there() -> None:
    patterns = list(patterns_of(GRAMMAR))
    for pattern in patterns:
        # An end refers to the indentation that its begin found.
        re.compile(f"( )(?:{pattern})" if r"\1" in pattern else pattern)
    assert len(patterns) > 40
    assert {f"#{name}" for name in RULES} == set(includes_of(GRAMMAR))


def test_textmate_knows_every_act_and_label() -> None:
    for word, act in by_word(ACTS).items():
        for line in (f"  {word}", f"\t{word.upper()}  2 cm"):
            for name, fits in (("act", True), ("prose-act", act.prose)):
                found = re.match(RULES[name]["begin"], line)
                assert bool(found) is fits, (name, line)
        found = re.match(RULES["act-with-aside"]["begin"], f"  {word}  one, -- two")
        assert found and (found[2], found[4]) == (word, "--")
    assert not re.match(RULES["act"]["begin"], "  repottedly 2 cm")
    for kind, label, prose in LABELS:
        rules = RULES[f"card-{kind}"]["patterns"]
        first = next(rule for rule in rules if re.match(rule.get("begin", "$"), f"  {label} x"))
        assert (first.get("contentName") is not None) is prose, (kind, label)


def test_every_kind_of_card_opens_its_own_rule() -> None:
    for kind in KINDS:
        found = re.match(RULES[f"card-{kind}"]["begin"], f"{kind} hoshi")
        assert found and found.groups() == (kind, "hoshi")


def test_the_extension_names_its_files() -> None:
    manifest = json.loads(FILES["vscode/package.json"])["contributes"]
    named = [manifest["languages"][0]["configuration"], manifest["grammars"][0]["path"]]
    assert [f"vscode/{path.removeprefix('./')}" in FILES for path in named] == [True, True]
    assert manifest["grammars"][0]["scopeName"] == GRAMMAR["scopeName"]
    json.loads(FILES["vscode/language-configuration.json"])


# ------------------------------------------------------------------ the others


def python(posix: str) -> str:
    """An extended regular expression as Python reads it."""
    return (
        posix.replace("[[:blank:]]", "[ \t]")
        .replace("[:blank:]", " \t")
        .replace(r"\<", r"\b")
        .replace(r"\>", r"\b")
    )


def test_nano_knows_every_act_label_and_kind() -> None:
    lines = FILES["nano/backbud.nanorc"].splitlines()
    colours: list[tuple[str, re.Pattern[str]]] = []
    for line in lines:
        if line.startswith(("color ", "icolor ")):
            command, colour, rest = line.split(" ", 2)
            flags = re.IGNORECASE if command == "icolor" else 0
            assert rest.startswith('"') and rest.endswith('"')
            colours += [
                (colour, re.compile(python(each), flags)) for each in rest[1:-1].split('" "')
            ]

    def colour_of(line: str, column: int) -> str:
        """The last rule that paints a column wins."""
        painted = [
            colour
            for colour, pattern in colours
            if any(found.start() <= column < found.end() for found in pattern.finditer(line))
        ]
        return painted[-1] if painted else ""

    for word in (*by_word(ACTS), *(label for _, label, _ in LABELS)):
        assert colour_of(f"  {word}   x", 2) == "cyan", word
    for kind in KINDS:
        assert colour_of(f"{kind} hoshi", 0) == "brightcyan"
    assert colour_of("  repotted  2 cm off below -- 2 cm", 12) == "yellow"
    assert colour_of("  repotted  2 cm off below -- 2 cm", 32) == "blue"
    assert colour_of("  noted  2 cm -- 3 cm", 18) == "green"
    assert colour_of("hoshi, yuki", 0) == "brightgreen"
    assert colour_of("2027-03-06  low 2 C", 0) == "brightyellow"
    assert colour_of("  # repotted", 4) == "blue"


def test_vim_knows_every_act_label_and_kind() -> None:
    lines = FILES["vim/syntax/backbud.vim"].splitlines()

    def words(start: str) -> list[str]:
        """The last list of words in the last line that begins so."""
        line = next(line for line in reversed(lines) if line.startswith(start))
        lists: list[str] = re.findall(r"%\(((?:[\w -]+\|)+[\w -]+)\)", line)
        return lists[-1].split("|")

    assert words("syn match backbudAct ") == sorted(by_word(ACTS))
    assert words("syn match backbudKind ") == list(KINDS)
    for kind in KINDS:
        expected = {label for of, label, _ in LABELS if of == kind}
        assert set(words(f"syn match backbud{kind.capitalize()}Label ")) == expected
    # Patterns stand between semicolons; one inside would end it.
    counts = {"syn match": 2, "syn region": 4, "syn sync": 2}
    for line in lines:
        for start, count in counts.items():
            assert not line.startswith(start) or line.count(";") == count, line


def test_emacs_knows_every_act_label_and_kind() -> None:
    text = FILES["emacs/backbud-mode.el"]
    strings = re.compile(r'\?\\.|"(?:[^"\\]|\\.)*"|;[^\n]*', re.DOTALL)

    def list_of(name: str) -> list[str]:
        """The strings of one constant, without its docstring."""
        body = text.split(f"(defconst {name}\n", 1)[1].split('\n  "', 1)[0]
        return re.findall(r'"([^"]*)"', body)

    assert list_of("backbud-act-words") == sorted(by_word(ACTS))
    plain, prose = list_of("backbud-labels"), list_of("backbud-prose-labels")
    assert {label for _, label, _ in LABELS} | set(KINDS) == {*plain, *prose}
    # What is left once strings, characters and remarks are out: the brackets pair up.
    depth = 0
    for sign in re.findall(r"[()]", strings.sub("", text)):
        depth += 1 if sign == "(" else -1
        assert depth >= 0
    assert depth == 0


def test_an_act_behind_an_hour_is_an_act() -> None:
    opening = RULES["deeper-act"]["match"]
    for line in ("  watered", "  10:30 watered", "\t07:05  watered 2 L"):
        found = re.match(python(opening), line)
        assert found is not None and found[2] == "watered", line
    assert re.match(python(opening), "  10:3 watered") is None
