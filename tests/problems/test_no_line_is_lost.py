"""Every line that is not blank is used, a remark, or a problem; whatever is written."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.examples import examples
from tests.fates import fate_of_lines
from tests.problems.conftest import CARDS

INDENTS = st.sampled_from(["", "", " ", "  ", "  ", "   ", "      ", "\t", "\t\t", "  \t"])
WORDS = st.sampled_from(
    [
        "2027-03-06",
        "2027-03-06   low 1 C",
        "2027-02-30",
        "2014~",
        "21 Nov",
        "21/11",
        "Sat 21 Nov",
        "== 2026 ==",
        "2028-01-01",
        "tree new",
        "tree new one",
        "Tree hoshi",
        "mix bonsai",
        "place yard",
        "pot tray-9",
        "hoshi",
        "hoshi, yuki",
        "hoshi yuki",
        "nobody",
        "all in tunnel",
        "all of quill",
        "all",
        "tray-1",
        "except",
        "watered",
        "moved tunnel",
        "moved tunnnel",
        "repotted same pot,",
        "tied 2 mm x 2",
        "noted two roots -- crossed",
        "watered -- well",
        "private a word",
        "watred",
        "planned repot, to 2028",
        "planned",
        "corrected watered 2027-03-06, not done",
        "separated on apex, as chip",
        "chip",
        "struck 50 cuttings",
        "died",
        "kind  trident maple",
        "note two scars",
        "since 2011",
        "pumice 1",
        "owner nobody",
        "and on it goes",
        "2 cm off below",
        "# a remark",
        "<<<<<<< mine",
        "=======",
        ">>>>>>> theirs",
        "",
    ]
)
LINES = st.lists(st.tuples(INDENTS, WORDS).map("".join), max_size=22)


@settings(max_examples=examples(60))
@given(LINES)
def test_every_line_is_used_a_remark_or_a_problem(lines: list[str]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        fates = fate_of_lines("\n".join(lines), Path(folder), CARDS)
    assert len(fates) == max(len(lines), 1)
    assert "lost" not in fates, list(zip(fates, lines, strict=False))


@pytest.mark.parametrize(
    ("text", "fates"),
    [
        (
            "# mine\n2027-03-06\nhoshi\n  watered\n\n  noted two\n     roots\n",
            ["remark", "used", "used", "used", "blank", "used", "used", "blank"],
        ),
        ("2027-03-06\nhoshi\n  noted two\n     moved roots\n", ["used"] * 3 + ["problem", "blank"]),
        ("2027-03-06\nSat\nhoshi\n  watered", ["used"] + ["problem"] * 3),
        ("2027-13-06\nhoshi\n  watered", ["problem"] * 3),
        ("2027-03-06\nnobody\n  watered", ["used", "used", "problem"]),
        ("tree new\n note two scars\n  kind maple", ["used", "used", "problem"]),
    ],
)
def test_what_becomes_of_each_line(tmp_path: Path, text: str, fates: list[str]) -> None:
    assert fate_of_lines(text, tmp_path, CARDS) == fates
