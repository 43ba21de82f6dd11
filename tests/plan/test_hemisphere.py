"""In which half of the Earth home lies is told by its resolved position, for all that it turns."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.make import make
from backbud.pages.links import EVERYTHING
from backbud.session import open_session
from backbud_grammar.problems import show

# Feeding in spring: 1, 10 and 30 April; six months later in the south (the rule is that of the
# pattern species of the tests).
NORTH = ["2026-04-01", "2026-04-10", "2026-04-30"]
SOUTH = ["2026-10-01", "2026-10-10", "2026-10-30"]
GHCN = '"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME","TMAX","TMIN"\n' + (
    '"ASN00099999","2026-01-01","{latitude}","144.9","31","SOMEWHERE","250","150"\n'
)
TREE = "tree hoshi\n  kind  garden shrub\n  place  {place}\n2026-03-01\nhoshi\n  watered\n"


@pytest.mark.parametrize(
    ("cards", "settings", "southern"),
    [
        # GeoNames: Melbourne, Australia -37.8; Seattle 47.6.
        ("place yard\n  town Melbourne, Australia\n", 'home = "yard"', True),
        ("place yard\n  town Seattle\n", 'home = "yard"', False),
        ("place yard\n  Latitude  -37.8\n", 'home = "yard"', True),
        ("place yard\n  LATITUDE  37.8 S\n", 'home = "yard"', True),
        ("place yard\n  latitude -37.8\n", 'home = "Yard"', True),
        ("place Yard\n  latitude -37.8\n", 'home = "yard"', True),
        ("place garden\n  latitude -37.8\nplace yard\n  within garden\n", 'home = "yard"', True),
        ("place yard\n  within garden\nplace garden\n  town Melbourne, Australia\n", "", True),
        ("place yard\n  formerly back\n  latitude -37.8\n", 'home = "back"', True),
        ("place yard\n  latitude 52-53 N\n", 'home = "yard"', False),
        ("place yard\n  latitude 37-38 S\n", 'home = "yard"', True),
        ("place yard\n  latitude 52 N\n  name  latitude of the SEAS\n", "", False),
        ("place yard\n  latitude\n    37.8 S\n", "", True),
        ("place yard\n  weather station.csv\n", 'home = "yard"', True),
        # What the card says comes before its files' station.
        ("place yard\n  latitude 52 N\n  weather station.csv\n", 'home = "yard"', False),
        # With no home named it is the first place whose card says where it is.
        ("place bench\nplace yard\n  latitude -37.8\n", "", True),
        ("place bench\nplace yard\n  town Melbourne, Australia\n", "", True),
    ],
)
def test_the_position_of_home_turns_the_year(
    written, find, days, pattern, cards, settings, southern
) -> None:
    weather = {"station.csv": GHCN.format(latitude=-37.8)}
    session = written(
        cards + TREE.format(place="yard"),
        "2026-03-20",
        settings=f"{settings}\n",
        files=weather,
        problems=("bad-handle",) if "place Yard" in cards else (),
    )
    assert session.journal.southern is southern
    assert "unknown-hemisphere" not in [p.code for p in session.problems()]
    feeding = find(session, f"feed-spring/{'2026-27' if southern else '2026'}", pattern)
    assert days(feeding) == (SOUTH if southern else NORTH)


@pytest.mark.parametrize(
    ("latitude", "first", "last"),
    [
        ("37.8 S", date(2014, 9, 1), date(2014, 11, 30)),
        ("52 N", date(2014, 3, 1), date(2014, 5, 31)),
    ],
)
def test_the_seasons_of_dates_are_turned(written, latitude, first, last) -> None:
    """EDTF 21 is spring: September to November in the south, on cards and in the diary alike."""
    session = written(
        f"place yard\n  latitude {latitude}\ntree hoshi\n  since 2014-21\n  kind garden shrub\n"
        "2014-21\nhoshi\n  bought\n"
    )
    since = session.journal.things.by_handle["hoshi"].since
    (page,) = session.journal.pages
    assert (since.first, since.last) == (first, last)
    assert (page.when.first, page.when.last) == (first, last)


def test_feeds_and_pages_are_turned_by_the_town(tmp_path) -> None:
    """A moved plant goes into winter quarters and out again by the southern year."""
    (tmp_path / "backbud.toml").write_text('language = 1\nhome = "Yard"\n')
    (tmp_path / "a.txt").write_text(
        "place yard\n  town Melbourne, Australia\nplace glass\n  cover unheated glass\n"
        "tree hoshi\n  kind garden shrub\n  place yard\n2026-05-14\nhoshi\n  moved glass\n"
    )
    make(str(tmp_path), date(2026, 6, 1))
    feed = (tmp_path / "made" / EVERYTHING).read_text()
    # Without weather the way out is 10 March to 10 May in the north, best on 5 April.
    assert "DTSTART;VALUE=DATE:20261005" in feed
    page = (tmp_path / "made/trees/hoshi.html").read_text()
    assert "10 September" in page
    assert "10 November" in page


@pytest.mark.parametrize(
    ("cards", "file", "line", "said"),
    [
        ("", "backbud.toml", 1, "Write on a card of home, place yard: "),
        ("place yard\n", "a.txt", 1, "Write on the card of “yard”: "),
        ("place yard\nplace glass\n  within yard\n", "a.txt", 1, "Write on the card of “yard”: "),
        ("place yard\n  town Nether Qzx\n", "a.txt", 1, "Write on the card of “yard”: "),
    ],
)
def test_where_nobody_says_it_is_told_once_with_how_to_say_it(
    tmp_path, cards, file, line, said
) -> None:
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "a.txt").write_text(cards + "tree hoshi\n  kind trident maple\n")
    session = open_session(str(tmp_path), date(2026, 6, 1))
    (told,) = [p for p in session.problems() if p.code == "unknown-hemisphere"]
    assert (told.file, told.line, told.severity) == (file, line, "warning")
    assert told.message == (
        "nobody says where home is, so the seasons are taken to be those of the north"
    )
    assert told.hint == f"{said}latitude 52 N, or latitude 37.8 S, or town Seattle."
    # Said as the hint has it, nothing is unknown any more.
    for way in ("latitude 52 N", "latitude 37.8 S", "town Seattle"):
        card = f"place yard\n  {way}\n"
        (tmp_path / "a.txt").write_text(card + "tree hoshi\n  kind trident maple\n")
        again = open_session(str(tmp_path), date(2026, 6, 1))
        assert [show(p) for p in again.problems()] == []
        assert again.journal.southern is ("S" in way.split()[-1:])


def test_a_journal_without_trees_needs_no_home(tmp_path) -> None:
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "a.txt").write_text("mix maple\n  akadama 2\n")
    assert open_session(str(tmp_path), date(2026, 6, 1)).problems() == ()


def test_a_place_in_the_other_half_is_told(written) -> None:
    session = written(
        "place yard\n  latitude 52 N\nplace far\n  latitude 37 S\nplace bench\n  within far\n"
        "tree hoshi\n  kind trident maple\n  place far\n",
        problems=("other-hemisphere",),
    )
    (told,) = session.problems()
    assert (told.line, told.severity) == (3, "warning")
    assert told.message == (
        "“far” lies in the other half of the Earth than “yard”; its seasons are taken to be those "
        "of the north too"
    )


@pytest.mark.parametrize(
    ("line", "code"), [("latitude -37.8 N", "two-signs"), ("longitude -4.6 E", "two-signs")]
)
def test_a_minus_and_a_letter_against_it_are_a_problem(written, line, code) -> None:
    session = written(
        f"place yard\n  town Seattle\n  {line}\ntree hoshi\n  kind trident maple\n",
        problems=(code,),
    )
    assert session.journal.southern is False


@pytest.mark.parametrize("letters", ["S N", "N S"])
def test_two_letters_against_each_other_are_a_problem(written, letters) -> None:
    session = written(
        f"place yard\n  town Melbourne, Australia\n  latitude 37.8 {letters}\n"
        "tree hoshi\n  kind trident maple\n",
        problems=("two-signs",),
    )
    (told,) = session.problems()
    assert told.message == f"one letter says {letters[0]}, the other says {letters[2]}"
    assert told.hint == "Write latitude 37.8 S, or latitude 37.8 N."
    # Which half it is, the town says.
    assert session.journal.southern is True


def test_another_town_or_station_turns_a_journal_that_was_remembered(tmp_path) -> None:
    """The cards are the same; only the weather file says that home lies elsewhere."""
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "a.txt").write_text(
        "place yard\n  weather station.csv\ntree hoshi\n  kind trident maple\n"
        "2014-21\nhoshi\n  bought\n"
    )
    for latitude, month in ((47.0, 3), (-37.8, 9), (47.0, 3)):
        (tmp_path / "station.csv").write_text(GHCN.format(latitude=latitude))
        session = open_session(str(tmp_path), date(2026, 6, 1), only_check=True)
        assert session.journal.pages[0].when.first == date(2014, month, 1)


@pytest.mark.parametrize("card", ["town Singapore", "latitude 2 S", "latitude 23.3 N"])
def test_between_the_tropics_months_tell_no_season(written, card) -> None:
    """Without weather a garden at Singapore was told to keep late frost from young leaves in May;
    how warm Bogotá's or Singapore's year is, its latitude does not say."""
    diary = "tree hoshi\n  kind Chinese elm\n2026-05-02\nhoshi\n  wired 2 mm Al on left 1\n"
    session = written(f"place yard\n  {card}\n{diary}", "2026-05-02", problems=("unknown-season",))
    (told,) = session.problems()
    assert (told.line, told.severity) == (1, "warning")
    assert {one.id.split("/")[1] for one in session.plan().all()} == {"wire-check", "wire-off"}
    # Once something is known of its air, all is foretold; further off, the months say something.
    known = f"place yard\n  {card}\n  low {'24 ' * 12}C\n  high {'31 ' * 12}C\n{diary}"
    assert len(list(written(known, "2026-05-02").plan().all())) >= 10
    further = written(f"place yard\n  latitude 24 N\n{diary}", "2026-05-02")
    assert len(list(further.plan().all())) > 20


def test_a_tender_tree_that_came_in_winter_is_late_for_nothing(written) -> None:
    """Bought on 2 May in Melbourne, where figs are in by 15 April: a fortnight is left."""
    session = written(
        "place yard\n  latitude 37.8 S\ntree fig\n  kind willow-leaf fig\n"
        "2026-05-02\nfig\n  bought\n",
        "2026-05-03",
    )
    (asked,) = [f for f in session.plan().all() if f.id.startswith("fig/tender-in/2025-26")]
    assert (asked.window.opens, asked.window.closes) == (date(2026, 5, 2), date(2026, 5, 16))
