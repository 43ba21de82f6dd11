"""The years of a tree as they are drawn: where each mark stands, how long a coil is, what soft."""

from __future__ import annotations

import re
from datetime import date

import pytest
from tests.pages.conftest import TODAY, event, plan, tree
from tests.pages.test_render import Outline

from backbud.collection.state import Entry
from backbud.pages import Nursery, render_pages
from backbud.plan.followups import FollowUp
from backbud_grammar.syntax import Detail


def page_of(history: tuple[Entry, ...], plans: tuple[FollowUp, ...] = ()) -> str:
    view = Nursery("Years", TODAY, "", (tree("hoshi", history=history),), {"hoshi": plans})
    return render_pages(view)["trees/hoshi.html"].decode()


def line_of(page: str, year: int) -> str:
    found = re.search(rf'<div class="year-line"><b>{year}</b>(.*?)</div>', page)
    assert found, year
    return found[1]


def wired(when: str, part: str, line: int = 1) -> Entry:
    words = (Detail("wire", "2 mm Al", part=part),)
    return Entry(event("wired", when, f"2 mm Al on {part}", details=words, line=line))


def unwired(when: str, *parts: str) -> Entry:
    details = tuple(Detail("", part=part) for part in parts)
    return Entry(event("unwired", when, ", ".join(parts), details=details))


@pytest.mark.parametrize(
    ("act", "sign"),
    [("pruned", "cut"), ("defoliated", "cut"), ("repotted", "roots"), ("fed", "feed"),
     ("moved", "move"), ("staged", "seen"), ("bloomed", "seen")],
)  # fmt: skip
def test_each_work_has_its_mark_on_its_day(act: str, sign: str) -> None:
    """2 July is the 183rd day: 1 + 98 x 182 / 366 = 49.7 % across."""
    line = line_of(page_of((Entry(event(act, "2026-07-02")),)), 2026)
    assert f'<use href="#s-{sign}" x="49.7%"/>' in line


def test_what_has_no_mark_draws_no_years() -> None:
    assert 'id="years"' not in page_of((Entry(event("noted", "2026-07-02", "dry")),))


def test_a_coil_goes_from_on_to_off_over_the_years() -> None:
    page = page_of((wired("2024-07-02", "left 2"), unwired("2025-07-02", "left 2")))
    # 2 July of a leap year is the 184th day: 50.0 %; its 31 December the 366th: 98.7 %.
    assert '<rect x="50.0%" y="8" width="48.7%"' in line_of(page, 2024)
    assert '<rect x="1.0%" y="8" width="48.7%"' in line_of(page, 2025)
    assert "<rect" not in line_of(page, 2026)


def test_wire_that_is_still_on_is_drawn_until_today() -> None:
    # 25 November is the 329th day: 1 + 98 x 328 / 366 = 88.8 %.
    page = page_of((wired("2026-07-02", "left 2"), wired("2026-08-01", "apex", 2)))
    assert re.findall(r'<rect x="(\S+)%" y="8" width="(\S+)%"', line_of(page, 2026)) == [
        ("49.7", "39.1")
    ]


def test_a_part_that_is_unwired_leaves_the_others_on() -> None:
    page = page_of(
        (wired("2025-03-01", "left 2"), wired("2025-03-01", "apex", 2),
         unwired("2025-07-02", "left 2"))
    )  # fmt: skip
    # Apex is still on: to the end of the year and on.
    assert '<rect x="1.0%"' in line_of(page, 2026)


def test_a_rough_date_is_a_soft_band_over_what_it_can_mean() -> None:
    line = line_of(page_of((Entry(event("repotted", "2024-03")),)), 2024)
    # 1 March 2024 is the 61st day, 31 March the 91st.
    assert '<line class="rough" x1="17.1%" x2="25.1%"' in line
    assert '<use class="rough" href="#s-roots" x="21.1%"' in line


def test_what_is_foreseen_is_unfilled_and_what_is_far_is_not_drawn() -> None:
    near = plan("hoshi", "repotted", "repot", (date(2027, 3, 1), date(2027, 3, 10),
                                               date(2027, 3, 20)))  # fmt: skip
    far = plan("hoshi", "pruned", "prune", (date(2028, 3, 1), date(2028, 3, 10),
                                            date(2028, 3, 20)))  # fmt: skip
    page = page_of((Entry(event("fed", "2026-05-01")),), (near, far))
    assert '<use class="ahead" href="#s-roots"' in line_of(page, 2027)
    assert "<b>2028</b>" not in page
    # The line of this year is wood until today, and thin after it.
    assert re.findall(r'class="(wood[ a-z]*)"', line_of(page, 2026)) == ["wood", "wood ahead"]
    assert "roots feed foreseen JFMAMJJASOND" in Outline(page.encode()).text


def test_what_was_not_done_after_all_is_not_drawn() -> None:
    undone = event("defoliated", "2025-06-20", "full", details=(Detail("not done"),))
    said = event("corrected", "2025-06-22", "defoliated 2025-06-20, not done",
                 named="defoliated", details=(Detail("not done"),))  # fmt: skip
    page = page_of((Entry(undone, corrected_by=said, as_written=undone),))
    assert 'id="years"' not in page


def test_one_line_a_year_the_newest_first() -> None:
    page = page_of((Entry(event("fed", "2021-05-01")),))
    years = re.findall(r'class="year-line"><b>(\d+)</b>', page)
    assert years == ["2026", "2025", "2024", "2023", "2022", "2021"]
