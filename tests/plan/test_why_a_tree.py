"""`why` of a tree: what is open first, each with its reasons, then what is settled."""

from __future__ import annotations

import json
import re

from backbud.cli import main

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
    assert {*re.findall(r"state   (\w+)", settled)} == {"done"}
    assert "id      hoshi/wire-check/wired-2026-04-20/left-2" in open_ones
    assert "because 2026-04-20: wired 3 mm Al on left 2. (journal.txt:17)" in open_ones
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
