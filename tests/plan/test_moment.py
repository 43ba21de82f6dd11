"""The state of the moment counts: what was done to a tree lately takes other works away."""

from __future__ import annotations

import pytest

YARD = """
place yard
  cover     open
  latitude  52.9 N
  longitude  1.2 W
  low   1.4 1.2 2.7 4.1 6.9 9.8 11.9 11.8 9.8 7.1 3.9 1.6 C
  high  6.9 7.3 9.9 12.6 16.0 18.9 21.3 20.9 18.0 13.8 9.8 7.1 C
place glass
  cover     unheated glass
"""
HOME = 'home = "yard"\n'


def tree(kind: str) -> str:
    return f"tree crow\n  kind   {kind}\n  place  yard\n2024-06-01\ncrow\n  noted  well\n"


@pytest.fixture
def open_on(written):
    def titles(kind: str, diary: str, day: str, act: str = "") -> list[str]:
        """What is to be done now or comes within the year, by title."""
        session = written(YARD + tree(kind) + diary, day, settings=HOME)
        return [
            f.title
            for f in session.plan().all()
            if f.is_open(session.today)
            and act in ("", f.act)
            and (f.window.opens - session.today).days < 200
        ]

    return titles


def test_no_wiring_after_root_work_or_hard_pruning(open_on) -> None:
    """Satsuki are wired from 1 February to 31 March; what is cut in that time is not bent too."""
    assert open_on("satsuki azalea", "", "2026-03-12", "wired") == ["wire what has to be set"]
    for done in ("repotted  same pot", "pruned  hard"):
        diary = f"2026-03-10\ncrow\n  {done}\n"
        assert open_on("satsuki azalea", diary, "2026-03-12", "wired") == []
    light = "2026-03-10\ncrow\n  pruned  light\n"
    assert open_on("satsuki azalea", light, "2026-03-12", "wired") == ["wire what has to be set"]


def test_no_flower_buds_to_take_off_where_they_came_off(open_on) -> None:
    assert any("before the flowers open" in t for t in open_on("satsuki azalea", "", "2026-05-14"))
    # Cut back all over on 20 February, the wood with next summer's buds is gone.
    for diary in (
        "2026-02-20\ncrow\n  pruned  hard\n",
        "2026-05-01\ncrow\n  disbudded  all\n",
    ):
        for act in ("disbudded", "deadheaded"):
            assert open_on("satsuki azalea", diary, "2026-05-14", act) == [], (diary, act)


def test_repotting_does_not_run_through_the_flowers(written) -> None:
    """A satsuki is repotted after its flowers, and in spring where its buds came off."""

    def window(diary: str, day: str) -> tuple[str, str]:
        text = YARD + tree("satsuki azalea").replace("2024-06-01", "2021-06-20").replace(
            "noted  well", "repotted  same pot"
        )
        session = written(text + diary, day, settings=HOME)
        year = session.plan().find("crow/satsuki-root-work/2026")
        (one,) = year
        stages = session.plan().species["crow"].stage_months
        assert stages
        return one.window.opens.isoformat()[5:], one.window.closes.isoformat()[5:]

    opens, closes = window("", "2026-03-01")
    # By the table of stages flowers end from 8 June to 2 July in a place like this.
    assert opens >= "06-01" and closes <= "08-15"
    opens, closes = window("2026-02-20\ncrow\n  disbudded  all\n", "2026-03-01")
    assert opens >= "03-01" and closes <= "05-01"


def test_glass_in_autumn_is_until_spring(open_on) -> None:
    autumn = "2026-10-10\ncrow\n  repotted  same pot\n"
    moves = open_on("satsuki azalea", autumn, "2026-10-11", "moved")
    assert moves == ["move under unheated glass until spring"]
    summer = "2026-06-20\ncrow\n  repotted  same pot\n"
    moves = open_on("satsuki azalea", summer, "2026-06-21", "moved")
    assert "move under unheated glass until spring" not in moves
    # Once in, it is asked out once, in spring.
    went = autumn + "2026-10-12\ncrow\n  moved  glass\n"
    assert open_on("satsuki azalea", went, "2026-10-13", "moved") == ["move out again, to yard"]


def test_two_ways_out_of_one_cover_are_one(open_on) -> None:
    pruned = "2026-06-01\ncrow\n  pruned  hard\n2026-06-03\ncrow\n  moved  glass\n"
    out = [t for t in open_on("satsuki azalea", pruned, "2026-06-10", "moved") if "out" in t]
    assert len(out) == 1


def test_no_feed_into_winter(written) -> None:
    """Repotted on 22 August: feed from 19 September to 17 October would grow what frost kills."""
    text = YARD + tree("trident maple")
    session = written(
        text + "2026-08-22\ncrow\n  repotted  same pot\n", "2026-08-23", settings=HOME
    )
    (one,) = session.plan().find("crow/feed-rests/")
    assert one.window.closes.isoformat() == "2026-09-30"
    session = written(text, "2026-08-23", settings=HOME)
    fed = [f for f in session.plan().all() if f.act == "fed"]
    assert fed
    for one in fed:
        assert one.window.closes.month <= 11
