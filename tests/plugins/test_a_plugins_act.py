"""An act that a plugin adds by a row is what its row says, wherever acts are told apart.

The row: root work of 45 minutes that cuts roots and keeps its day; in part where it says `lightly`.
"""

from __future__ import annotations

import json
from datetime import date

import pytest

from backbud.collection.hard_work import extent_of, is_root_work
from backbud.plan.season import open_works
from backbud.views.history import entry_view
from backbud.views.plain_words import done_lines
from backbud_grammar.acts import ACTS

PLUGIN = """\
from backbud.species import CARE, ActForm, Effort, Form, Proposal, each

acts = (
    ActForm(
        "air-spaded",
        "air-spade",
        "Roots",
        (Form("lightly", ("lightly",)), Form("soon", ("soon",))),
        work="roots",
        minutes=45,
        traits=("root_work", "cuts_roots", "stresses", "once_a_year", "keeps_day",
                "skilled", "shapes"),
        effort=Effort("hard", part=("lightly",)),
        called=("air spade",),
        cautions=("Wear goggles.",),
        plainly="the soil blown from its roots",
    ),
    ActForm("re-housed", "re-house", "Roots", (Form("into", ("into",), refers=("pot",)),),
            traits=("potting", "fills_pot")),
)

@each("summer", rule="own-spade")
def spade(tree, season, year):
    window = year.months((12, 1), (12, 8), (12, 20))
    yield Proposal("air-spaded", window, "The soil is hard.", weight=CARE)
"""
TODAY = date(2026, 11, 20)


@pytest.fixture
def spaded(yard):
    yard.plugin(PLUGIN)
    yard.append("pot tray\n  inside 30 x 20 x 6 cm\n")
    yard.trust()
    return yard


def proposed(yard):
    return next(f for f in yard.open().plan().all() if f.id == "hoshi/own-spade/2026")


def last_act(yard):
    return yard.open().plan().trees["hoshi"].history[-1].event


def test_its_work_has_its_minutes_its_cautions_and_its_day(spaded) -> None:
    one = proposed(spaded)
    assert (one.title, one.minutes, one.cautions) == ("air spade", 45, ("Wear goggles.",))
    (work,) = open_works([one], TODAY)
    assert (work.called, work.minutes, work.can_wait) == ("air spade", 45, False)


def test_its_minutes_are_learned_by_the_name_that_worked_calls_it_by(spaded) -> None:
    for day in (3, 4, 5):
        spaded.append(f"2026-05-0{day}\nhoshi\n  air-spaded\n  pruned\n")
        spaded.append("  worked 90 min, on air spade\n")
    assert proposed(spaded).minutes == 90


def test_it_stands_in_the_feed_of_its_kind_of_work(spaded) -> None:
    assert spaded.run("make", "--on", str(TODAY))[0] == 0
    feeds = spaded.folder / f"made-on/{TODAY}/calendars/works"
    lines = (feeds / "roots.ics").read_text().splitlines()
    assert any(line.startswith("SUMMARY:") and "air spade" in line for line in lines)
    assert not (feeds / "other.ics").exists()


@pytest.mark.parametrize(
    ("day", "outcome"),
    # Root work counts half a year early: 180 days before 1 December 2026 is 4 June.
    [("2026-06-04", "done"), ("2026-06-03", "open")],
)
def test_it_settles_as_early_as_root_work_does(spaded, day, outcome) -> None:
    spaded.append(f"{day}\nhoshi\n  air-spaded\n")
    assert proposed(spaded).outcome == outcome


def test_a_plan_of_it_stands_for_what_is_proposed_within_the_year(spaded) -> None:
    spaded.append("2026-02-01\nhoshi\n  planned air-spade, to 2026-08-20\n")
    assert proposed(spaded).outcome == "replaced"


@pytest.mark.parametrize(
    ("words", "extent", "root_work"), [("", "hard", True), ("lightly", "part", False)]
)
def test_it_is_hard_root_work_unless_its_words_say_less(spaded, words, extent, root_work) -> None:
    spaded.append(f"2026-10-01\nhoshi\n  air-spaded {words}\n")
    done = last_act(spaded)
    assert (extent_of(done), is_root_work(done)) == (extent, root_work)
    spaded.append("2026-10-02\nhoshi\n  planned repot, to 2026-11-25\n")
    (repot,) = [f for f in spaded.open().plan().all() if f.act == "repotted" and f.planned]
    warned = "One insult a season: it was air-spaded on 1 October 2026." in repot.cautions
    assert warned == (extent == "hard")


def test_its_cut_roots_keep_a_summer_cover_on_for_four_weeks(spaded) -> None:
    spaded.append("2026-06-10\nhoshi\n  air-spaded\n2026-06-12\nhoshi\n  protected with net\n")
    (off,) = [f for f in spaded.open(date(2026, 6, 20)).plan().all() if "/protection-off/" in f.id]
    # 28 days after 12 June.
    assert off.window.best == date(2026, 7, 10)


def test_what_fills_a_pot_puts_the_tree_into_it_and_stands_for_a_repotting(spaded) -> None:
    spaded.append("2026-06-01\nhoshi\n  planned repot, to 2026-10-20\n2026-10-20\nhoshi\n")
    spaded.append("  re-housed into tray\n")
    plan = spaded.open().plan()
    assert plan.trees["hoshi"].pot == "tray"
    (repot,) = [f for f in plan.all() if f.planned]
    assert (repot.outcome, repot.settled.act) == ("done", "re-housed")


def test_it_is_drawn_found_and_told_to_an_owner_as_its_row_says(spaded) -> None:
    spaded.append("2026-10-01\nhoshi\n  air-spaded lightly -- with a borrowed blower\n")
    done = last_act(spaded)
    assert entry_view(spaded.open().plan().trees["hoshi"].history[-1]).sign == "roots"
    (told,) = done_lines([done], lambda written: "", 2026)
    assert (told.when, told.what) == ("1 October", "The soil blown from its roots: lightly")
    assert spaded.run("make", "--on", str(TODAY))[0] == 0
    made = spaded.folder / f"made-on/{TODAY}"
    assert any("blower" in path.read_text() for path in (made / "find").glob("*.js"))


def test_its_owner_is_told_to_bring_the_tree_for_it_and_reads_of_it_in_its_papers(spaded) -> None:
    journal = spaded.folder / "journal.txt"
    journal.write_text(journal.read_text().replace("tree hoshi\n", "tree hoshi\n  owner iria\n"))
    spaded.append("person iria\n  name Iria\n2026-04-01\nhoshi\n  received\n")
    spaded.append("2026-05-20\nhoshi\n  air-spaded\n2026-11-03\nhoshi\n  returned\n")
    status, out, err = spaded.run("papers", "iria", "--json", "--on", str(TODAY))
    assert status == 0, err
    papers = json.loads(out)
    (care,) = papers["care"]
    assert [one["what"] for one in care["back"] if one["what"].startswith("Air")] == ["Air spade"]
    assert not any(one["what"].startswith("Air") for one in care["do"])
    (provenance,) = papers["provenance"]
    told = [line["what"] for year in provenance["years"] for line in year["done"]]
    assert told == ["Wired: 3 mm aluminium", "The soil blown from its roots"]


def test_a_misspelt_one_names_it(spaded) -> None:
    spaded.append("2026-10-01\nhoshi\n  air-spadde\n")
    (problem,) = spaded.problems()
    assert "air-spade" in problem.hint


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("traits=('arrival',)", "only the language's own acts bring a tree here"),
        ("traits=('root-work',)", "an act is not in order"),
        ("work='root'", "an act is not in order"),
        ("minutes=0", "takes a minute at least, not 0"),
    ],
)
def test_a_row_that_is_not_in_order_is_a_problem_at_its_line(yard, row, said) -> None:
    yard.plugin(
        "from backbud.species import ActForm\n\n"
        f"acts = (ActForm('sung-to', 'sing-to', 'Keep', {row}),)\n"
    )
    problem = yard.fault()
    assert (problem.line, said in problem.message) == (3, True), problem.message


def test_every_row_of_the_language_takes_time_and_is_counted_as_some_work() -> None:
    assert [act.word for act in ACTS if act.minutes < 1 or act.work == "other"] == []


@pytest.mark.parametrize("word", ["air-spade", "air-spaded"])
def test_a_plan_of_it_stands_in_the_history_as_it_was_written(spaded, word) -> None:
    spaded.append(f"2026-10-01\nhoshi\n  planned {word}, to 2026-12-20\n")
    assert spaded.problems() == []
    line = entry_view(spaded.open().plan().trees["hoshi"].history[-1])
    assert (line.act, line.text) == ("planned", f"{word}, to 2026-12-20")


def test_the_rules_on_its_traits_run_after_it(spaded) -> None:
    spaded.append("2026-05-10\nhoshi\n  air-spaded\n2026-05-11\nhoshi\n  re-housed\n")
    after = {f.id for f in spaded.open().plan().all() if f.tree == "hoshi"}
    assert {
        "hoshi/feed-rests/air-spaded-2026-05-10",
        "hoshi/root-rest/air-spaded-2026-05-10",
    } <= after
    assert "hoshi/feed-rests/re-housed-2026-05-11" not in after


def test_a_rule_may_hang_on_a_trait_and_a_misspelt_one_is_a_problem(yard) -> None:
    rule = (
        "from backbud.species import *\n"
        "@after(having=('{}',), rule='own')\n"
        "def look(tree, done, year):\n"
        "    yield Proposal('checked', days_after(done.day, 1, 2, 3), 'Look.', weight=CARE)\n"
    )
    yard.append("2026-11-19\nhoshi\n  slipped\n")
    yard.plugin(rule.format("potting"))
    yard.trust()
    assert "hoshi/own/slipped-2026-11-19" in {f.id for f in yard.open().plan().all()}
    yard.plugin(rule.format("poting"))
    assert "“poting” is no trait of acts: arrival, raised" in yard.fault().message
