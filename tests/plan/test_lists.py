"""Lists stand by what is at stake, then by the day that closes first; never by age. What may be
done stands once for the trees of one kind, what was promised never lapses."""

from __future__ import annotations

import json
import re

import pytest

from backbud.cli import main

PLACE = """
place yard
  cover     open
  latitude   39.7 N
  longitude  105 W
  low   -8 -7 -3 1 6 11 15 14 9 2 -4 -8 C
  high  7 8 12 16 22 28 32 31 26 19 12 7 C
"""
HOME = 'home = "yard"\n'


def trees(*names: str, kind: str = "trident maple") -> str:
    return "".join(f"tree {name}\n  kind   {kind}\n  place  yard\n" for name in names)


@pytest.fixture
def due(written, tmp_path, capsys):
    def told(text: str, day: str, *more: str, within: str = "0d") -> list[str]:
        written(text, day, settings=HOME)
        assert main(["due", str(tmp_path), "--on", day, "--within", within, *more]) == 0
        return capsys.readouterr().out.splitlines()

    return told


def works(lines: list[str]) -> list[str]:
    return [line.strip() for line in lines if "  –  " in line]


def test_frost_comes_first_in_a_frosty_week(due) -> None:
    """Two wires left since spring are late, and pests are to be looked for: frost comes first."""
    text = PLACE + trees("hoshi") + "2026-06-20\nhoshi\n  wired  3 mm Al on left 1\n"
    found = works(due(text, "2026-11-03"))
    assert "protect against winter frost" in found[0]
    assert any("check wire" in line for line in found[1:])


def test_the_first_page_has_it_before_what_is_late(written, tmp_path) -> None:
    text = PLACE + trees("hoshi") + "2026-06-20\nhoshi\n  wired  3 mm Al on left 1\n"
    written(text, "2026-11-03", settings=HOME)
    assert main(["make", str(tmp_path), "--on", "2026-11-03"]) == 0
    page = (tmp_path / "made-on/2026-11-03/index.html").read_text("utf-8")
    assert re.findall(r"<h2[^>]*>(.*?)</h2>", page)[0] == "Before all else"
    first = page.split("<h2")[1]
    assert "Protect against winter frost" in first and "Check wire" not in first


def test_by_stake_then_by_the_day_that_closes(due) -> None:
    text = PLACE + trees("hoshi", "crow") + "2026-06-20\nhoshi\n  wired  3 mm Al on left 1\n"
    found = json.loads("\n".join(due(text, "2026-11-03", "--json")))
    now = [one for one in found if one["state"] in ("now", "overdue")]
    stakes = ["life", "harm", "style"]
    keys = [(stakes.index(one["at_stake"]), not one["must"], one["until"]) for one in now]
    assert keys == sorted(keys) and len({key[:2] for key in keys}) > 1


# ------------------------------------------------------------------ what may be done

THREE = PLACE + trees("ash", "birch", "crow") + "2026-05-01\nall\n  noted  well\n"


def wiring(lines: list[str]) -> list[str]:
    found = [n for n, line in enumerate(lines) if "wire what has to be set" in line]
    return [line.strip() for n in found for line in lines[n : n + 2]]


def wiring_day(text: str, written) -> str:
    """A day in the best week of wiring."""
    session = written(text, "2026-05-02", settings=HOME)
    found = [f for f in session.plan().all() if f.act == "wired"]
    assert found
    return min(f.window.best for f in found).isoformat()


def test_a_chance_of_the_season_stands_once_for_the_trees_of_a_kind(due, written) -> None:
    day = wiring_day(THREE, written)
    found = wiring(due(THREE, day))
    assert len(found) == 2
    assert found[0].startswith("3 trees  wire what has to be set") and found[1] == (
        "ash, birch, crow"
    )


def test_so_it_does_for_several_kinds_with_the_same_work_in_the_same_week(due) -> None:
    """Tropical kinds have it by the same months; what is said of one kind names its trees."""
    some = trees("ash", "birch", kind="willow-leaf fig") + trees("crow", kind="serissa")
    text = PLACE + some + trees("elm", kind="Fukien tea") + "2026-05-01\nall\n  noted  well\n"
    found = due(text, "2026-08-20")
    (n,) = [n for n, line in enumerate(found) if "trim the next flush" in line]
    assert found[n].strip().startswith("4 trees")
    told = [line.strip() for line in found[n + 1 : n + 5]]
    assert sorted(told[0].split(", ")) == ["ash", "birch", "crow", "elm"]
    json_of = json.loads("\n".join(due(text, "2026-08-20", "--json")))
    cautions = {one["tree"]: one["cautions"] for one in json_of if "next flush" in one["title"]}
    assert set(cautions) == {"ash", "birch", "crow", "elm"}
    for tree, said in cautions.items():
        for one in said:
            of = [other for other in cautions if one in cautions[other]]
            whose = "" if len(of) == 4 else f" ({', '.join(of)})"
            assert any(line == f"! {one}{whose}" for line in told), (tree, one)


def test_it_shrinks_as_its_trees_are_done(due, written) -> None:
    day = wiring_day(THREE, written)
    done = THREE + f"{day}\ncrow\n  wired  3 mm Al on left 1\n"
    assert wiring(due(done, day))[1] == "ash, birch"


def test_skipped_for_all_of_a_kind_closes_it(due, written) -> None:
    day = wiring_day(THREE, written)
    skipped = THREE + f"{day}\nall trident maple\n  skipped  wire\n"
    assert wiring(due(skipped, day)) == []


def test_a_planned_one_stands_for_itself(due, written) -> None:
    day = wiring_day(THREE, written)
    planned = THREE + f"2026-05-02\ncrow\n  planned  wire, to {day}\n"
    found = works(due(planned, day))
    assert any(line.startswith("crow") and " wire " in line for line in found)
    assert wiring(due(planned, day))[1] == "ash, birch"


# ------------------------------------------------------------------ the keeper's word


def test_a_promise_over_a_season_old_stands_in_a_group_of_its_own(due) -> None:
    text = PLACE + trees("crow") + "2026-03-02\ncrow\n  planned  carve, to 2026-04\n"
    late = due(text, "2026-06-01")
    assert any("carve" in line and "was due 30 April" in line for line in late)
    # 30 April and 150 days are 27 September.
    old = due(text, "2026-09-28")
    heading = next(n for n, line in enumerate(old) if line.startswith("Given word"))
    assert "carve" in old[heading + 1]
    assert any("carve" in line for line in due(text, "2027-10-01"))


def test_a_promise_kept_or_taken_back_is_closed(due) -> None:
    text = PLACE + trees("crow") + "2026-03-02\ncrow\n  planned  carve, to 2026-04\n"
    assert not any("carve" in x for x in due(text + "2026-10-01\ncrow\n  carved\n", "2026-10-02"))
    skipped = text + "2026-10-01\ncrow\n  skipped  carve\n"
    assert not any("carve" in x for x in due(skipped, "2026-10-02"))


def test_put_off_to_another_year_it_takes_that_years_id_and_does_not_double(written) -> None:
    """The repotting of 2026, put off to spring 2027, is the repotting of 2027."""
    text = (
        PLACE
        + trees("crow")
        + "2020-03-02\ncrow\n  repotted  same pot\n"
        + "2026-03-10\ncrow\n  put-off  repot, to 2027-03/2027-04\n"
    )
    session = written(text, "2027-03-10", settings=HOME)
    found = [f for f in session.plan().all() if f.act == "repotted" and f.window.opens.year < 2028]
    assert [f.id for f in found if f.is_open(session.today)] == ["crow/trident-repot/2027"]
    (one,) = (f for f in found if f.id == "crow/trident-repot/2027")
    assert one.promised and one.window.closes.isoformat() == "2027-04-30"
    assert {f.id: f.state(session.today) for f in found}["crow/trident-repot/2026"] == "replaced"


def test_a_plan_has_at_stake_what_gave_way_to_it(written) -> None:
    """A repotting that is due, planned: a year without it harms the tree, planned or not."""
    text = (
        PLACE
        + trees("crow")
        + "2020-03-02\ncrow\n  repotted  same pot\n"
        + "2026-03-02\ncrow\n  planned  repot, to 2026-04\n  planned  carve, to 2026-04\n"
    )
    session = written(text, "2026-03-03", settings=HOME)
    found = {f.act: f.weight.at_stake for f in session.plan().find("crow/planned/")}
    assert found == {"repotted": "harm", "carved": "style"}


def test_the_same_look_of_a_season_is_one_line(due) -> None:
    looks = [line for line in works(due(THREE, "2026-05-12")) if "check for pests" in line]
    assert looks and all(line.startswith("3 trees") for line in looks)


def test_one_promise_written_down_twice_is_one_line(due) -> None:
    text = (
        PLACE
        + trees("crow")
        + "2026-03-02\ncrow\n  planned  carve, to 2026-04\n"
        + "2026-03-09\ncrow\n  planned  carve, to 2026-04\n"
    )
    assert len([line for line in works(due(text, "2026-04-10")) if "carve" in line]) == 1


def test_what_is_billed_is_a_promise_to_hand_it_back(written, states) -> None:
    text = (
        "place yard\n  latitude  52 N\nperson marrow\n"
        "tree crow\n  kind   trident maple\n  owner  marrow\n"
        "2026-05-02\ncrow\n  received  from marrow\n2026-06-01\ncrow\n  billed  130 EUR\n"
    )
    session = written(text, "2026-06-02")
    (one,) = session.plan().find("/hand-back/")
    assert one.promised and one.state(session.today) == "now"
    assert "EUR" not in " ".join(reason.text for reason in one.because)
    back = text + "2026-06-10\ncrow\n  returned\n"
    assert states(written(back, "2026-06-11"), "/hand-back/") == {}


def test_a_tree_not_wired_for_years_stands_for_itself(written) -> None:
    """Known since 2022 and never wired; the others came this year."""
    old = THREE + "2022-05-01\ncrow\n  noted  well\n"
    session = written(old, "2026-05-02", settings=HOME)
    wired = {f.tree: f for f in session.plan().all() if f.act == "wired" and "/2026" in f.id}
    assert {tree: f.singly for tree, f in wired.items()} == {
        "ash": False,
        "birch": False,
        "crow": True,
    }
    told = " ".join(reason.text for reason in wired["crow"].because)
    assert "No wiring is written down since 1 May 2022." in told
