"""`why` of a tree: what is open first, each with its reasons, then what is settled."""

from __future__ import annotations

import json
import re
from datetime import date

from msgspec.structs import replace

from backbud.cli import main
from backbud.report import why_lines
from backbud.species import Window
from backbud.views.day import all_works

JOURNAL = """
    place yard
      latitude  52 N
    tree hoshi
      kind      garden shrub
      place     yard
      name      Old Star
    2026-03-01
    hoshi
      wired     3 mm Al on left 1
    2026-04-10
    hoshi
      unwired   on left 1
      treated   soap 1 L, against aphids
    2026-04-20
    hoshi
      wired     3 mm Al on left 2
      planned   repot, to 2027-03
"""


def test_what_is_open_comes_first(written, tmp_path, capsys) -> None:
    written(JOURNAL, "2026-05-01")
    # The kind is not known here, so there is one warning.
    assert main(["why", "Hoshi", str(tmp_path), "--on", "2026-05-01"]) == 1
    out = capsys.readouterr().out
    head, open_ones, settled = re.split(r"^(?:Open|Settled) \(\d+\)$", out, flags=re.MULTILINE)
    assert head == ""
    assert "state   overdue" not in settled
    assert {*re.findall(r"state   (\w+)", open_ones)} <= {"overdue", "now", "coming"}
    # Nobody cleaned its pot in March.
    assert {*re.findall(r"state   (\w+)", settled)} == {"done", "lapsed"}
    assert "id      hoshi/wire-check/wired-2026-04-20/left-2" in open_ones
    assert "because 20 April 2026: wired 3 mm Al on left 2. (journal.txt:17)" in open_ones
    assert "id      hoshi/planned/repotted-2026-04-20" in open_ones
    assert "id      hoshi/wire-check/wired-2026-03-01/left-1" in settled
    assert "settled 2026-04-10: unwired on left 1" in settled


def test_the_same_order_as_json(written, tmp_path, capsys) -> None:
    written(JOURNAL, "2026-05-01")
    assert main(["why", "hoshi", str(tmp_path), "--on", "2026-05-01", "--json"]) == 1
    found = json.loads(capsys.readouterr().out)
    states = [one["state"] in ("overdue", "now", "coming") for one in found]
    assert True in states
    assert False in states
    assert states == sorted(states, reverse=True)
    best = [one["best"] for one in found if one["state"] in ("overdue", "now", "coming")]
    assert best == sorted(best)


def test_a_work_is_asked_for_by_its_name(written, tmp_path, capsys) -> None:
    written(JOURNAL, "2026-05-01")
    on = (str(tmp_path), "--on", "2026-05-01")
    for words in (["hoshi", "repot"], ["hoshi", "Repotted"], ["repot"]):
        assert main(["why", *words, *on]) == 1
        out = capsys.readouterr().out
        assert re.findall(r"id      (\S+)", out) == ["hoshi/planned/repotted-2026-04-20"]
    assert main(["why", "hoshi", "wash", *on]) == 2
    told = capsys.readouterr().err
    assert "nothing due has the id or the name “wash”. What is open of hoshi: " in told


def test_what_is_no_tree_is_said_to_be_none(written, tmp_path, capsys) -> None:
    written(JOURNAL, "2026-05-01")
    on = (str(tmp_path), "--on", "2026-05-01")

    def told(*words: str) -> str:
        assert main(["why", *words, *on]) == 2
        return capsys.readouterr().err

    assert told("nobody") == (
        "backbud: nothing due has the id or the name “nobody”, and no tree is so called. "
        "backbud due --json prints the ids.\n"
    )
    assert told("hosi", "repot") == (
        "backbud: no tree is called “hosi”, and nothing due has the id or the name “hosi repot”. "
        "Did you mean “hoshi”?\n"
    )


def test_days_that_were_moved_into_another_year_have_theirs(written) -> None:
    session = written(JOURNAL, "2026-05-01")
    works = all_works(session.plan(), session.names(), session.today)
    (repot,) = (one for one in works if one.act == "repotted")
    moved = replace(repot, moved_from=Window(date(2026, 3, 1), date(2026, 3, 9), date(2026, 3, 31)))
    lines = list(why_lines(moved, session.today))
    assert lines[3].startswith("  when    1 to 31 March 2027")
    assert lines[4] == "  was     1 to 31 March 2026"
    same = replace(repot, moved_from=Window(date(2027, 4, 1), date(2027, 4, 9), date(2027, 4, 30)))
    assert list(why_lines(same, session.today))[4] == "  was     1 to 30 April 2027"
