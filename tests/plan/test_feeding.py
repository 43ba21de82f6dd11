"""Feeding is a regime: again when it is used up, at rest where the tree rests, and on by itself."""

from __future__ import annotations

import pytest

YARD = """
place yard
  cover     open
  latitude  52.9 N
  longitude  1.2 W
  low   1.4 1.2 2.7 4.1 6.9 9.8 11.9 11.8 9.8 7.1 3.9 1.6 C
  high  6.9 7.3 9.9 12.6 16.0 18.9 21.3 20.9 18.0 13.8 9.8 7.1 C
material pellets
  lasts     8 weeks
material drops
  label     4-2-6
tree crow
  kind   {kind}
  place  yard
2024-06-01
crow
  noted  well
"""
HOME = 'home = "yard"\n'


@pytest.fixture
def feeds(written):
    def of(diary: str, day: str, kind: str = "trident maple") -> dict[str, tuple[str, str]]:
        """Every feed of this year, by its rule and cause: its state, and its first day."""
        session = written(YARD.format(kind=kind) + diary, day, settings=HOME)
        return {
            f.id.removeprefix("crow/"): (f.state(session.today), f.window.opens.isoformat())
            for f in session.plan().all()
            if f.act == "fed" and f.window.opens.year == 2026
        }

    return of


@pytest.mark.parametrize(
    ("what", "again"),
    [
        # A card says eight weeks; a liquid lasts two, cakes five, and what nobody knows four.
        ("pellets", "2026-07-27"),
        ("liquid half strength with drops, 1 L", "2026-06-15"),
        ("4 cakes", "2026-07-06"),
        ("with drops", "2026-06-29"),
    ],
)
def test_it_is_given_again_when_it_is_used_up(feeds, what: str, again: str) -> None:
    found = feeds(f"2026-06-01\ncrow\n  fed  {what}\n", "2026-06-02")
    assert found["feed-again/fed-2026-06-01"] == ("coming", again)


def test_each_feed_sets_the_next(feeds) -> None:
    two = "2026-06-01\ncrow\n  fed  4 cakes\n2026-07-05\ncrow\n  fed  4 cakes\n"
    found = feeds(two, "2026-07-06")
    assert found["feed-again/fed-2026-06-01"][0] == "done"
    assert found["feed-again/fed-2026-07-05"] == ("coming", "2026-08-09")


def test_it_ends_with_the_season_of_feeding(feeds) -> None:
    """Cakes of 10 October would be used up on 14 November: nothing is fed into winter."""
    found = feeds("2026-10-10\ncrow\n  fed  4 cakes\n", "2026-10-11")
    assert not [ident for ident in found if ident.startswith("feed-again")]


def test_it_rests_after_root_work_and_goes_on_by_itself(feeds) -> None:
    fed = "2026-05-20\ncrow\n  fed  4 cakes\n"
    cut = "2026-06-10\ncrow\n  repotted  same pot\n"
    assert feeds(fed, "2026-06-25")["feed-again/fed-2026-05-20"] == ("now", "2026-06-24")
    found = feeds(fed + cut, "2026-06-25")
    assert found["feed-again/fed-2026-05-20"][0] == "replaced"
    # June is out of a trident's time: it is helped for six weeks, or until it is found well; then
    # four weeks are enough.
    assert found["feed-rests/repotted-2026-06-10"] == ("coming", "2026-07-23")
    well = "2026-06-24\ncrow\n  checked  strength, good\n"
    assert feeds(fed + cut + well, "2026-06-25")["feed-rests/repotted-2026-06-10"] == (
        "coming",
        "2026-07-08",
    )


def test_a_weak_tree_is_fed_again_once_it_grows(feeds) -> None:
    fed = "2026-05-20\ncrow\n  fed  4 cakes\n"
    weak = "2026-06-10\ncrow\n  vigour  weak\n"
    strong = "2026-06-24\ncrow\n  vigour  strong\n"
    assert feeds(fed + weak, "2026-06-25")["feed-again/fed-2026-05-20"][0] == "replaced"
    assert feeds(fed + weak + strong, "2026-06-25")["feed-again/fed-2026-05-20"][0] == "now"


def test_none_while_it_flowers(feeds) -> None:
    """Liquid of 20 May would be due on 3 June, in the flowers of a satsuki."""
    found = feeds("2026-05-20\ncrow\n  fed  with drops, 1 L\n", "2026-05-21", "satsuki azalea")
    state, opens = found["feed-again/fed-2026-05-20"]
    assert state == "coming" and opens > "2026-06-15"


def test_one_weak_feed_in_august_does_not_settle_autumn(feeds) -> None:
    fed = "2026-08-05\ncrow\n  fed  liquid half strength with drops, 1 L\n"
    before = feeds("", "2026-08-06")
    autumn = [ident for ident, (_, opens) in before.items() if opens > "2026-08-15"]
    assert autumn
    after = feeds(fed, "2026-08-06")
    for ident in autumn:
        assert after[ident][0] in ("coming", "now"), ident


def test_a_pine_whose_candles_were_cut_out_of_their_time_is_fed_at_once(feeds) -> None:
    fed = "2026-06-01\ncrow\n  fed  4 cakes\n"
    cut = "2026-07-01\ncrow\n  decandled\n"
    pine = "Japanese black pine"
    # Five weeks after it.
    assert feeds(fed, "2026-07-02", pine)["feed-again/fed-2026-06-01"] == ("coming", "2026-07-06")
    found = feeds(fed + cut, "2026-07-02", pine)
    assert found["feed-again/fed-2026-06-01"] == ("coming", "2026-07-06")
    # When the new needles are hard, eight weeks on, and in autumn.
    assert found["black-pine-feed-again/decandled-2026-07-01"] == ("coming", "2026-08-26")
    assert found["black-pine-feed-autumn/2026"][0] == "coming"
