"""The year ahead, its weeks evened out: literal cases, and what holds for any works.

25 November 2026 is a Wednesday (ISO 8601), so the first week begins on Monday the 23rd.
"""

from __future__ import annotations

from datetime import date, timedelta
from random import Random

from hypothesis import given
from hypothesis import strategies as st

from backbud.plan.followups import FollowUp
from backbud.plan.season import WEEK, WeeksAhead, Work, by_best, minutes_over, open_works, season_of
from backbud.species import Window
from backbud_grammar.acts import ROWS

TODAY = date(2026, 11, 25)
MONDAY = date(2026, 11, 23)


def work(
    name: str, minutes: int, opens: int, best: int, closes: int, can_wait: bool = True
) -> Work:
    """A work whose days are counted from today."""
    days = (TODAY + timedelta(n) for n in (opens, best, closes))
    return Work(name, name, "pruned", name, minutes, *days, can_wait)


def where(season: WeeksAhead) -> dict[str, date]:
    return {p.work.id: p.day for week in season.weeks for p in week.works}


def loads(season: WeeksAhead) -> list[int]:
    return [week.minutes for week in season.weeks]


def test_within_the_limit_all_stand_on_their_best_day() -> None:
    found = season_of(by_best([work("a", 60, 0, 3, 60), work("b", 60, 0, 4, 60)]), TODAY, 120)
    assert where(found) == {"a": date(2026, 11, 28), "b": date(2026, 11, 29)}
    assert loads(found)[:2] == [120, 0]


def test_an_overfull_week_gives_to_the_nearest_lighter_one() -> None:
    works = [work("a", 60, 0, 1, 30), work("b", 60, 0, 1, 1), work("c", 60, 0, 8, 30)]
    found = season_of(by_best(works), TODAY, 60)
    # b cannot move; a goes past the second week, which c fills, to the Monday of the third.
    assert where(found) == {
        "a": date(2026, 12, 7),
        "b": date(2026, 11, 26),
        "c": date(2026, 12, 3),
    }
    assert (found.unmoved[:3], tuple(loads(found)[:3])) == ((120, 60, 0), (60, 60, 60))


def test_a_work_may_go_into_the_last_week_of_its_window() -> None:
    # a may be done until Friday 4 December; the week of Monday 30 November alone has room for it.
    works = [work("a", 60, 0, 1, 8), work("b", 60, 0, 1, 1)]
    found = season_of(by_best(works), TODAY, 60)
    assert where(found) == {"a": date(2026, 11, 30), "b": date(2026, 11, 26)}


def test_of_two_weeks_as_near_the_day_stays_as_near_the_best_one_as_it_can() -> None:
    # Best on Wednesday 9 December; open from 1 December, so the week before ends on Sunday the 6th.
    works = [work("a", 60, 6, 14, 14), work("b", 61, 14, 14, 14)]
    found = season_of(by_best(works), TODAY, 61)
    assert where(found)["a"] == date(2026, 12, 6)


def test_what_hangs_on_others_keeps_its_day() -> None:
    works = [work("a", 60, 0, 1, 30, can_wait=False), work("b", 60, 0, 1, 30, can_wait=False)]
    assert set(where(season_of(by_best(works), TODAY, 60)).values()) == {date(2026, 11, 26)}


def test_without_a_limit_nothing_moves() -> None:
    works = [work(name, 600, 0, 1, 30) for name in "abc"]
    found = season_of(by_best(works), TODAY, 0)
    assert set(where(found).values()) == {date(2026, 11, 26)}
    assert found.weeks[0].minutes == 1800


def test_one_work_larger_than_a_week_stays_where_it_is() -> None:
    found = season_of(by_best([work("a", 600, 0, 1, 60)]), TODAY, 60)
    assert where(found) == {"a": date(2026, 11, 26)}


def test_what_is_best_after_the_year_is_left_out() -> None:
    # The last of 52 weeks begins on 15 November 2027 and ends on the 21st, 361 days from today.
    found = season_of(by_best([work("in", 5, 0, 361, 400), work("out", 5, 0, 362, 400)]), TODAY, 60)
    assert set(where(found)) == {"in"}
    assert found.weeks[-1].monday == date(2027, 11, 15)


def follow_up(act: str, window: tuple[date, date, date], **given: object) -> FollowUp:
    given = {"row": ROWS[act], **given}
    return FollowUp("x", "oak", act, act, Window(*window), (), (), 20, (act,), **given)


def test_open_works_are_best_today_at_the_earliest_and_late_ones_are_now() -> None:
    now = follow_up("pruned", (date(2026, 11, 1), date(2026, 11, 10), date(2026, 12, 1)))
    late = follow_up("wired", (date(2026, 9, 1), date(2026, 9, 10), date(2026, 10, 1)))
    fed = follow_up("fed", (date(2027, 4, 1), date(2027, 4, 10), date(2027, 4, 30)))
    done = follow_up(
        "pruned", (date(2026, 11, 1), date(2026, 11, 10), date(2026, 12, 1)), outcome="done"
    )
    first, second, third = open_works([now, late, fed, done], TODAY)
    assert (first.opens, first.best, first.closes) == (TODAY, TODAY, date(2026, 12, 1))
    assert first.can_wait
    assert (second.best, second.closes, second.late, second.can_wait) == (TODAY, TODAY, True, False)
    assert (third.best, third.can_wait) == (date(2027, 4, 10), False)


@st.composite
def any_works(draw: st.DrawFn) -> list[Work]:
    found = []
    for n in range(draw(st.integers(0, 40))):
        opens = draw(st.integers(0, 380))
        best = opens + draw(st.integers(0, 40))
        closes = best + draw(st.integers(0, 60))
        minutes = draw(st.sampled_from([0, 5, 20, 45, 60, 120, 300, 700]))
        found.append(work(f"w{n:02}", minutes, opens, best, closes, draw(st.booleans())))
    return found


limits = st.sampled_from([0, 1, 60, 150, 300, 1800])


@given(any_works(), limits)
def test_never_outside_the_window_and_nothing_is_lost(works: list[Work], limit: int) -> None:
    found = season_of(by_best(works), TODAY, limit)
    horizon = MONDAY + 52 * WEEK
    assert set(where(found)) == {one.id for one in works if one.best < horizon}
    for week in found.weeks:
        for placed in week.works:
            assert placed.work.opens <= placed.day <= placed.work.closes
            assert week.monday <= placed.day < week.monday + WEEK
            if not placed.work.can_wait:
                assert placed.day == placed.work.best


@given(any_works(), limits)
def test_no_worse_than_every_work_on_its_best_day(works: list[Work], limit: int) -> None:
    """Worse: more minutes over the limit; or as many, and a larger largest week."""
    found = season_of(by_best(works), TODAY, limit)
    before = [0] * 52
    for one in works:
        at = (one.best - MONDAY).days // 7
        if at < 52:
            before[at] += one.minutes
    assert list(found.unmoved) == before
    after = loads(found)
    assert sum(after) == sum(before)
    if limit:
        assert minutes_over(after, limit) <= minutes_over(before, limit)
        assert max(after) <= max(before)
    else:
        assert after == before


@given(any_works(), limits, st.integers())
def test_the_same_whatever_order_the_works_come_in(
    works: list[Work], limit: int, seed: int
) -> None:
    shuffled = list(works)
    Random(seed).shuffle(shuffled)
    assert season_of(by_best(shuffled), TODAY, limit) == season_of(by_best(works), TODAY, limit)


@given(any_works(), limits)
def test_at_the_end_no_single_move_would_help(works: list[Work], limit: int) -> None:
    if not limit:
        return
    found = season_of(by_best(works), TODAY, limit)
    now = loads(found)
    over = minutes_over(now, limit)
    for n, week in enumerate(found.weeks):
        for placed in week.works if now[n] > limit else ():
            one = placed.work
            first = max((one.opens - MONDAY).days // 7, 0)
            last = min((one.closes - MONDAY).days // 7, 51)
            for m in range(first, last + 1) if one.can_wait else ():
                after = list(now)
                after[n] -= one.minutes
                after[m] += one.minutes
                assert minutes_over(after, limit) >= over


def moved_by_hand(works: list[Work], limit: int) -> dict[str, int]:
    """The week of each work as the docstring of the module has it, every move tried each time.

    Of the moves out of a week the one that takes most off what is over, then the nearest to the
    best week, the longest work, the first id, the first week.
    """
    at = {one.id: week for one in works if (week := (one.best - MONDAY).days // 7) < 52}
    here = [one for one in works if one.id in at]
    loads = [sum(one.minutes for one in here if at[one.id] == n) for n in range(52)]

    def moves(n: int) -> list[tuple[int, int, int, str, int]]:
        return [
            (change, abs(to - (one.best - MONDAY).days // 7), -one.minutes, one.id, to)
            for one in here
            if at[one.id] == n and one.can_wait and one.minutes and loads[n] > limit
            for to in range(
                max((one.opens - MONDAY).days // 7, 0), min((one.closes - MONDAY).days // 7, 51) + 1
            )
            if loads[to] < limit
            and (
                change := max(loads[to] + one.minutes - limit, 0)
                - min(one.minutes, loads[n] - limit)
            )
            < 0
        ]

    moved = True
    while moved:
        moved = False
        for n in sorted(range(52), key=lambda n: (-loads[n], n)):
            while found := moves(n):
                _, _, shorter, ident, to = min(found)
                moved, at[ident] = True, to
                loads[n] += shorter
                loads[to] -= shorter
    return at


@given(any_works(), limits)
def test_each_move_is_the_best_of_all(works: list[Work], limit: int) -> None:
    found = season_of(by_best(works), TODAY, limit)
    weeks = {p.work.id: n for n, week in enumerate(found.weeks) for p in week.works}
    if limit:
        assert weeks == moved_by_hand(works, limit)
