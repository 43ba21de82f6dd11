"""What anybody but the keeper is shown of a journal, searched for what must not be there."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Literal
from unicodedata import normalize

import pytest
from msgspec.structs import replace

from backbud.plan.stores import stores_of
from backbud.session import Session, open_session
from backbud.views.audience import HELPER, KEEPER, PUBLIC, Audience, Eyes, eyes_of
from backbud.views.grounds import grounds_of
from backbud.views.history import date_view
from backbud.views.people import people_view
from backbud.views.photograph import PhotographView
from backbud.views.published import as_json
from backbud.views.shelf import BuyView, shelf_view
from backbud.views.tree import planned_tree_view
from backbud_grammar.dates import read_date

DAY = date(2026, 6, 1)
SETTINGS = 'language = 1\nhome = "yard"\nkeeper = "wrenfold"\ncurrency = "EUR"\n'
JOURNAL = """\
place yard
  latitude 52 N
place pell-corner
person wrenfold
  name Kit Wrenfold
person marrow
  name Ada Marrow
person pell
  name Jo Pell
material lava
  sold in bag of 14 L
  price   17 EUR
tree hoshi
  kind  trident maple
  owner marrow
  place pell-corner
  note  she haggles
  value 900 EUR
  style upright
tree yuki
  kind  satsuki azalea
  owner pell
  place yard
tree aki
  kind  Japanese black pine
  name  Old Keel
  place yard

2026-03-06
lava
  bought   3 bags, 51 EUR
hoshi
  repotted same pot, 2 cm off below
  wired    3 mm Al on left 2 -- as pell wanted it
  noted    grows towards the lane
  private  the left one is weak
2026-04-02
hoshi
  grafted  from yuki, on apex
  agreed   pruning, 120 EUR
  billed   130 EUR
  worked   40 min
2026-05-20
hoshi
  corrected private 2026-03-06, the left one is sick
"""


@pytest.fixture(scope="module")
def session(tmp_path_factory: pytest.TempPathFactory) -> Session:
    folder: Path = tmp_path_factory.mktemp("audience")
    (folder / "backbud.toml").write_text(SETTINGS)
    (folder / "pell.txt").write_text(JOURNAL)
    return open_session(str(folder), DAY)


def shown(session: Session, eyes: Eyes, handle: str = "hoshi") -> str | None:
    """What these eyes read of a tree, as JSON; None for nothing at all."""
    plan, things = session.plan(), session.journal.things
    keeper = session.journal.settings.keeper
    audience = Audience(eyes, grounds_of(plan.trees, things, session.names(), keeper))
    found = audience.tree(planned_tree_view(plan, handle, session.names(), DAY))
    return None if found is None else as_json(found)


def left(text: str | None, *hidden: str) -> list[str]:
    """Which of what must not be there is there."""
    assert text is not None
    return [word for word in hidden if word.casefold() in text.casefold()]


# Every word of the journal that somebody is not to read.
MONEY = ("EUR", "120", "130", "900", "agreed", "billed")
IN_CONFIDENCE = ("haggles", "is weak", "is sick", '"act": "private"')
OTHERS = ("pell", "yuki", "wrenfold", "keel", "aki")
FREE = ("the lane", "wanted it", ".txt")


def test_the_keeper_reads_all_of_it(session: Session) -> None:
    assert session.problems() == ()
    said = shown(session, KEEPER)
    words = ("haggles", "is sick", '"act": "private"', "120 EUR", "130 EUR", "900 EUR", "the lane",
             "wanted it", "pell.txt", "yuki", "pell-corner", "Ada Marrow")  # fmt: skip
    assert left(said, *words) == list(words)


def test_a_helper_reads_no_money_and_nothing_private(session: Session) -> None:
    said = shown(session, HELPER)
    assert left(said, *MONEY, *IN_CONFIDENCE) == []
    words = ("repotted", "the lane", "wanted it", "upright", "Ada Marrow", "yuki", "40 min")
    assert left(said, *words) == list(words)


def test_an_owner_reads_of_the_own_trees_and_of_nobody_else(session: Session) -> None:
    said = shown(session, eyes_of("marrow"))
    assert left(said, *MONEY, *IN_CONFIDENCE, *OTHERS, *FREE) == []
    # The season is told by its place, which is called for somebody else: so it is left out.
    words = ("repotted", "3 mm Al", "left 2", "upright", "Ada Marrow", "40 min")
    assert left(said, *words) == list(words)
    assert shown(session, eyes_of("marrow"), "yuki") is None
    assert shown(session, eyes_of("marrow"), "aki") is None
    assert shown(session, eyes_of("pell")) is None


def test_of_people_nobody_reads_but_the_keeper(session: Session) -> None:
    plan, things = session.plan(), session.journal.things
    people = people_view(things, plan.trees.values(), session.names(), "wrenfold")
    assert [one.person for one in people] == ["marrow", "pell"]
    grounds = grounds_of(plan.trees, things, session.names(), "wrenfold")
    for eyes in (HELPER, PUBLIC, eyes_of("marrow")):
        assert Audience(eyes, grounds).people(people) == ()
    assert Audience(KEEPER, grounds).people(people) == people


def test_the_public_reads_of_no_tree_that_is_not_public(session: Session) -> None:
    assert [shown(session, PUBLIC, handle) for handle in ("hoshi", "yuki", "aki")] == [None] * 3


def test_the_public_reads_what_was_done_and_no_name(session: Session) -> None:
    plan, things = session.plan(), session.journal.things
    tree = replace(plan.trees["hoshi"], facts={**plan.trees["hoshi"].facts, "public": "yes"})
    grounds = grounds_of({**plan.trees, "hoshi": tree}, things, session.names(), "wrenfold", DAY)
    shown_tree = planned_tree_view(plan, "hoshi", session.names(), DAY)
    # Her card does not say that Ada agrees.
    assert Audience(PUBLIC, grounds).tree(shown_tree) is None
    agreed = replace(grounds, consenting=frozenset({"marrow"}))
    found = Audience(PUBLIC, agreed).tree(shown_tree)
    said = as_json(found)
    hidden = (
        *MONEY,
        *IN_CONFIDENCE,
        *OTHERS,
        *FREE,
        "hoshi",
        "marrow",
        "lava",
        "upright",
        "left 2",
    )
    assert left(said, *hidden) == []
    assert left(said, '"act": "repotted"', "trident maple") == [
        '"act": "repotted"',
        "trident maple",
    ]


def test_what_the_shelf_costs_is_the_keeper_s(session: Session) -> None:
    plan, things = session.plan(), session.journal.things
    stores = stores_of(session.journal, session.histories_of(plan), plan, DAY)
    wanted = BuyView(
        material="lava", name="lava", has_card=True, unit="L", sold_in="bag", units_in_one=14.0,
        wanted=60.0, with_margin=66.0, on_hand=42.0, short=24.0, count=2, cost=Decimal("33.33"),
        entered=True, uses_not_taken_off=0, wants=(),
    )  # fmt: skip
    shelf = replace(shelf_view(stores), buy=(wanted,))
    grounds = grounds_of(plan.trees, things, session.names(), "wrenfold")
    assert left(
        as_json(Audience(KEEPER, grounds).shelf(shelf)), "EUR", "17.00", "51.00", "33.33"
    ) == [
        "EUR",
        "17.00",
        "51.00",
        "33.33",
    ]
    helpers = as_json(Audience(HELPER, grounds).shelf(shelf))
    assert left(helpers, "EUR", "17.00", "51.00", "33.33") == []
    assert left(helpers, "lava", "on_hand") == ["lava", "on_hand"]
    assert [Audience(eyes, grounds).shelf(shelf) for eyes in (eyes_of("marrow"), PUBLIC)] == [
        None,
        None,
    ]


def test_a_photograph_is_seen_by_whom_it_is_marked_for_and_names_no_file(
    session: Session,
) -> None:
    plan, things = session.plan(), session.journal.things
    day = date_view(read_date("2026-03-06"))
    one, two, three = (
        PhotographView(day, day.first, "front", f"{name}-s.jpg", f"{name}-l.jpg", 3, 2,
                       "pell.txt:9", owner, public)
        for name, owner, public in (("a", False, False), ("b", True, False), ("c", False, True))
    )  # fmt: skip
    whole = planned_tree_view(plan, "hoshi", session.names(), DAY, (one, two, three))
    grounds = grounds_of(plan.trees, things, session.names(), "wrenfold")

    def seen(eyes: Eyes) -> list[tuple[str, str]]:
        found = Audience(eyes, grounds).tree(whole)
        assert found is not None
        return [(one.small, one.at) for one in found.photographs]

    every = [(f"{name}-s.jpg", "pell.txt:9") for name in "abc"]
    assert seen(KEEPER) == seen(HELPER) == every
    assert seen(eyes_of("marrow")) == [("b-s.jpg", "")]
    tree = replace(plan.trees["hoshi"], facts={**plan.trees["hoshi"].facts, "public": "yes"})
    grounds = grounds_of({**plan.trees, "hoshi": tree}, things, session.names(), "wrenfold")
    grounds = replace(grounds, consenting=frozenset({"marrow"}))
    assert seen(PUBLIC) == [("c-s.jpg", "")]


def test_where_wire_was_names_nobody_else(session: Session) -> None:
    """A part may be called by a name; the days that wire was on are the tree's own."""
    plan = session.plan()
    grounds = grounds_of(plan.trees, session.journal.things, session.names(), "wrenfold")
    tree = planned_tree_view(plan, "hoshi", session.names(), DAY)
    (wire,) = tree.wires
    assert (wire.part, wire.on, wire.off) == ("left 2", date(2026, 3, 6), None)
    named = replace(tree, wires=(replace(wire, part="Jo Pell's side"),))

    def parts(eyes: Eyes) -> list[str]:
        found = Audience(eyes, grounds).tree(named)
        assert found is not None
        return [one.part for one in found.wires]

    assert parts(KEEPER) == parts(HELPER) == ["Jo Pell's side"]
    assert parts(eyes_of("marrow")) == [""]


def test_a_part_of_a_work_names_nobody_else(session: Session) -> None:
    plan = session.plan()
    grounds = grounds_of(plan.trees, session.journal.things, session.names(), "wrenfold")
    tree = planned_tree_view(plan, "hoshi", session.names(), DAY)
    work = replace(tree.due[0], part="Jo Pell's side")
    for eyes, part in ((KEEPER, "Jo Pell's side"), (eyes_of("marrow"), "")):
        found = Audience(eyes, grounds).work(work)
        assert found is not None and found.part == part


def test_whether_a_work_is_named_to_its_owner_hangs_on_no_title(session: Session) -> None:
    """A plan may be written in any words; a rule's words may be read in whatever language."""
    plan = session.plan()
    grounds = grounds_of(plan.trees, session.journal.things, session.names(), "wrenfold")
    rules = replace(planned_tree_view(plan, "hoshi", session.names(), DAY).due[0], part="")
    assert rules.own_words == ""
    owners = Audience(eyes_of("marrow"), grounds)

    def called(title: str, own_words: str) -> tuple[str, str]:
        found = owners.work(
            replace(rules, act="pruned", title=title, planned=True, own_words=own_words)
        )
        assert found is not None
        return found.title, found.own_words

    assert called("Xyzzy plugh", "") == ("Xyzzy plugh", "")
    assert called("Xyzzy plugh", "left 2") == ("Xyzzy plugh", "")
    assert called("Xyzzy plugh", "for the wedding") == ("prune", "")


@pytest.mark.parametrize(
    ("language", "look", "plain"),
    [("en", "check wire on left 2", "prune"), ("de", "Draht an „left 2“ prüfen", "schneiden")],
)
def test_an_owner_reads_of_a_look_in_any_language(
    tmp_path: Path, language: str, look: str, plain: str
) -> None:
    (tmp_path / "backbud.toml").write_text(SETTINGS + f'speaks = "{language}"\n')
    (tmp_path / "journal.txt").write_text(
        JOURNAL.partition("2026-03-06")[0]
        + "2026-03-06\nhoshi\n  wired 3 mm Al on left 2\n"
        + "2026-05-01\nhoshi\n  checked wire on left 2, again in 6 weeks\n"
        + "  planned prune, for the wedding, to 2026-06\n"
    )
    opened = open_session(str(tmp_path), DAY)
    plan = opened.plan()
    grounds = grounds_of(plan.trees, opened.journal.things, opened.names(), "wrenfold")
    theirs = Audience(eyes_of("marrow"), grounds).tree(
        planned_tree_view(plan, "hoshi", opened.names(), DAY)
    )
    assert theirs is not None
    titles = [one.title for one in theirs.due if one.planned]
    assert titles == [plain, look]


def test_who_buys_one_of_a_batch_reads_nothing_of_the_others(tmp_path: Path) -> None:
    (tmp_path / "backbud.toml").write_text(SETTINGS)
    (tmp_path / "journal.txt").write_text(
        "place yard\n  latitude 52 N\nperson wrenfold\nperson marrow\n  name Ada Marrow\n"
        "tree oldmother\n  kind trident maple\n"
        "2026-03-01\noldmother\n  struck 50 cuttings, as quaillot\n"
        "2026-04-01\nquaillot\n  died 3\n  moved yard\n  parted-off as hina\n"
        "2026-05-01\nhina\n  sold to marrow, 20 EUR, stays\n"
    )
    opened = open_session(str(tmp_path), DAY)
    assert [one.code for one in opened.problems() if one.code != "unknown-species"] == []
    plan = opened.plan()
    shown = planned_tree_view(plan, "hina", opened.names(), DAY)
    assert (shown.parted_from, shown.owner) == ("quaillot", "marrow")
    grounds = grounds_of(plan.trees, opened.journal.things, opened.names(), "wrenfold")
    theirs = Audience(eyes_of("marrow"), grounds).tree(shown)
    assert theirs is not None
    told = as_json(theirs)
    assert "quaillot" not in told
    assert "oldmother" not in told
    # What was done to all of them was done to hers too; of the three that died hers was none.
    # Where it stood and what it cost are the keeper's matter.
    assert [entry.act for entry in theirs.history] == ["struck", "parted-off"]


@pytest.mark.parametrize(
    ("pot", "said"),
    [
        ("grüne-schale", "Repotted: into the pot grüne-schale, 2 cm of the root ball"),
        ("Tray-7", "Repotted: into the pot Tray-7, 2 cm of the root ball"),
        ("jürgen-tray", ""),
        ("mullers-tray", ""),
        ("müllers", ""),
    ],
)
@pytest.mark.parametrize("form", ["NFC", "NFD"])
def test_a_pot_that_is_named_for_somebody_else_is_not_told(
    tmp_path: Path, pot: str, said: str, form: Literal["NFC", "NFD"]
) -> None:
    """Unicode Standard Annex 15: the same letters, composed or not."""
    people = JOURNAL.partition("2026-03-06")[0].replace("Jo Pell", "Jürgen Müller")
    written = normalize(form, pot)
    (tmp_path / "backbud.toml").write_text(SETTINGS)
    (tmp_path / "journal.txt").write_text(
        f"{people}pot {written.lower()}\n  holes  2\n"
        f"\n2026-03-06\nhoshi\n  repotted  into {written}, 2 cm off below\n"
    )
    session = open_session(str(tmp_path), DAY)
    text = normalize("NFC", shown(session, eyes_of("marrow")) or "")
    assert said in text
    if not said:
        for name in ("jürgen", "jurgen", "müller", "muller", "mullers"):
            assert name not in text.casefold()
    assert "into the pot ," not in text
