"""Sentences may be translated or reworded, and no plan changes."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace

from backbud.climate.datum import Datum, is_expected, joined
from backbud.plan.asking import Asker
from backbud.plan.followups import FollowUp
from backbud.plan.quote import Quoter
from backbud.plan.waits import waits_on_weather
from backbud.session import open_session
from backbud.species import Proposal

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


def _plans() -> dict[date, dict[str, tuple[object, ...]]]:
    found = {}
    for day in DAYS:
        session = open_session(EXAMPLE, day, as_of=True)
        found[day] = {one.id: _of(one, day) for one in session.plan().all()}
    return found


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
    assert sum(map(len, as_written.values())) > 1000
    for day, plan in as_written.items():
        assert in_nonsense[day].keys() == plan.keys()
        for ident, one in plan.items():
            assert in_nonsense[day][ident] == one, ident


def test_what_is_made_of_an_expected_sentence_is_expected() -> None:
    expected = Datum("It is to be warm.", expected=True)
    assert is_expected(joined(f"{expected} So it waits.", expected))
    assert not is_expected(joined("It was warm. It waits.", Datum("It was warm.")))
    assert not is_expected(f"{expected} So it waits.")
