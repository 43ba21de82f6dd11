"""Tidying, against texts laid out by hand, and against the outline of random journals."""

from __future__ import annotations

import os
import stat
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from backbud_grammar import tidy
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.forms import ActForm
from backbud_grammar.outline import Known, read_section, sections
from backbud_grammar.syntax import Card, Page
from backbud_grammar.tidy import TidyError, tidy_text
from backbud_grammar.tidy_file import tidy_file

KNOWN = Known.of(by_word(ACTS))

WRITTEN = """\


2027-03-06 low 1 C,   high 9 C \t
hoshi
      repotted same pot, 2 cm off below,
         wedges N E S, mix maple 4.5 L   -- slow   work
      moved\ttunnel
      # the left one first
      noted    two thick  roots crossed; -- gone
# next is for Marrow
hoshi, yuki
  watered -- dry east wind



  unprotected
tree   koyo
    kind  trident maple
    root  ball 34 x 24 x 6 cm


    name Autumn,  old
pot tray-7
  shape oval"""

TIDIED = """\
2027-03-06   low 1 C,   high 9 C

hoshi
  repotted    same pot, 2 cm off below,
              wedges N E S, mix maple 4.5 L   -- slow   work
  moved       tunnel
  # the left one first
  noted       two thick  roots crossed; -- gone

# next is for Marrow
hoshi, yuki
  watered     -- dry east wind

  unprotected

tree koyo
  kind        trident maple
  root ball   34 x 24 x 6 cm

  name        Autumn,  old

pot tray-7
  shape       oval
"""


def test_a_page_and_cards_are_lined_up() -> None:
    assert tidy_text(WRITTEN) == TIDIED
    assert tidy_text(TIDIED) == TIDIED


@pytest.mark.parametrize("text", ["", "# only for me\n", "# a\n\n# b\n"])
def test_nothing_to_line_up(text: str) -> None:
    assert tidy_text(text) == text


@pytest.mark.parametrize(
    ("written", "tidied"),
    [
        # A word of more than ten letters moves the details of its own block only.
        ("2027\nhoshi\n treated-deadwood oil\n carved jin\nyuki\n carved jin\n",
         "2027\n\nhoshi\n  treated-deadwood  oil\n  carved            jin\n\n"
         "yuki\n  carved      jin\n"),
        # Without details it moves nothing.
        ("2027\nhoshi\n treated-deadwood\n carved jin\n",
         "2027\n\nhoshi\n  treated-deadwood\n  carved      jin\n"),
        # A name beyond the widest column keeps its own details at two spaces.
        ("mix acid\n  " + "x" * 40 + " 2\n  moss 1\n",
         "mix acid\n  " + "x" * 40 + "  2\n  moss        1\n"),
        # Wide letters take two cells: 2 + 3 x 2 + 6 = 14.
        ("mix acid\n  赤玉土 2\n  red lava 1/3\n",
         "mix acid\n  赤玉土      2\n  red lava    1/3\n"),
        # Two words of a label, the second of them on its own line.
        ("material moss\n  sold\n    in bag of 14 L\n",
         "material moss\n  sold\n              in bag of 14 L\n"),
        # A slip is left as it is, unless its parts were set apart by hand.
        ("2027\nhoshi\n the left one\n repoted   same pot\n",
         "2027\n\nhoshi\n  the left one\n  repoted     same pot\n"),
        # Upper case and bare forms are known, too.
        ("2027\nhoshi\n Water twice\n", "2027\n\nhoshi\n  Water       twice\n"),
        # Acts with no subject are lined up as well.
        ("2027-03-06\n watered twice\n", "2027-03-06\n  watered     twice\n"),
        # A remark to oneself belongs to the day, to the block above, or to the block below.
        ("2027\n# cold\nhoshi\n watered\n # deep\n# next\nyuki\n watered\n",
         "2027\n# cold\n\nhoshi\n  watered\n  # deep\n\n# next\nyuki\n  watered\n"),
        ("2027\nhoshi\n\n# x\n\n watered\n\n\n# y\n\n\n\nyuki\n watered\n\n# z\n\n",
         "2027\n\nhoshi\n# x\n  watered\n\n# y\n\nyuki\n  watered\n\n# z\n"),
        ("\n# head\n\n\n2027\nhoshi\n  watered\n", "# head\n\n2027\n\nhoshi\n  watered\n"),
        # A remark that stood at no act's depth stays.
        ("2027\nhoshi\n  noted one\n      # remark\n       two\n",
         "2027\n\nhoshi\n  noted       one\n      # remark\n              two\n"),
        # What stands below a card's own lines is a block, and stays a problem.
        ("tree hoshi\n kind maple\nyuki\n  watered twice\n",
         "tree hoshi\n  kind        maple\n\nyuki\n  watered     twice\n"),
    ],
)  # fmt: skip
def test_layout(written: str, tidied: str) -> None:
    assert tidy_text(written) == tidied
    assert tidy_text(tidied) == tidied


def test_a_blank_line_ends_an_act_and_still_does() -> None:
    written = "2027\nhoshi\n  noted  one\n\n      two\n         three\n"
    assert tidy_text(written) == (
        "2027\n\nhoshi\n  noted       one\n\n  two\n              three\n"
    )


def test_tabs_of_one_mind_become_spaces() -> None:
    written = "2027\nhoshi\n\trepotted\tsame pot,\n\t\tmix maple\n\twatered\ttwice\n"
    assert tidy_text(written) == (
        "2027\n\nhoshi\n  repotted    same pot,\n              mix maple\n  watered     twice\n"
    )


def test_mixed_tabs_and_spaces_stay_a_problem() -> None:
    # The second line looks deeper but continues nothing; lined up, nobody would see it.
    written = "2027\n\nhoshi\n  noted  one\n\t two  \n\nyuki\n watered  twice\n"
    assert tidy_text(written) == (
        "2027\n\nhoshi\n  noted  one\n\t two\n\nyuki\n  watered     twice\n"
    )
    assert codes(written) == codes(tidy_text(written)) == ["mixed-indent"]


def test_a_deeper_act_stays_a_problem() -> None:
    written = "2027\n\nhoshi\n repotted  same pot\n    watered  twice\n"
    assert tidy_text(written) == written
    assert codes(written) == ["deeper-act"]


def test_what_may_go_on_with_an_act_stays_where_it_is() -> None:
    written = "2027\n\nhoshi\n unwired\n\n    the left ones\n"
    assert tidy_text(written) == written


def test_a_long_line_stays_as_it_is() -> None:
    long = "   " + "x" * 10_001 + "   "
    written = f"2027\nhoshi\n   noted  a\n{long}\n   watered  twice\n"
    tidied = tidy_text(written)
    assert tidied == f"2027\n\nhoshi\n  noted       a\n{long}\n  watered     twice\n"
    assert codes(written) == codes(tidied) == ["long-line"]


def test_line_ends_and_the_byte_order_mark_are_kept() -> None:
    written = "\ufeff2027\r\nhoshi\r\n watered  twice\rtree yuki\n  kind maple"
    assert tidy_text(written) == (
        "\ufeff2027\r\n\r\nhoshi\r\n  watered     twice\r\rtree yuki\n  kind        maple\n"
    )
    assert tidy_text("2027\r\nhoshi") == "2027\r\n\r\nhoshi\r\n"


def test_an_act_of_a_plugin_is_lined_up() -> None:
    acts = {**by_word(ACTS), "sung-to": ActForm("sung-to", "sing-to", "Keep")}
    written = "2027\n\nhoshi\n  sung-to twice\n"
    assert tidy_text(written, acts) == "2027\n\nhoshi\n  sung-to     twice\n"
    assert tidy_text(written) == written


@pytest.mark.parametrize(
    "text",
    [
        "date,low,high,rain\n2027-03-06,1,9,4\n",
        "Sallowdrum\nyyyy  mm   tmax\n2027   1    6.2\n2027   2    7.0\n",
        "Dear all,\n   the   gate stays shut\n",
    ],
)
def test_other_texts_are_left_alone(text: str) -> None:
    with pytest.raises(TidyError, match=r"^no line in it is a card"):
        tidy_text(text)


@pytest.mark.parametrize(
    ("broken", "sentence"),
    [
        (lambda lead, column: f"  {lead.lead}{lead.rest}", "what is read from line 1 on"),
        (lambda lead, column: f"{lead.lead}  {lead.rest}", "what is read from line 1 on"),
        (lambda lead, column: f"2028\n{lead.lead} {lead.rest}", "what is read from line 1 on"),
        (lambda lead, column: f"  {lead.lead}  {lead.rest}\n# no", "one of its words"),
        (lambda lead, column: f"  {lead.lead}  {lead.rest}\n2028", "how many pages"),
    ],
)
def test_a_fault_in_lining_up_changes_no_file(
    broken: Any, sentence: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "diary.txt"
    path.write_text("2027\nhoshi\n watered twice\n")
    monkeypatch.setattr(tidy, "_set", broken)
    with pytest.raises(TidyError, match=sentence):
        tidy_file(str(path))
    assert path.read_text() == "2027\nhoshi\n watered twice\n"
    assert os.listdir(tmp_path) == ["diary.txt"]


# ------------------------------------------------------------------ files


def test_a_file_is_put_in_place_with_its_mode(tmp_path: Path) -> None:
    path = tmp_path / "diary.txt"
    path.write_bytes(b"\xef\xbb\xbf2027\r\nhoshi\r\n watered twice")
    path.chmod(0o640)
    assert tidy_file(str(path)) is True
    assert path.read_bytes() == b"\xef\xbb\xbf2027\r\n\r\nhoshi\r\n  watered     twice\r\n"
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert os.listdir(tmp_path) == ["diary.txt"]
    before = path.stat()
    assert tidy_file(str(path)) is False
    assert path.stat() == before


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"2027\nhoshi\n  noted  caf\xe9\n", "a letter in line 3 is not UTF-8"),
        ("2027\nhoshi\n".encode("utf-16"), "it is UTF-16"),
        (b"2027\nhoshi\n\x00\n", "it is no text"),
    ],
)
def test_what_is_no_utf_8_is_left_alone(data: bytes, sentence: str, tmp_path: Path) -> None:
    path = tmp_path / "diary.txt"
    path.write_bytes(data)
    with pytest.raises(TidyError, match=sentence):
        tidy_file(str(path))
    assert path.read_bytes() == data


def test_links_and_folders_are_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "diary.txt"
    path.write_text("2027\nhoshi\n watered twice\n")
    link = tmp_path / "link.txt"
    link.symlink_to(path)
    with pytest.raises(TidyError, match="it is a link"):
        tidy_file(str(link))
    with pytest.raises(TidyError, match="it is a folder"):
        tidy_file(str(tmp_path))
    with pytest.raises(FileNotFoundError):
        tidy_file(str(tmp_path / "none.txt"))
    assert path.read_text() == "2027\nhoshi\n watered twice\n"


def test_a_file_that_may_not_be_written_is_left_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "diary.txt"
    path.write_text("2027\nhoshi\n watered twice\n")
    # Root may write everything, so the answer is put in its mouth.
    monkeypatch.setattr(os, "access", lambda name, mode: mode != os.W_OK)
    with pytest.raises(TidyError, match="not yours to write"):
        tidy_file(str(path))
    assert path.read_text() == "2027\nhoshi\n watered twice\n"


def test_what_somebody_else_writes_meanwhile_is_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "diary.txt"
    path.write_text("2027\nhoshi\n watered twice\n")
    real = os.fsync

    def meanwhile(handle: int) -> None:
        path.write_text("2027\nhoshi\n watered well, twice\n")
        real(handle)

    monkeypatch.setattr(os, "fsync", meanwhile)
    with pytest.raises(TidyError, match="by somebody else"):
        tidy_file(str(path))
    assert path.read_text() == "2027\nhoshi\n watered well, twice\n"
    assert os.listdir(tmp_path) == ["diary.txt"]


# ------------------------------------------------------------------ random journals


def outline(text: str) -> list[Any]:
    """What the outline of a text holds, without places and without the gaps after labels."""
    plain = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    out: list[Any] = []
    for _, piece in sections(plain.encode()):
        section = read_section(piece, KNOWN)
        blocks = [
            (b.subjects, [(a.word, a.text, a.remark) for a in b.acts]) for b in section.blocks
        ]
        flaws = [flaw.code for flaw in section.flaws]
        if isinstance(section, Page):
            out.append((section.date, section.weather, blocks, flaws))
        elif isinstance(section, Card):
            lines = [line.text.split() for line in section.lines]
            out.append((section.kind, section.handle, lines, blocks, flaws))
        elif blocks or flaws:
            out.append((blocks, flaws))
    return out


def codes(text: str) -> list[str]:
    return [code for section in outline(text) for code in section[-1]]


def remarks(text: str) -> list[str]:
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    return [line.strip() for line in lines if line.lstrip().startswith("#")]


INDENTS = st.sampled_from(["", " ", "  ", "    ", "      ", "\t", "\t\t", " \t", "\t "])
GAPS = st.sampled_from([" ", "  ", "    ", "\t", " \t "])
ENDS = st.sampled_from(["", "", "", " ", "\t", ","])
# Letters, marks and signs of any script; white space is drawn apart.
PROSE = st.text(st.characters(exclude_categories=["Cs", "Cc", "Z"]) | st.just(" "), max_size=20)
FIRST = st.sampled_from([
    "hoshi", "hoshi, yuki, all in tunnel except kaze", "2027-03-06", "2014~", "2027-13-41",
    "repotted", "watered", "Noted", "private", "treated-deadwood", "planned", "corrected",
    "kind", "root ball", "root", "akadama", "red lava", "name", "since", "low", "shoots", "--",
    "# remark", "#", "", "", "赤玉土",
])  # fmt: skip
REST = st.sampled_from([
    "", "", "same pot, 2 cm off below", "3 mm Al on left 2, 2 mm Al on apex", "-- dry wind",
    "mix maple 4,5 L -- slow -- work", "low 1 C, high 9 C", "repot, to 2028-03", "2",
    "trident maple", '"open, at one end', "two  thick   roots", "34 x 24 x 6 cm",
]) | PROSE  # fmt: skip
CARDS = st.sampled_from(["tree koyo", "mix  acid", "pot\ttray-7", "group old "])
LINES = st.tuples(INDENTS, FIRST, GAPS, REST, ENDS).map("".join) | CARDS | PROSE.map(str.strip)


@given(
    st.lists(LINES, min_size=1, max_size=14), st.sampled_from(["\n", "\r\n", "\r"]), st.booleans(),
    st.sampled_from(["", "\ufeff"]),
)  # fmt: skip
def test_random_journals_keep_their_meaning(
    lines: list[str], end: str, ended: bool, bom: str
) -> None:
    text = bom + end.join(["2027-03-06", *lines]) + (end if ended else "")
    tidied = tidy_text(text)
    assert outline(tidied) == outline(text)
    assert remarks(tidied) == remarks(text)
    assert tidied.split() == text.split()
    assert tidy_text(tidied) == tidied
    assert tidied.startswith(bom) and tidied.endswith(end)
    plain = tidied.removeprefix(bom).split(end)
    assert all(line == line.rstrip() for line in plain)
    assert not any(here == after == "" for here, after in pairwise(plain))


@pytest.mark.parametrize(
    "path", sorted(Path(__file__).parents[2].glob("example_journal/*/*.txt")), ids=lambda p: p.name
)
def test_the_example_keeps_its_meaning(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert outline(tidy_text(text)) == outline(text) != []


def test_a_blank_line_between_two_sorts_of_line_end_stays_one() -> None:
    """Found by sending odd journals through: `\\r` and `\\n` side by side are one end."""
    tidied = tidy_text("hoshi\r \nyuki\r bought")
    assert tidied == "hoshi\r\ryuki\r  bought\r"
    assert tidy_text(tidied) == tidied
