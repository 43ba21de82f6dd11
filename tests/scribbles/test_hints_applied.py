"""What a message about a scribbled line offers is done literally: the line then reads as meant."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import cache

import pytest
from tests.scribbles.score import HANDS, OTHERS, YEARS, Line, Verdict, read_lines, verdicts

from backbud.session import Session
from backbud_grammar.problems import Problem

_NEAR = re.compile(r"Did you mean “(?P<near>[^”]+)”\?")
_BELONGS = re.compile(r"write a line “(?P<line>[^”]+)”")
_MEANT = re.compile(r"It may have meant (?P<act>[\w-]+)")
# The line says more than its scorer's note does: the pot is the tree's own, which the test tree has
# not; and what stands behind the dashes was the first of its acts.
MORE_THAN_TOLD = (
    "repot straight after: kanuma neat, blue again, 1/3 off below, sphag top, no feed 4 wks"
    " -- sides teased 1in",
    "hosed off first, checked under lvs, clean -- in 28-9",
    "treated water jet\nchecked leaves, clean\nnoted in 28-9",
)
_WRITTEN = re.compile(r"two hyphens: “(?P<line>[^”]+)”")
_LINES = re.compile(r"[Ww]rite (?P<lines>“[^”]+”(?:,(?: and)? below it “[^”]+”)+)")
_AS_WORDS = re.compile(r"write “(?P<noted>noted [^”]+)”")
_NOT_ALL = re.compile(r"write noted: (?P<noted>noted .+?)\.(?: [A-Z]|$)")
_REST_NOTED = "the rest goes on a line that begins with noted"
_AFTER_DASHES = "Free words go after “ -- ”"


def _without(text: str, marked: str) -> str:
    """The line without a piece, and without the comma beside it."""
    at = text.index(marked)
    before, after = text[:at].rstrip(" ,.;"), text[at + len(marked) :].lstrip(" ,.;")
    return ", ".join(filter(None, (before, after)))


def _applied(problem: Problem) -> Iterator[str]:
    """The lines that a hint asks for, where it says what to write."""
    text = problem.source.strip()
    marked = problem.source[problem.column - 1 : problem.column - 1 + problem.length]
    # The hint is about what the message quotes; the mark may reach further.
    quoted = re.match(r"“([^”]+)”", problem.message)
    if quoted and quoted[1] in text:
        marked = quoted[1]
    if found := _LINES.search(problem.hint):
        yield "\n".join(re.findall(r"“([^”]+)”", found["lines"]))
        if found := _AS_WORDS.search(problem.hint):
            yield found["noted"]
    elif found := _AS_WORDS.search(problem.hint) or _NOT_ALL.search(problem.hint):
        yield found["noted"]
    elif problem.hint == "Write inch.":
        yield re.sub(rf"(?<=\d) ?{re.escape(marked)}(?!\w)", " inch", text, count=1)
    elif found := _NEAR.search(problem.hint):
        yield text.replace(marked, found["near"], 1)
    elif found := _BELONGS.search(problem.hint):
        yield f"{_without(text, marked)}\n{found['line']}"
    elif found := _MEANT.search(problem.hint):
        whole = _WRITTEN.search(problem.hint)
        yield whole["line"] if whole else f"{found['act']} {text}"
    elif problem.hint.startswith("Write noted, and then anything"):
        yield f"noted {text}"
    elif _REST_NOTED in problem.hint:
        yield f"{_without(text, marked)}\nnoted {marked}"
    if _AFTER_DASHES in problem.hint:
        yield f"{_without(text, marked)} -- {marked}"


def _same(problem: Problem, other: Problem) -> bool:
    return (problem.code, problem.message) == (other.code, other.message)


@cache
def _tried(hand: str) -> tuple[tuple[Verdict, Problem, Verdict], ...]:
    """Each line, a problem of it, and how the line reads that its hint asks for."""
    cases = [
        (verdict, problem, text)
        for verdict in verdicts(hand)
        for problem in verdict.problems
        for text in _applied(problem)
    ]
    lines = [
        verdict.line._replace(number=1000 + n, text=text)
        for n, (verdict, _, text) in enumerate(cases)
    ]
    after = read_lines(hand, lines)
    return tuple((case[0], case[1], now) for case, now in zip(cases, after, strict=True))


# Of the years' lines those that were written last; all of them with `-m long`.
TRIED = [
    *HANDS,
    *(
        pytest.param(hand, marks=() if hand.startswith("again") else pytest.mark.long)
        for hand in (*YEARS, *OTHERS)
    ),
]


@pytest.mark.parametrize("hand", TRIED)
def test_what_a_hint_offers_puts_the_problem_right(hand: str) -> None:
    wrong = [
        (now.line.text, problem.message, problem.hint)
        for _, problem, now in _tried(hand)
        if problem.severity != "kept" and any(_same(problem, one) for one in now.problems)
    ]
    assert wrong == []


@pytest.mark.parametrize("hand", TRIED)
def test_a_hint_followed_leads_to_no_wrong_act(hand: str) -> None:
    """Nothing changes that the line does not change, but where the act itself was asked about."""
    wrong = [
        (now.line.text, now.acts)
        for _, problem, now in _tried(hand)
        if now.how == "misread" and not _MEANT.search(problem.hint)
    ]
    assert [one for one in wrong if one[0] not in MORE_THAN_TOLD] == []


@pytest.mark.parametrize("hand", TRIED)
def test_the_act_that_may_have_been_meant_is_then_read(hand: str) -> None:
    """`It may have meant treated`: the line that begins with it is that act, or asks about it."""
    wrong = [
        now.line.text
        for _, problem, now in _tried(hand)
        if _MEANT.search(problem.hint) and now.acts[:1] != (now.line.text.split()[0],)
    ]
    assert wrong == []


# What the journal of the hands has not, so that no line could say it there; with it, see below.
_NOTHING_BEFORE = "\n2026-06-01\n"
_MORE_ON_IT = """\
2026-03-01

{trees}
  wired  2 mm Al on left 2, 2 mm Al on right 2
  guyed  1 mm Al on left 3 to the pot

2026-06-01
"""
_HERE_BEFORE, _NOT_ON_IT = "the tree stood here before", "there is none on that branch"
# By the number of the line: its hand, why it was not there, and what to write.
SET_APART = {
    # Where it was away, nothing is left to ask.
    ("one", 6): (_HERE_BEFORE, "in. Ormerod. repot + tidy, said 140, own pot"),
    ("one", 9): (
        _HERE_BEFORE,
        "bought 412\nnoted Dunbeck 12 kanuma medium 6 akadama 10 pumice",
    ),
    ("two", 99): (
        _HERE_BEFORE,
        "bought\nnoted off Gil 650. in wood box since 26, all pumice. no root touching before 29",
    ),
    # Where the wire is on, nothing is left to ask.
    ("one", 63): (_NOT_ON_IT, "wire off R2, biting, 3 rings. rest ok leave"),
    ("three", 45): (_NOT_ON_IT, "wire bites in 2nd left, off at once, rest 1 wk more"),
    ("three", 90): (_NOT_ON_IT, "unguyed on left 3"),
}
# What was done on a day that is not the page's belongs on that day's page, as its message says.
ANOTHER_DAY = (("three", 42), ("three", 63), ("three", 78))


def _reads_as_meant(now: Verdict) -> bool:
    """One step, and nothing is left to ask; what the line told of first is among its acts."""
    is_asked = any(one.severity != "kept" for one in now.problems)
    return not is_asked and now.how != "misread" and not set(now.line.acts).isdisjoint(now.acts)


@pytest.mark.parametrize("hand", HANDS)
def test_one_hint_of_each_refused_line_puts_all_of_it_right(hand: str) -> None:
    refused = {
        verdict.line.number: verdict.line.text
        for verdict in verdicts(hand)
        if any(one.severity != "kept" for one in verdict.problems)
    }
    right = {verdict.line.number for verdict, _, now in _tried(hand) if _reads_as_meant(now)}
    apart = {number for one, number in (*SET_APART, *ANOTHER_DAY) if one == hand}
    left = {n: text for n, text in refused.items() if n not in right | apart}
    assert left == {}
    assert apart <= refused.keys() - right


@pytest.mark.parametrize(("hand", "number"), ANOTHER_DAY)
def test_what_was_done_on_another_day_is_sent_to_its_page(hand: str, number: int) -> None:
    [problems] = [one.problems for one in verdicts(hand) if one.line.number == number]
    assert any("stands below that day's own heading" in one.hint for one in problems)


@pytest.mark.parametrize(("hand", "number"), SET_APART)
def test_with_what_was_not_there_the_hint_puts_it_right_too(
    hand: str, number: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    why, written = SET_APART[hand, number]
    line, told = next((one.line, one.told) for one in verdicts(hand) if one.line.number == number)
    past = _NOTHING_BEFORE if why == _HERE_BEFORE else _MORE_ON_IT
    if written != line.text:
        offered = " ".join(told)
        assert all(f"“{one}”" in offered or one in offered for one in written.split("\n"))
    monkeypatch.setattr("tests.scribbles.score.PAST", past)
    now = read_lines(hand, [line._replace(number=1, text=written)])[0]
    assert [one for one in now.problems if one.severity != "kept"] == []
    assert now.acts[0] in line.acts


def test_many_hints_are_tried() -> None:
    assert sum(len(_tried(hand)) for hand in HANDS) >= 60


def _read_alone(line: str) -> Verdict:
    lines = [Line(n, text, ("noted",), frozenset()) for n, text in enumerate([line, "watered"])]
    return read_lines("one", lines)[0]


@pytest.mark.parametrize(
    ("line", "hint"),
    [
        # What ends or comes off is never offered without what made less of it.
        (
            "died -- 3 of them",
            "Say how many before the dashes; where it is not so, write “noted died -- 3 of them”.",
        ),
        (
            "unwired -- apex stays",
            "Say where it came off before the dashes; where it is not so, write “noted unwired"
            " -- apex stays”.",
        ),
        (
            "wired 2 mm Al on left 2 -- came off again",
            "Where it is not so, write “noted wired 2 mm Al on left 2 -- came off again”.",
        ),
        (
            "wire bites in 2nd left, off tomorrow",
            "Where it is still on, write “noted wire bites in 2nd left, off tomorrow”. Where it"
            " came off, write unwired on left 2.",
        ),
        (
            "repotted 14-3 same pot",
            "What was done on 14-3 stands below that day's own heading, with its year; on this page"
            " write “noted repotted 14-3 same pot”.",
        ),
        ("rain water only", "It may have meant watered: begin the line with that word."),
        (
            "photo, 3x",
            "Where it is so, begin the line with photo; where it is not, with noted.",
        ),
        (
            "guy on 2nd left slackened, was biting",
            "Write guyed where it was done; where it was only seen, write “noted guy on 2nd left"
            " slackened, was biting”.",
        ),
        (
            "moved tunnel, gwen grumbled",
            "Write “moved tunnel”, and below it “noted gwen grumbled”.",
        ),
        (
            "postponed to March",
            "It may have meant put-off: name the work behind it: put-off repot.",
        ),
        (
            "larch adelgid, oil at night",
            "It may have meant treated: write treated first and the rest behind two hyphens:"
            " “treated -- larch adelgid, oil at night”",
        ),
        (
            "shade house, frost tonight",
            "Where the tree went there, write moved shade-house; where it stood, noted.",
        ),
        ("watered 7:30", "An hour is two digits, a colon and two digits: 07:30"),
        (
            "22/h",
            "It may have meant agreed, quoted or worked: begin the line with the one that it was.",
        ),
        (
            "fruits off",
            "It may have meant thinned or fruited: begin the line with the one that it was.",
        ),
        (
            "wired 18 ga on apex",
            "Write it in mm: AWG 18 is 1.0 mm, 16 1.3, 14 1.6, 12 2.1, 10 2.6; an SWG is thicker.",
        ),
        ("stolen from bench", "Write lost stolen."),
        # One hint for the whole line; in doubt, also what to write where it is not so.
        (
            "1 bag per 3 hands of pot, okigoe on",
            "Write “fed 1 bag”, and below it “noted per 3 hands of pot”.",
        ),
        (
            "DEAD. smell of drains, pot scrubbed w bleach",
            "Where it was all of the tree, write “died”, and below it “noted smell of drains, pot"
            " scrubbed w bleach”; where it was not, write “noted DEAD. smell of drains, pot"
            " scrubbed w bleach”.",
        ),
        (
            "hasami only no fingers, strong tips out, 2 hr",
            "Where it was done, write “trimmed strong”, below it “worked 2 h”, and below it “noted"
            " only no fingers”; where it was not, write “noted hasami only no fingers, strong tips"
            " out, 2 hr”.",
        ),
        (
            "candles 3.5 top, sheaths closed yet",
            "Write “measured candles 3.5 cm”, and below it “noted top, sheaths closed yet”."
            " Where it was inch, write that for cm.",
        ),
        # No act is offered that says more than was meant.
        (
            "fed off",
            "Write only what was done, each part in a detail of its own; the rest goes on a line"
            " that begins with noted.",
        ),
        (
            "repot needed, spring",
            "Write repotted where it was done; where it was only seen, write “noted repot needed,"
            " spring”.",
        ),
        ("sold 10 @ 12 to Gil", "Expected an amount such as 120 EUR."),
        (
            "unwired on left 1 and apex",
            "Write only what was done, each part in a detail of its own; the rest goes on a line"
            " that begins with noted.",
        ),
        # Bare, it would free all of the tree.
        (
            "wire biting top R, cut off, paste",
            "Where it came off, write unwired, and of which part: on left 2.",
        ),
        # What may have been meant is no neighbour in letters, and no part is an act.
        ("pulled in, 9 C night coming", "It may have meant moved: begin the line with that word."),
        (
            "L1 guy tightened a notch",
            "It may have meant guyed or checked: begin the line with the one that it was.",
        ),
        ("no. 7 dead, out", "It may have meant died: begin the line with that word."),
        (
            "in flower full 28-5",
            "It may have meant bloomed or staged: begin the line with the one that it was.",
        ),
        (
            "cut from mother, in drum",
            "Write pruned where a branch came off, separated where a layer did.",
        ),
        (
            "Cu 2 mm 1 kg 38 eur from Ruud",
            "It may have meant bought or measured: begin the line with the one that it was.",
        ),
        # Of money the sum is offered, and without one nothing.
        (
            "told Joost 6 h à 25 = 150 plus his van",
            "Write “quoted 150”, and below it “noted 6 h à 25 = 150 plus his van”.",
        ),
        (
            "bill 62,50 + old 26,50 = 89",
            "Where it was done, write “billed 62,50”, and below it “noted 62,50 + old 26,50 = 89”;"
            " where it was not, write “noted bill 62,50 + old 26,50 = 89”.",
        ),
        (
            "invoice 80 for Tante, 2,5 h + pot 5",
            "Write the sum, and the hours after “ -- ”: 120 EUR -- 3 h.",
        ),
        # A slip stays one.
        (
            "repotted same pot, wedgs N, blah zork",
            "Did you mean “wedges”? Free words go after “ -- ”.",
        ),
        # No neighbour in letters alone.
        (
            "rained off. no photos",
            "It may have meant watered or photographed: begin the line with the one that it was.",
        ),
        (
            "cut off moll today",
            "Write pruned where a branch came off, separated where a layer did.",
        ),
    ],
)
def test_a_hint_says_what_to_write(line: str, hint: str) -> None:
    assert _read_alone(line).problems[0].hint == hint


@pytest.mark.parametrize(
    ("line", "act"),
    [
        ("14 buds off, 5 left for show", "disbudded"),
        ("1st wire off apex or so", "unwired"),
        ("cut at cotyledons, 20 in sand as cuttings", "struck"),
        ("nursery soil away 1/3, basket", "repotted"),
    ],
)
def test_what_more_words_than_one_speak_of_is_named(line: str, act: str) -> None:
    one = _read_alone(line)
    assert re.search(rf"\b{act}\b", " ".join(one.told))


@pytest.mark.parametrize(
    ("card", "hint"),
    [
        (
            "material wire\n  price  0.60 EUR/m\n",
            "A price is of what “sold in” on its card says: write 0.60 EUR.",
        ),
        (
            "material akadama\n  price  22/bag\n",
            "A price is of what “sold in” on its card says: write 22.",
        ),
        ("person karl\n  rate  22/h\n", "The currency stands between the two: 22 EUR/h."),
    ],
)
def test_a_price_of_a_unit_is_put_right(
    written: Callable[..., Session], card: str, hint: str
) -> None:
    problems = written(card, any_problems=True).problems()
    assert hint in [one.hint for one in problems]


def test_the_gauges_in_a_hint_are_those_of_the_standard() -> None:
    """ASTM B258: AWG n is 0.127 mm x 92 ** ((36 - n) / 39)."""
    hint = _read_alone("wired 18 ga on apex").problems[0].hint
    said = re.findall(r"\b(\d\d)(?: is)? (\d\.\d)", hint)
    assert len(said) == 5
    for gauge, millimetres in said:
        exact = 0.127 * 92 ** ((36 - int(gauge)) / 39)
        assert abs(float(millimetres) - exact) <= 0.05
