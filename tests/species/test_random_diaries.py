"""Random diaries of any species, compiled whole: what must hold for every follow-up of a plan.

A diary is drawn as dated lines that a practitioner might write, each act in its months of the
year, and goes through a real journal: written, read, planned.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date, timedelta
from itertools import groupby
from random import Random
from typing import Any, NamedTuple

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.examples import examples
from tests.species.conftest import COOL_HIGH, COOL_LOW, WARM_HIGH, WARM_LOW, turned
from tests.species.test_every_species import KINDS, TWO_FLUSH

from backbud.plan.common import RULES
from backbud.plan.followups import FollowUp
from backbud.plan.run import Plan
from backbud.plan.waits import waits_on_weather
from backbud.species import rules_of
from backbud_grammar.acts import ACTS

YEARS = (2023, 2024, 2025, 2026)
TODAYS = tuple(date(2026, *day) for day in ((2, 20), (5, 10), (7, 20), (11, 20)))
# Northern days on which no stage of the year has begun, so that what hangs on them is asked of the
# tree as it is now; where it is warm, only the first of them.
BEFORE_GROWTH = ((1, 2), (2, 8))
OPEN = ("overdue", "now", "coming")
PAST_FORMS = {form.word for form in ACTS}
COMMON_IDS = {rule.id for module in RULES for rule in rules_of(module)}
KEEPERS_IDS = {"planned", "check-again"}

# Each line with the northern months in which it is written.
ALL_YEAR = tuple(range(1, 13))
LINES: tuple[tuple[str, tuple[int, ...]], ...] = (
    ("pruned hard on left 1", (2, 3, 6, 7, 11)),
    ("pruned by a third on apex", (2, 6)),
    ("pruned light", (3, 6, 8, 11)),
    ("repotted same pot", (3, 4, 6)),
    ("repotted same pot, off 30 %", (2, 3, 4)),
    ("repotted same pot, off 90 %, wedges N E S", (3, 4)),
    ("repotted same pot, no root work", (5, 9)),
    ("potted-on loosened", (3, 4, 5)),
    ("root-pruned off 30 %", (3, 4)),
    ("slipped", (5, 6)),
    ("wired 2 mm Al on left 1", (1, 2, 6, 11, 12)),
    ("wired 3 mm Cu on trunk", (2, 10)),
    ("bent heavy on trunk", (2, 6, 11)),
    ("bent light on left 1", (2, 6)),
    ("trimmed", (5, 6, 7, 8)),
    ("trimmed low", (6,)),
    ("pinched", (4, 5, 6)),
    ("defoliated full", (6,)),
    ("defoliated partial", (6, 7)),
    ("decandled", (6, 7)),
    ("decandled weak", (6,)),
    ("plucked", (10, 11)),
    ("thinned", (9, 10)),
    ("treated soft soap, against scale", (5, 6, 9)),
    ("treated lime sulphur, winter wash", (1, 12)),
    ("checked pests many", (5, 7, 9)),
    ("checked pests none", (5, 8)),
    ("checked strength weak", (4, 6, 9)),
    ("checked roots rotten", (3, 9)),
    ("checked roots fine", (3,)),
    ("checked wire loose", (4, 7)),
    ("vigour top 4, low 2", (6, 9)),
    ("vigour weak", (5, 9)),
    ("vigour strong", (6, 9)),
    ("vigour 3", (7,)),
    ("fed", (4, 5, 6, 9)),
    ("watered", ALL_YEAR),
    ("moved glass", (3, 11)),
    ("moved yard", (4, 5)),
    ("protected fleece", (1, 11)),
    ("shaded 40 %", (6, 7)),
    ("disbudded all", (4, 5)),
    ("deadheaded", (5, 6)),
    ("carved jin on left 3", (1, 2, 8)),
    ("drained 3 min", ALL_YEAR),
    ("opened hard surface", (5, 7)),
    ("noted a hard surface", (6,)),
    ("grafted thread, on right 1, taped", (3,)),
    ("layered on apex", (5, 6)),
    ("planned repot, to 2027-03", (9, 10, 11)),
    ("put-off repot, to 2027-04", (3, 4)),
    ("skipped feed", (6,)),
    ("staged 10", (4,)),
)
ARRIVALS = ("bought", "bought imported", "collected", "received imported", "noted here all along")


Lines = tuple[tuple[date, str], ...]


class Diary(NamedTuple):
    """What is drawn: a tree of a species at a place, and its dated lines."""

    kind: Any
    southern: bool
    weather: str
    strength: str
    today: date
    lines: Lines

    def cards(self) -> str:
        """The places, the tree, and another tree that nothing hangs on."""
        means = {"cool": (COOL_LOW, COOL_HIGH), "warm": (WARM_LOW, WARM_HIGH)}.get(self.weather)
        months = ""
        if means:
            low, high = (turned(m) if self.southern else m for m in means)
            months = f"  low  {_row(low)} C\n  high  {_row(high)} C\n"
        strength = f"  strength  {self.strength}\n" if self.strength else ""
        return (
            f"place yard\n  cover  open\n  latitude  {-45 if self.southern else 50}\n{months}\n"
            "place glass\n  within  yard\n  cover  unheated glass\n\n"
            "place room\n  within  yard\n  cover  indoors\n\n"
            f"tree sora\n  kind  {self.kind.botanical}\n  place  yard\n{strength}\n"
            "tree other\n  kind  a shrub of no known sort\n  place  yard\n"
        )

    def pages(self, more: Lines = (), chosen: Callable[[date], bool] = lambda day: True) -> str:
        """The diary with more lines, a page for each day that is chosen."""
        lines = sorted((*self.lines, *more), key=lambda line: line[0])
        return "".join(
            f"\n{day}\nsora\n" + "".join(f"  {text}\n" for _, text in of_day)
            for day, of_day in groupby(lines, key=lambda line: line[0])
            if chosen(day)
        )


def _row(months: tuple[float, ...]) -> str:
    return " ".join(f"{value:g}" for value in months)


def _day(year: int, month: int, day: int, southern: bool) -> date:
    return date(year, (month + 5) % 12 + 1 if southern else month, day)


@st.composite
def diaries(draw: st.DrawFn, kinds: Any = KINDS, last: tuple[str, ...] = ()) -> Diary:
    """A tree of any of these species, and what a practitioner may have written of it.

    `last`: lines of which one stands last, a week before today, when
    nothing grows yet.
    """
    southern = draw(st.booleans())
    weather = draw(st.sampled_from(("cool", "warm", "unknown")))
    today = draw(st.sampled_from(TODAYS))
    if last:
        month, day = draw(st.sampled_from(BEFORE_GROWTH[: 1 if weather == "warm" else 2]))
        today = _day(2026, month, day, southern)
    come = _day(draw(st.sampled_from(YEARS[:3])), draw(st.integers(1, 12)), 5, southern)
    lines = [(come, draw(st.sampled_from(ARRIVALS)))]
    for text, months in draw(st.lists(st.sampled_from(LINES), max_size=9)):
        year, month = draw(st.sampled_from(YEARS)), draw(st.sampled_from(months))
        day = _day(year, month, draw(st.integers(6, 28)), southern)
        if come < day <= today - timedelta(days=10):
            lines.append((day, text))
    if last:
        # So that root work may be due again by now.
        lines.append((come + timedelta(days=1), "repotted same pot"))
        text = draw(st.sampled_from(last))
        # A tree that has just come has no lines before.
        lines = [] if text in ARRIVALS else lines
        lines.append((today - timedelta(days=7), text))
    return Diary(
        draw(st.sampled_from(kinds)),
        southern,
        weather,
        draw(st.sampled_from(("", "weak", "fair", "strong"))),
        today,
        tuple(lines),
    )


Planned = Callable[..., Plan]


@pytest.fixture
def compiled(written) -> Planned:
    """Write a diary, read it and plan it: `compiled(diary, today, more, before, in_files)`."""

    def plan(
        diary: Diary,
        today: date | None = None,
        more: Lines = (),
        before: str = "",
        in_files: bool = False,
    ) -> Plan:
        texts = {"journal.txt": before + diary.pages(more)}
        if in_files:
            # Every other day in a file that is read before, and the cards in the last one.
            texts = {
                "a.txt": diary.pages(more, lambda day: day.toordinal() % 2 == 0),
                "b.txt": before + diary.pages(more, lambda day: day.toordinal() % 2 == 1),
            }
        cards = {"z.txt" if in_files else "cards.txt": diary.cards()}
        on = (today or diary.today).isoformat()
        session = written(
            texts.pop("journal.txt", "# No line here.\n"),
            on,
            files={**texts, **cards},
            settings='home = "yard"\n',
        )
        return session.plan(["sora"])

    return plan


def of_tree(plan: Plan) -> dict[str, FollowUp]:
    return {one.id: one for one in plan.follow_ups["sora"]}


def said(plan: Plan) -> dict[str, Any]:
    """What a person is told of each follow-up: all of it but the lines where the reasons stand."""
    return {
        one.id: (
            one.act,
            one.title,
            one.window,
            tuple((reason.sort, reason.text) for reason in one.because),
            one.cautions,
            one.outcome,
            one.settled_by,
        )
        for one in plan.follow_ups["sora"]
    }


# ------------------------------------------------------------------ what holds for each follow-up


def is_sound(one: FollowUp, diary: Diary) -> None:
    """A window in order, a chain of sentences that begins in the diary or a season, a real act."""
    window, kind = one.window, diary.kind
    assert window.opens <= window.best <= window.closes
    assert one.act in PAST_FORMS
    assert {words.split()[0] for words in one.settled_by} <= PAST_FORMS
    first, *more = one.because
    # The chain ends, or begins, in what was written or in a season.
    assert first.sort in ("diary", "season", "plan") or more[-1].sort in ("diary", "season")
    assert first.sort == "season" or first.origin is not None
    for text in (*(reason.text for reason in one.because), *one.cautions):
        assert len(text) > 8 and text.endswith("."), text
        assert text[0].isupper() or text[0].isdigit(), text
        assert "  " not in text and " ." not in text and ".." not in text, text
    is_named_well(one, diary)
    if kind.botanical not in TWO_FLUSH:
        assert one.act != "decandled"
    if kind.evergreen:
        # BBCH 93 to 97 is leaf fall, which an evergreen never reaches.
        assert not re.search(r"BBCH 9[3-7]", " ".join(reason.text for reason in one.because))


def is_named_well(one: FollowUp, diary: Diary) -> None:
    """handle/rule/cause, and a part: a rule that exists, on a line of the diary or on a year."""
    handle, rule, cause, *part = one.id.split("/")
    assert handle == "sora" and len(part) <= 1
    assert re.fullmatch(r"[a-z0-9/-]+", one.id), one.id
    of_species = {rule.id for rule in rules_of(diary.kind())}
    assert rule in of_species | COMMON_IDS | KEEPERS_IDS, rule
    written = {f"{text.split()[0]}-{day}" for day, text in diary.lines}
    if rule in KEEPERS_IDS:
        assert cause[-10:] in {day.isoformat() for day, _ in diary.lines}
    elif one.because[0].sort == "season":
        growing_year = r"(\d{4})-(\d{2})" if diary.southern else r"\d{4}"
        assert re.fullmatch(growing_year, cause), cause
    else:
        assert cause in written, cause


def is_told_alike(compiled: Planned, diary: Diary) -> None:
    """Neither another order of files, nor another day, nor an entry that is no matter of it."""
    plan = compiled(diary)
    now = said(plan)
    assert said(compiled(diary)) == now
    assert said(compiled(diary, in_files=True)) == now
    first = min(day for day, _ in diary.lines)
    before = f"\n{first - timedelta(days=40)}\nother\n  repotted same pot\n"
    assert said(compiled(diary, before=before)) == now
    visitors = ((first + timedelta(days=1), "noted visitors at noon"),)
    assert said(compiled(diary, more=visitors)) == now
    # A month later, in the same growing year and with no line more, the same is asked; only what
    # rests on weather that is expected may go with it.
    later = of_tree(compiled(diary, diary.today + timedelta(days=30)))
    for ident, one in of_tree(plan).items():
        if ident not in later and waits_on_weather(one, diary.today):
            continue
        assert (later[ident].act, later[ident].title) == (one.act, one.title)
        if diary.weather == "unknown":
            assert later[ident].window == one.window


# How an act that wants words is written when it is done.
DONE_AS = {
    "repotted": "repotted same pot",
    "wired": "wired 2 mm Al on left 1",
    "vigour": "vigour 3",
    "protected": "protected fleece",
    "shaded": "shaded 40 %",
    "fed": "fed",
}


def line_that_does(one: FollowUp) -> str:
    """The act as a keeper would enter it, on its part where it has one."""
    words = one.settled_by[0]
    _, rule, _, *part = one.id.split("/")
    if words == "moved":
        # No frost comes under glass; but a tree that is tender comes into warmth.
        inside = "moved room" if rule == "tender-in" else "moved glass"
        return inside if part == ["in"] else "moved yard"
    if part and (named := part[0].replace("-", " ")) in ("left 1", "right 1", "apex", "trunk"):
        return f"{words} on {named}"
    return DONE_AS.get(words, words)


def is_settled_by_its_act(compiled: Planned, diary: Diary, one: FollowUp) -> None:
    """Entered on its best day it asks for nothing more."""
    day = max(one.window.best, min(day for day, _ in diary.lines))
    today = max(day, diary.today)
    done = line_that_does(one)
    after = of_tree(compiled(diary, today, more=((day, done),))).get(one.id)
    assert after is None or after.state(today) not in OPEN, (one.id, f"{day} {done}")


# ------------------------------------------------------------------ strength first

HARD = {"repotted", "root-pruned", "potted-on", "lifted", "defoliated", "decandled", "bent"}
ROOTS = {"repotted", "root-pruned", "potted-on", "lifted"}
# What a tree answers once a season, as it is written in the lines above.
INSULTS = (
    "pruned hard",
    "pruned by a third",
    "repotted same pot, off",
    "root-pruned",
    "bent heavy",
    "defoliated full",
    "decandled",
)
AILING = ("checked pests many", "checked strength weak", "checked roots rotten", "treated soft")
WELL = ("checked pests none", "checked roots fine")


def is_hard(one: FollowUp) -> bool:
    return one.act in HARD or (one.act == "pruned" and "hard:" in one.title)


def why_held(one: FollowUp, diary: Diary, strength: str) -> str:
    """Why the tree does not bear a hard work in its window, by the lines alone; "" if it does."""
    opens, cause = one.window.opens, one.id.split("/")[2]
    year = date(int(cause[:4]), 7 if diary.southern else 1, 1)
    before = [(day, text) for day, text in diary.lines if day < opens]

    def last(*begin: str) -> date:
        return max((day for day, text in before if text.startswith(begin)), default=date.min)

    if strength == "weak":
        return "weak"
    if last(*AILING) > last(*WELL) and last(*AILING) >= opens - timedelta(weeks=8):
        return "sick"
    if last("collected") >= year - timedelta(days=365):
        return "collected"
    if last("bought imported", "received imported") >= opens - timedelta(days=365):
        return "imported"
    if one.act not in ROOTS and last(*INSULTS) >= min(year, opens - timedelta(days=150)):
        return "worked"
    if one.act == "decandled" or (one.act == "defoliated" and "fully" in one.title):
        return "" if strength == "strong" else "not strong"
    return ""


def is_spared(plan: Plan, diary: Diary) -> None:
    """No hard work of the year to come on a tree that does not bear it, nor any on a weak one."""
    of_species = {rule.id for rule in rules_of(diary.kind())}
    strength = plan.trees["sora"].strength
    for one in of_tree(plan).values():
        ours = one.id.split("/")[1] in of_species and one.because[0].sort == "season"
        begun = one.because[0].text.startswith("Winter ") and diary.today.month in (2, 8)
        if (
            not ours
            or begun
            or one.window.opens < diary.today
            or one.state(diary.today) not in OPEN
        ):
            continue
        if is_hard(one):
            assert why_held(one, diary, strength) == "", (one.id, one.title)
        if one.act in ("pinched", "wired", "trimmed", "pruned", "thinned", "plucked"):
            assert strength != "weak", one.id


# ------------------------------------------------------------------ the tests

FAST = settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
# Few species are decandled, and those should come often.
MORE_PINES = [*KINDS, *(kind for kind in KINDS for _ in range(9) if kind.botanical in TWO_FLUSH)]
LAST_LINES = (
    "vigour weak",
    "vigour strong",
    "checked pests many",
    "root-pruned off 30 %",
    "pruned hard on left 1",
    "bought imported",
    "collected",
    "watered",
)


@settings(FAST, max_examples=examples(20))
@given(diary=diaries())
def test_every_follow_up_of_a_random_diary_is_sound(compiled, diary):
    plan = compiled(diary)
    assert plan.follow_ups["sora"]
    for one in plan.follow_ups["sora"]:
        is_sound(one, diary)


@settings(FAST, max_examples=examples(5))
@given(diary=diaries())
def test_a_follow_up_is_told_alike_however_the_diary_lies(compiled, diary):
    is_told_alike(compiled, diary)


@settings(FAST, max_examples=examples(20))
@given(diary=diaries(), choice=st.randoms(use_true_random=False))
def test_a_follow_up_is_settled_by_its_act_on_its_best_day(compiled, diary, choice):
    asked = [one for one in of_tree(compiled(diary)).values() if one.state(diary.today) in OPEN]
    if asked:
        is_settled_by_its_act(compiled, diary, choice.choice(asked))


@settings(FAST, max_examples=examples(20))
@given(diary=diaries(MORE_PINES, last=LAST_LINES))
def test_no_hard_work_is_asked_of_a_tree_that_does_not_bear_it(compiled, diary):
    is_spared(compiled(diary), diary)


# ------------------------------------------------------------------ the same for each species


# Drawn once; the long lane takes every species.
SOME_KINDS = sorted(Random(13).sample(KINDS, 2), key=KINDS.index)


@pytest.mark.slow
@pytest.mark.parametrize("kind", SOME_KINDS)
@settings(FAST, max_examples=examples(5))
@given(data=st.data())
def test_all_of_it_for_some_species(compiled, kind, data):
    all_of_it(compiled, kind, data)


@pytest.mark.long
@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS)
@settings(FAST, max_examples=5)
@given(data=st.data())
def test_all_of_it_for_each_species(compiled, kind, data):
    all_of_it(compiled, kind, data)


def all_of_it(compiled, kind, data):
    diary = data.draw(diaries([kind]))
    follow_ups = of_tree(compiled(diary)).values()
    for one in follow_ups:
        is_sound(one, diary)
    asked = [one for one in follow_ups if one.state(diary.today) in OPEN]
    for one in data.draw(st.lists(st.sampled_from(asked), max_size=3) if asked else st.just(())):
        is_settled_by_its_act(compiled, diary, one)
    is_told_alike(compiled, diary)
    held = data.draw(diaries([kind], last=LAST_LINES))
    is_spared(compiled(held), held)
