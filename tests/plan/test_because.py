"""The chain of reasons: the line of the diary, the rule, the datum; nobody else's name in it."""

from __future__ import annotations

import json

import pytest

from backbud.cli import main
from backbud.species.year import NO_WEATHER

CARDS = """
    place yard
      cover     open
      latitude  56
    person marrow
      name      Edda Marrow
    person quillow
    mix maple
      akadama 3
    tree hoshi
      name      Evening Star
      kind      trident maple
      owner     quillow
      place     yard
    tree yuki
      kind      satsuki azalea
      owner     marrow
      place     yard
"""


def chain(follow_up) -> list[tuple[str, str, str]]:
    return [(r.sort, r.text, str(r.origin or "")) for r in follow_up.because]


def test_an_act_its_rule_and_the_datum(written, find) -> None:
    session = written(
        CARDS
        + """
    2026-03-06
    hoshi, yuki
      repotted  same pot, tied 2 mm x 2
    """
    )
    assert chain(find(session, "hoshi/ties-out")) == [
        ("diary", "6 March 2026: repotted same pot, tied 2 mm x 2.", "journal.txt:22"),
        ("rule", "After a growing season the roots hold, and ties begin to cut in.", ""),
    ]
    assert chain(find(session, "yuki/root-rest"))[0] == (
        "diary",
        "6 March 2026: repotted same pot, tied 2 mm x 2.",
        "journal.txt:22",
    )


def test_a_season_says_where_and_by_what(written, find) -> None:
    session = written(
        CARDS
        + """
    2026-01-06
    hoshi
      noted  buds tight
    """
    )
    follow_up = find(session, "hoshi/trident-trim-late/2026")
    assert chain(follow_up)[0] == ("season", "Summer 2026 at yard.", "")
    assert [sort for sort, _, _ in chain(follow_up)] == ["season", "rule", "datum"]


def test_a_stage_that_was_seen_is_the_datum_and_moves_the_window(written, find) -> None:
    text = (
        CARDS
        + """
    2026-01-06
    yuki
      noted   buds tight
    """
    )
    by_months = find(written(text), "yuki/satsuki-deadhead/2026")
    seen = find(
        written(
            text
            + """
    2026-06-01
    yuki
      bloomed over
    """
        ),
        "yuki/satsuki-deadhead/2026",
    )
    assert chain(by_months)[0][1].endswith(
        f"By the months of the northern hemisphere. {NO_WEATHER}"
    )
    assert chain(by_months)[0][1].startswith(
        "End of flowering (BBCH 69), 2026; its usual day is from memory. "
    )
    assert chain(seen)[0][1] == ("End of flowering (BBCH 69), 2026. It was seen on 1 June 2026.")
    assert seen.window.opens.isoformat() == "2026-06-01" != by_months.window.opens.isoformat()


@pytest.mark.parametrize(
    ("act", "quoted"),
    [
        ("grafted approach, from yuki, on apex", "grafted approach, on apex"),
        ("grafted from yuki", "grafted"),
        ("received from marrow for repotting", "received for repotting"),
        ("received for repotting like yuki", "received"),
        ("bought 300 EUR, from quillow", "bought"),
        ("treated with soap, against what yuki has", "treated with soap"),
        ("treated with soap, by quillow", "treated with soap"),
        ("repotted wedges N E, mix maple 4 L", "repotted wedges N E, mix maple 4 L"),
    ],
)  # fmt: skip
def test_a_line_is_quoted_without_other_trees_other_people_and_money(written, act, quoted) -> None:
    session = written(
        CARDS
        + f"""
    2026-05-06
    hoshi
      {act}
    """
    )
    texts = {
        r.text for f in session.plan().follow_ups["hoshi"] for r in f.because if r.sort == "diary"
    }
    assert texts == {f"6 May 2026: {quoted}."}


def test_a_remark_that_names_others_is_left_out(written, find) -> None:
    def said(remark: str) -> str:
        session = written(
            CARDS
            + f"""
    2026-05-06
    hoshi
      planned  graft, from yuki, to 2027-02 -- {remark}
    """
        )
        plan = find(session, "hoshi/planned")
        assert plan.title == "graft"
        return plan.because[0].text

    assert (
        said("when the bark slips")
        == "6 May 2026: planned graft, to 2027-02 – when the bark slips."
    )
    for other in ("Yuki gives the scions", "ask quillow", "as for Edda's other one"):
        assert said(other) == "6 May 2026: planned graft, to 2027-02."
    # Its own name may stand.
    assert said("Evening Star needs it") == (
        "6 May 2026: planned graft, to 2027-02 – Evening Star needs it."
    )


def test_no_reason_of_an_owners_tree_names_another(written) -> None:
    session = written(
        CARDS
        + """
    2026-05-06
    hoshi, yuki, all of marrow
      wired     3 mm Al on left 2
      repotted  same pot
      planned   prune, to 2026-12 -- yuki first
      agreed    200 EUR for wiring, by 2026-08
    """
    )
    plan = session.plan()
    for handle, others in (("hoshi", ("yuki", "marrow", "Edda")), ("yuki", ("hoshi", "quillow"))):
        assert plan.follow_ups[handle]
        for follow_up in plan.follow_ups[handle]:
            text = " ".join(
                [
                    follow_up.title,
                    *follow_up.cautions,
                    *(reason.text for reason in follow_up.because),
                ]
            )
            assert not [name for name in (*others, "EUR") if name in text]


# ------------------------------------------------------------------ for a program


def test_due_for_a_program(written, tmp_path, capsys) -> None:
    written(
        CARDS
        + """
    2026-05-06
    hoshi
      wired     3 mm Al on left 2
    """
    )
    assert main(["due", str(tmp_path), "--on", "2026-06-01", "--json", "--tree", "hoshi"]) == 0
    found = json.loads(capsys.readouterr().out)
    (check,) = [one for one in found if one["act"] == "checked" and "wire" in one["title"]]
    assert check == {
        "id": "hoshi/wire-check/wired-2026-05-06/left-2",
        "tree": "hoshi",
        "tree_name": "Evening Star",
        "counted": "",
        "place": "yard",
        "place_name": "yard",
        "act": "checked",
        "title": "check wire on left 2",
        "from": "2026-05-27",
        "best": "2026-06-03",
        "until": "2026-06-17",
        "moved_from": None,
        "state": "now",
        "waits_on_weather": False,
        "reasons": [
            {
                "sort": "diary",
                "text": "6 May 2026: wired 3 mm Al on left 2.",
                "file": "journal.txt",
                "line": 22,
                "column": 3,
                "expected": False,
                "quotes": True,
            },
            {
                "sort": "rule",
                "text": "Wire bites after 3 to 6 weeks of growth on such wood.",
                "file": "",
                "line": 0,
                "column": 0,
                "expected": False,
                "quotes": False,
            },
        ],
        "cautions": [],
        "minutes": 5,
        "planned": False,
        "own_words": "",
        "extent": "usual",
        "wedges": [],
        "settled": None,
        # The wood is harmed where nobody looks, and more so each week.
        "at_stake": "harm",
        "must": True,
        "once_past": "grows",
        "single": True,
        "group": "",
        "part": "left 2",
        "settled_by": ["checked wire", "unwired"],
        "look": True,
        "sign": "",
        "said": "",
        "private": False,
        "cold": None,
        "because": [
            "6 May 2026: wired 3 mm Al on left 2. (journal.txt:22)",
            "Wire bites after 3 to 6 weeks of growth on such wood.",
        ],
    }
    # "harm" before "style".
    now = [one["at_stake"] for one in found if one["state"] in ("now", "overdue")]
    assert now == sorted(now) and set(now) == {"harm", "style"}


def test_why_tells_the_chain(written, tmp_path, capsys) -> None:
    written(
        CARDS
        + """
    2026-05-06
    hoshi
      wired     3 mm Al on left 2
    """
    )
    ident = "hoshi/wire-check/wired-2026-05-06/left-2"
    assert main(["why", ident, str(tmp_path), "--on", "2026-06-01"]) == 0
    out = capsys.readouterr().out
    assert "check wire on left 2" in out
    assert "because 6 May 2026: wired 3 mm Al on left 2. (journal.txt:22)" in out
    assert "Wire bites after 3 to 6 weeks of growth on such wood." in out
