"""Text with signs that a terminal obeys goes in; what the terminal gets is told sign by sign."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from backbud import say
from backbud_grammar.problems import Problem, show
from backbud_grammar.shown import json_shown, shown

TITLE = "\x1b]0;taken\x07"  # sets the title of a terminal's window (xterm control sequences, OSC 0)
NAME = f"no{TITLE}te\u202e.txt"


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("hoshi\twatered", "hoshi\twatered"),
        ("もみじ é 38 × 27", "もみじ é 38 × 27"),
        ("wide\u3000space", "wide\u3000space"),
        (TITLE, r"\x1b]0;taken\x07"),
        ("a\r\nb", r"a\r\nb"),
        ("\x7f\x85\x9b", r"\x7f\x85\x9b"),
        ("\u200b\u200f\u202a\u202e\u2066\u2069", r"\u200b\u200f\u202a\u202e\u2066\u2069"),
        ("\u2028\u2029\ufeff\xad", r"\u2028\u2029\ufeff\xad"),
        ("\U000e0041\ufe0f\U000e0100\u3164\u2800", r"\U000e0041\ufe0f\U000e0100\u3164\u2800"),
        (os.fsdecode(b"caf\xe9"), r"caf\udce9" if os.name != "nt" else "caf\udce9"),
    ],
)
def test_what_has_no_look_is_written_out(text: str, wanted: str) -> None:
    assert shown(text) == wanted
    assert shown(wanted) == wanted


@pytest.mark.parametrize(
    ("encoding", "wanted"),
    [
        ("ascii", r'"caf\xe9" - 5 deg C, 3 x 4 ... \u3082'),
        ("latin-1", '"café" - 5 °C, 3 × 4 ... \\u3082'),
        ("cp1252", "“café” – 5 °C, 3 × 4 … \\u3082"),
        ("utf-8", "“café” – 5 °C, 3 × 4 … も"),
    ],
)
def test_a_terminal_of_fewer_letters_loses_no_meaning(encoding: str, wanted: str) -> None:
    assert shown("“café” – 5 °C, 3 × 4 … も", encoding) == wanted


def test_json_stays_the_same_json() -> None:
    value = {"“é”": f"{TITLE}\x7f\u202e\U000e0041\n"}
    text = json.dumps(value, ensure_ascii=False, indent=2)
    for encoding in ("ascii", "latin-1", "utf-8"):
        printed = json_shown(text, encoding)
        printed.encode(encoding)
        assert json.loads(printed) == value
        assert not {*"\x1b\x7f\u202e\U000e0041"} & {*printed}
    assert json_shown('"“é”"') == '"“é”"'


@pytest.mark.parametrize(
    ("encoding", "line", "mark"),
    [
        # もみじ is three signs of two cells each; é and も are four and six when written out.
        ("utf-8", r"    もみじ\x1bé wxyz", "    " + " " * 12 + "^^^^"),
        ("ascii", r"    \u3082\u307f\u3058\x1b\xe9 wxyz", "    " + " " * 27 + "^^^^"),
    ],
)
def test_the_mark_stands_under_its_place(encoding: str, line: str, mark: str) -> None:
    source = "もみじ\x1bé wxyz"
    problem = Problem("c", "error", NAME, 1, 7, 4, "m\nforged", "h\x1b", source)
    assert show(problem, encoding).split("\n") == [
        r"no\x1b]0;taken\x07te\u202e.txt:1:7: m\nforged [c]",
        line,
        mark,
        r"    h\x1b",
    ]


def test_a_heading_is_bold_on_a_terminal_only(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("NO_COLOR", raising=False)
    for is_terminal, wanted in (
        (True, "\033[1mNow\\x1b\033[0m\nplain\n"),
        (False, "Now\\x1b\nplain\n"),
    ):
        stream = io.StringIO()
        monkeypatch.setattr(stream, "isatty", lambda answer=is_terminal: answer)
        monkeypatch.setattr(sys, "stdout", stream)
        say.say(say.Heading("Now\x1b"), "plain")
        assert stream.getvalue() == wanted


@pytest.mark.skipif(os.name == "nt", reason="such names cannot be made there")
@pytest.mark.parametrize(
    ("letters", "encoding"),
    [
        ({"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}, "ascii"),
        ({"PYTHONIOENCODING": "utf-8"}, "utf-8"),
        pytest.param({"PYTHONIOENCODING": "ascii"}, "ascii", marks=pytest.mark.long),
        pytest.param({"PYTHONIOENCODING": "cp1252"}, "cp1252", marks=pytest.mark.long),
    ],
)
def test_whatever_is_printed_is_harmless(
    tmp_path: Path, letters: dict[str, str], encoding: str
) -> None:
    """Names of files, of the journal's folder and in the command itself, a card, a remark."""
    folder = tmp_path / f"j{TITLE}“é”"
    folder.mkdir()
    (folder / "backbud.toml").write_text('language = 1\nhome = "yard"\n', "utf-8")
    (folder / "cards.txt").write_text(
        f"place yard\n  latitude 52 N\ntree ume\n  kind flowering apricot\n"
        f"  name “{TITLE}も\u202e”\n",
        "utf-8",
    )
    (folder / NAME).write_text(
        f"2027-03-06\nume\n  watered -- {TITLE}\u202e\n  waterd{TITLE} \x9b2J\n", "utf-8"
    )
    (folder / os.fsdecode(b"caf\xe9\x1b.txt")).write_bytes(b"2027-03-06\nume\n  watered\n")
    environ = {**os.environ, **letters, "PYTHONPATH": os.pathsep.join(filter(None, sys.path))}
    for words in (
        ["check"], ["check", "--json"], ["due", "--within", "99w"], ["tree", "ume"], ["why", "ume"],
        ["make"], ["make"], ["make", "--json"], ["tree", TITLE], ["due", f"--{TITLE}"], [TITLE],
        ["stores"],
    ):  # fmt: skip
        ended = subprocess.run(
            [sys.executable, "-m", "backbud", *words, *([] if words == [TITLE] else [str(folder)])],
            env=environ, capture_output=True, check=False,
        )  # fmt: skip
        printed = (ended.stdout + ended.stderr).decode(encoding)
        assert printed
        assert "Traceback" not in printed, printed
        assert not {*"\x07\x1b\x7f\u202e\x9b"} & {*printed}
        if "--json" in words:
            json.loads(ended.stdout.decode(encoding))
