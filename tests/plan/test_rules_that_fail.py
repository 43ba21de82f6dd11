"""A rule that raises is a problem of the journal's, and everything else is planned."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.journal.problems import as_problems
from backbud.plan.run import plan_all
from backbud.species import (
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Season,
    Species,
    Tree,
    Window,
    Year,
    after,
    days_after,
    each,
)

JOURNAL = """
    place yard
      latitude  56
    tree hoshi
      kind      pattern
    tree yuki
      kind      pattern
    2026-05-01
    hoshi, yuki
      wired     3 mm Al
"""


class Good(Species):
    botanical = "Arbor exempli"
    common = ("pattern",)

    @each("summer", rule="good")
    def good(self, tree: Tree, season: Season, year: Year) -> Proposals:
        yield Proposal(
            "trimmed", year.months((6, 1), (6, 5), (6, 15)), "It is trimmed.", weight=PRESSING
        )


class Raises(Good):
    @after("wired", rule="bad")
    def bad(self, tree: Tree, done: Event, year: Year) -> Proposals:
        yield Proposal("fed", days_after(done.day, 1, 2, 3), "Before it fails.", weight=PRESSING)
        raise KeyError("nothing so called")


class NoProposal(Good):
    @after("wired", rule="bad")
    def bad(self, tree: Tree, done: Event, year: Year) -> Proposals:
        yield "feed it"  # type: ignore[misc]


class NoAct(Good):
    @after("wired", rule="bad")
    def bad(self, tree: Tree, done: Event, year: Year) -> Proposals:
        yield Proposal(
            "feed", days_after(done.day, 1, 2, 3), "The past form is fed.", weight=PRESSING
        )


class NoSettlingAct(Good):
    @after("wired", rule="bad")
    def bad(self, tree: Tree, done: Event, year: Year) -> Proposals:
        yield Proposal(
            "fed", days_after(done.day, 1, 2, 3), "", settled_by=("feeded",), weight=PRESSING
        )


class NoWindow(Good):
    @after("wired", rule="bad")
    def bad(self, tree: Tree, done: Event, year: Year) -> Proposals:
        yield Proposal("fed", Window(done.day, date(2020, 1, 1), done.day), "", weight=PRESSING)


class NoRoom(Good):
    @after("wired", rule="bad")
    def bad(self, tree: Tree, done: Event, year: Year) -> Proposals:
        yield Proposal("fed", days_after(done.day, 0, 0, 10**7), "", weight=PRESSING)


class NoGenerator(Good):
    @after("wired", rule="bad")
    def bad(self, tree: Tree, done: Event, year: Year) -> Proposals:
        return None  # type: ignore[return-value]


@pytest.mark.parametrize(
    ("species", "what"),
    [
        (Raises(), "KeyError: 'nothing so called'"),
        (NoProposal(), "TypeError: it yielded 'feed it', which is no Proposal"),
        (NoAct(), "ValueError: “feed” is no act in its past form"),
        (NoSettlingAct(), "ValueError: “feeded” is no act in its past form"),
        (NoWindow(), "ValueError: window not in order"),
        (NoRoom(), "OverflowError"),
        (NoGenerator(), "TypeError"),
    ],
)
def test_what_a_rule_raises_is_a_problem_and_the_rest_is_planned(written, species, what) -> None:
    session = written(JOURNAL)
    plan, flaws = plan_all(
        session.journal, session.histories, lambda kind: species, session.weather, session.today
    )
    (problem,) = as_problems(flaws, session.texts)
    assert problem.code == "rule-failed"
    # Once, and not for each tree; at the card of the first.
    assert problem.message.startswith("the rule “bad” failed for hoshi and 1 more: " + what)
    assert (problem.file, problem.line) == ("journal.txt", 4)
    found = {follow_up.id for follow_up in plan.all()}
    for handle in ("hoshi", "yuki"):
        assert f"{handle}/good/2026" in found
        assert f"{handle}/wire-check/wired-2026-05-01" in found


def test_the_problem_says_where_the_rule_failed(written) -> None:
    session = written(JOURNAL)
    plan, flaws = plan_all(
        session.journal, session.histories, lambda kind: Raises(), session.weather, session.today
    )
    (problem,) = as_problems(flaws, session.texts)
    assert problem.code == "rule-failed"
    assert "test_rules_that_fail.py:" in problem.message
    assert problem.message.endswith("in bad)")
    # What it yielded before is kept.
    assert {f.id for f in plan.all() if "/bad/" in f.id} == {
        "hoshi/bad/wired-2026-05-01",
        "yuki/bad/wired-2026-05-01",
    }


class Many(Good):
    """As many proposals as its class says."""

    so_many = 0

    @after("wired", rule="many")
    def many(self, tree: Tree, done: Event, year: Year) -> Proposals:
        for n in range(self.so_many):
            yield Proposal("fed", days_after(done.day, 1, 2, 3), "", part=str(n), weight=PRESSING)


@pytest.mark.parametrize(("so_many", "failed"), [(500, 0), (501, 1)])
def test_a_rule_has_five_hundred_proposals_of_a_tree_at_the_most(written, so_many, failed) -> None:
    session = written(JOURNAL, "2026-06-01")
    species = Many()
    species.so_many = so_many
    _, flaws = plan_all(
        session.journal, session.histories, lambda kind: species, session.weather, session.today
    )
    assert len(flaws) == failed
    assert all("“many” failed for hoshi and 1 more" in one.flaw.message for one in flaws)
