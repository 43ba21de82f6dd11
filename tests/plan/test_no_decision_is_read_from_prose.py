"""Sentences may be translated or reworded, and no plan changes."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any, cast

import pytest
from msgspec.structs import replace

from backbud.climate.datum import Datum, is_expected, joined
from backbud.collection.state import Tree
from backbud.plan.asking import Asker
from backbud.plan.cautions import cautions_of
from backbud.plan.followups import FollowUp
from backbud.plan.quote import Quoter
from backbud.plan.run import Plan
from backbud.plan.waits import waits_on_weather
from backbud.session import Session, open_session
from backbud.species import Proposal
from backbud.views.bench import at_bench, heading_of
from backbud.views.care import CareGround, care_view
from backbud.views.grounds import grounds_of
from backbud.views.weeks import week_work, weeks_view
from backbud.views.work import work_view

EXAMPLE = str(Path(__file__).parents[2] / "example_journal")
DAYS = (date(2027, 1, 10), date(2027, 5, 20), date(2027, 9, 5))


def _of(follow_up: FollowUp, today: date) -> tuple[object, ...]:
    """All of a follow-up that is no sentence."""
    return (
        follow_up.act,
        follow_up.window,
        follow_up.moved_from,
        follow_up.next_cycle,
        follow_up.state(today),
        follow_up.settled and follow_up.settled.origin,
        follow_up.settled_by,
        follow_up.weight.lapses,
        follow_up.planned,
        follow_up.wedges,
        follow_up.extent,
        follow_up.minutes,
        len(follow_up.cautions),
        # A datum that the season's sentence has said already is not said again.
        [(one.sort, one.origin) for one in follow_up.because if one.sort != "datum"],
        waits_on_weather(follow_up, today),
    )


def _plans() -> dict[date, tuple[dict[str, tuple[object, ...]], dict[str, object]]]:
    found = {}
    for day in DAYS:
        session = open_session(EXAMPLE, day, as_of=True)
        plan = session.plan()
        of_plan = {one.id: _of(one, day) for one in plan.all()}
        found[day] = of_plan, {**_shown(session, plan, day), "cautions": _told(plan, day)}
    return found


def _shown(session: Session, plan: Plan, day: date) -> dict[str, object]:
    """Which works the views show where; of the care sheets how many and for when."""
    names, settings = session.names(), session.journal.settings
    grounds = grounds_of(plan.trees, session.journal.things, names, settings.keeper)
    shown = {
        work.id: (one, work, tree)
        for handle, tree in plan.trees.items()
        for one in plan.follow_ups[handle]
        if (work := work_view(one, tree, names, day)).is_open
    }
    at_bench_now = {
        ident: heading_of(work, day) for ident, (_, work, _) in shown.items() if at_bench(work, day)
    }
    weeks = weeks_view(
        [week_work(one, work, tree, grounds) for one, work, tree in shown.values()],
        len(plan.trees),
        day,
    )
    return {
        "open": {*shown},
        "at the bench": at_bench_now,
        "private": {ident for ident, (_, work, _) in shown.items() if work.private},
        "alone": {*weeks.alone},
        "together": {
            (one.sort, one.name, one.first, one.last): {work.id for work in one.works}
            for one in weeks.together
        },
        "care": {handle: _care(plan, tree, day) for handle, tree in plan.trees.items()},
    }


def _care(plan: Plan, tree: Tree, day: date) -> tuple[object, ...]:
    works = plan.follow_ups[tree.handle]
    ground = CareGround(tree, None, works, (), (), "", "a beginner", None, "home", (), day)
    care = care_view(ground, *cast("Any", (None, None, None)))
    return [one.when for one in care.do], [one.when for one in care.back], len(care.leave)


def _told(plan: Plan, day: date) -> list[tuple[str, object]]:
    """At which lines `check` says something against a work."""
    return [(one.tree, one.origin) for one in cautions_of(plan, day)]


def test_nonsense_for_every_title_and_reason_changes_no_plan(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    as_written = _plans()
    ask = Asker.ask
    said: dict[str, str] = {"": ""}

    def nonsense(text: str) -> str:
        return said.setdefault(text, f"hard part weak {len(said)}")

    def ask_in_nonsense(self: Asker, *args: Any) -> list[Proposal]:
        return [
            replace(
                one,
                what=nonsense(one.what),
                because=nonsense(one.because),
                datum=one.datum and Datum(nonsense(one.datum), is_expected(one.datum)),
                cautions=tuple(nonsense(caution) for caution in one.cautions),
            )
            for one in ask(self, *args)
        ]

    monkeypatch.setattr(Asker, "ask", ask_in_nonsense)
    monkeypatch.setattr(Quoter, "reason", lambda *args, **kwargs: "hard part weak")
    in_nonsense = _plans()
    assert len(said) > 300
    assert sum(len(plan) for plan, _ in as_written.values()) > 1000
    for day, (plan, shown) in as_written.items():
        plan_in_nonsense, shown_in_nonsense = in_nonsense[day]
        assert plan_in_nonsense.keys() == plan.keys()
        for ident, one in plan.items():
            assert plan_in_nonsense[ident] == one, ident
        for where, what in shown.items():
            assert what or where in ("private", "cautions"), where
            assert shown_in_nonsense[where] == what, where


def test_what_is_made_of_an_expected_sentence_is_expected() -> None:
    expected = Datum("It is to be warm.", expected=True)
    assert is_expected(joined(f"{expected} So it waits.", expected))
    assert not is_expected(joined("It was warm. It waits.", Datum("It was warm.")))
    assert not is_expected(f"{expected} So it waits.")
