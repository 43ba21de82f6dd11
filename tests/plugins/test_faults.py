"""What is wrong with a plugin is a problem at its line, and everything else compiles."""

from __future__ import annotations

import signal
import sys
import threading
import time

import pytest

from backbud.plugins import budget
from backbud.plugins.budget import OverTime, within

HEAD = """\
from datetime import date, datetime, timedelta
from backbud.species import *
"""
# The first line behind the head.
L = 3

RULE = """\
@after("wired", rule="own")
def own(tree, done, year):
    {body}
"""


def rule(body: str) -> str:
    return RULE.format(body=body)


# What a file holds behind its head, the line its problem stands on, and how it begins.
AS_IT_RUNS = {
    "raises as it runs": ("x = 1\nraise KeyError('no')\n", L + 1, "KeyError: 'no'"),
    "is no Python": ("def f(:\n", L, "this is not Python: "),
    "leaves the program": ("import sys\nsys.exit(3)\n", L + 1, "SystemExit: 3"),
    "raises what is no Exception": ("raise BaseException('odd')\n", L, "BaseException: odd"),
    "raises what cannot be said": (
        "class E(Exception):\n    def __str__(self): raise ValueError\nraise E\n", L + 2, "E",
    ),
    "imports what is not there": ("import nothing_so_called\n", L, "ModuleNotFoundError"),
    "acts are no tuple": ("acts = ActForm('a', 'b', 'c')\n", L, "“acts” is a tuple of ActForms"),
    "an act is no ActForm": ("x = 1\nacts = ('moss',)\n", L + 1, "'moss' is no ActForm"),
    "an act with odd words": (
        "acts = (ActForm('moss it', 'moss', 'Own'),)\n", L, "“moss it” is no word for an act",
    ),
    "an act of odd types": (
        "acts = (ActForm('mossed', 'moss', 'Own', on='tree'),)\n", L, "an act is not in order: ",
    ),
    "a Form of no sort": (
        "acts = (ActForm('mossed', 'moss', 'Own', (Form('a', (), ('weight',)),)),)\n",
        L, "“weight” in the Form “a” is not known: length, area",
    ),
    "a word that is an act already": (
        "acts = (ActForm('mossed', 'feed', 'Own'),)\n", L, "there is an act “feed” already",
    ),
    "details of no act": ("details = {'mossed': ()}\n", L, "“mossed” is no act in its past form"),
    "details that are there already": (
        "from backbud_grammar.acts import ACTS\nfed = [a for a in ACTS if a.word == 'fed'][0]\n"
        "details = {'fed': fed.forms[:1]}\n", L + 2, "“fed” has a detail “",
    ),
    "a rule after no act": (
        "@after('fertilised', rule='own')\ndef own(tree, done, year):\n    yield\n",
        L, "the rule “own”: “fertilised” is no act in its past form",
    ),
    "a rule of no season": (
        "@each('monsoon', rule='own')\ndef own(tree, season, year):\n    yield\n",
        L, "the rule “own”: “monsoon” is no season",
    ),
    "a rule of no stage": (
        "@when(200, rule='own')\ndef own(tree, stage, year):\n    yield\n",
        L, "the rule “own”: “200” is no BBCH stage",
    ),
    "a rule with an odd id": (
        "@after('wired', rule='own/rule')\ndef own(tree, done, year):\n    yield\n",
        L, "the rule “own/rule”: an id is small letters, digits and hyphens",
    ),
    "a rule whose id is there already": (
        "@after('wired', rule='wire-check')\ndef own(tree, done, year):\n    yield\n",
        L, "there is a rule “wire-check” already",
    ),
    "facts without a source": ("facts = {'rowan': {'bark': 'smooth'}}\n", L, "facts are Facts"),
    "a section that is no function": ("section = Section('Own')\n", L, "“section” is a function"),
    "a species with no name": (
        "class Own(Species):\n    botanical = 'Arbor propria'\n",
        L, "the species Own cannot be used: it has no “common” name",
    ),
    "a species whose fact has no source": (
        "class Own(Species):\n    botanical = 'Arbor propria'\n    common = ('own tree',)\n"
        "    soil_ph = (5.0, 6.0)\n",
        L, "the species Own cannot be used: “soil_ph” is not what the interface says",
    ),
    "a species with names as a text": (
        "class Own(Species):\n    botanical = 'Arbor propria'\n    common = 'own tree'\n",
        L, "the species Own cannot be used: “common” is not what the interface says",
    ),
    "a species with no such rating": (
        "class Own(Species):\n    botanical = 'Arbor propria'\n    common = ('own tree',)\n"
        "    hardiness = Fact('H99', FROM_MEMORY)\n",
        L, "the species Own cannot be used: ",
    ),
    "a species with a thirteenth month": (
        "class Own(Species):\n    botanical = 'Arbor propria'\n    common = ('own tree',)\n"
        "    stage_months = {1: ((13, 1), (13, 2), (13, 3))}\n",
        L, "the species Own cannot be used: stage 1 has a day that no month has",
    ),
    "a species with two rules of one id": (
        "class Own(Species):\n    botanical = 'Arbor propria'\n    common = ('own tree',)\n"
        "    @each('spring', rule='a')\n    def a(self, tree, season, year): yield\n"
        "    @each('summer', rule='a')\n    def b(self, tree, season, year): yield\n",
        L, "the species Own cannot be used: ValueError: two rules of Own have the id “a”",
    ),
    "a species by another's name": (
        "class Own(Species):\n    botanical = 'Arbor propria'\n    common = ('Trident  Maple',)\n",
        L, "the species Own cannot be used: “trident maple” is a name of Acer buergerianum already",
    ),
    "a species by another's second name": (
        "class Own(Species):\n    botanical = 'Arbor propria'\n    common = ('Acer trifidum',)\n",
        L, "the species Own cannot be used: “acer trifidum” is a name of Acer buergerianum already",
    ),
    "another version": (
        "interface = 2\nfrom backbud.species import WhatIsToCome\n",
        L, "it was written for interface 2, and this backbud offers 1",
    ),
    "a species for another version": (
        "class Own(Species):\n    interface = 2\n",
        L + 1, "it was written for interface 2, and this backbud offers 1",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", AS_IT_RUNS)
def test_what_is_wrong_with_a_file_stands_at_its_line(yard, name) -> None:
    body, line, begins = AS_IT_RUNS[name]
    yard.plugin(HEAD + body)
    problem = yard.fault()
    assert (problem.file, problem.line) == ("plugins/own.py", line), problem
    assert problem.message.startswith(begins)
    assert problem.source == (HEAD + body).split("\n")[line - 1]
    assert problem.severity == "error"
    # Seen again when the kinds of tree are remembered.
    assert [p.message for p in yard.problems()] == [problem.message]


# What a rule does after "wired", the line within it, and what is said of it.
AS_IT_IS_ASKED = {
    "raises": ("raise KeyError('no')", 2, "KeyError: 'no'"),
    "leaves the program": ("raise SystemExit", 2, "SystemExit"),
    "a window reversed": (
        "yield Proposal('fed', days_after(done.day, 3, 2, 1), 'No.', weight=CARE)",
        2, "ValueError: window not in order: ",
    ),
    "an unknown act": (
        "yield Proposal('fertilised', days_after(done.day, 1, 2, 3), 'No.', weight=CARE)",
        0, "ValueError: “fertilised” is no act in its past form",
    ),
    "a text": ("yield 'feed it'", 0, "TypeError: it yielded 'feed it', which is no Proposal"),
    "a text returned": ("return 'feed it'", 0, "TypeError: it yielded 'f', which is no Proposal"),
    "nothing to go through": ("return 3", 0, "TypeError: 'int' object is not iterable"),
    "texts for dates": (
        "yield Proposal('fed', Window(*3 * ['2026-01-01']), 'No.', weight=CARE)",
        0, "ValueError: it yielded a window of ",
    ),
    "times for dates": (
        "t = datetime(2026, 5, 1); yield Proposal('fed', Window(t, t, t), 'No.', weight=CARE)",
        0, "ValueError: it yielded a window of ",
    ),
    "no window": (
        "yield Proposal('fed', None, 'No.', weight=CARE)",
        0, "ValueError: it yielded a window of"
    ),
    "a window without end": (
        "yield Proposal('fed', days_after(done.day, 0, 1, 9000), 'No.', weight=CARE)",
        0, "ValueError: its window is longer than ten years: ",
    ),
    "a window in another age": (
        "yield Proposal('fed', days_after(done.day, 90000, 90001, 90002), 'No.', weight=CARE)",
        0, "ValueError: its window is more than a hundred years off: ",
    ),
    "numbers for words": (
        "yield Proposal('fed', days_after(done.day, 1, 2, 3), 5, weight=CARE)",
        0, "ValueError: it yielded a Proposal that is not in order: ",
    ),
    "half a letter": (
        "yield Proposal('fed', days_after(done.day, 1, 2, 3), '\\ud800', weight=CARE)",
        0, "ValueError: it yielded a Proposal that is not in order: ",
    ),
    "a text for cautions": (
        "yield Proposal('fed', days_after(done.day, 1, 2, 3), 'No.', cautions='No', weight=CARE)",
        0, "ValueError: it yielded a Proposal that is not in order: ",
    ),
    "far too many": (
        "yield from [Proposal('fed', days_after(done.day, 1, 2, 3), '', part=str(n), weight=CARE)"
        " for n in range(10_000)]",
        0, "ValueError: it yielded more than 500 times",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", AS_IT_IS_ASKED)
def test_what_a_rule_does_wrong_stands_at_its_line(yard, name) -> None:
    body, line, says = AS_IT_IS_ASKED[name]
    yard.plugin(HEAD + rule(body))
    problem = yard.fault()
    assert (problem.code, problem.file) == ("rule-failed", "plugins/own.py")
    assert problem.line == L + line
    assert problem.message.startswith(f"the rule “own” failed for hoshi and 1 more: {says}")


@pytest.mark.parametrize("name", AS_IT_IS_ASKED)
def test_a_species_rule_does_no_better(yard, name) -> None:
    body, line, says = AS_IT_IS_ASKED[name]
    yard.plugin(
        HEAD
        + "class Own(Species):\n    botanical = 'Arbor propria'\n    common = ('own tree',)\n"
        + "    @after('wired', rule='own')\n    def own(self, tree, done, year):\n"
        + f"        {body}\n"
    )
    text = (yard.folder / "journal.txt").read_text()
    (yard.folder / "journal.txt").write_text(text.replace("trident maple", "own tree", 1))
    problem = yard.fault()
    assert (problem.file, problem.line) == ("plugins/own.py", L + 3 + line)
    assert problem.message.startswith(f"the rule “own” failed for hoshi: {says}")


SECTIONS = {
    "raises": ("raise KeyError('no')", 1, "KeyError: 'no'"),
    "a text": ("return 'moss'", 0, "ValueError: it returned 'moss', which is no Section"),
    "no title": ("return Section(' ')", 0, "ValueError: it returned a Section with no title"),
    "numbers": ("return Section('Own', (1, 2))", 0, "ValueError: it returned a Section that"),
    "uneven": (
        "return Section('Own', head=('a', 'b'), rows=(('1', '2'), ('3',)))",
        0, "ValueError: each row of its table has 2 cells",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", SECTIONS)
def test_what_a_section_does_wrong_stands_at_its_line(yard, name) -> None:
    body, line, says = SECTIONS[name]
    yard.plugin(HEAD + f"def section(tree, year):\n    {body}\n")
    problem = yard.fault()
    assert (problem.code, problem.file, problem.line) == (
        "section-failed",
        "plugins/own.py",
        L + line,
    )
    assert problem.message.startswith(
        f"the section for the page of hoshi and 1 more failed: {says}"
    )
    # It is one of the problems that make counts and shows, and the pages are there.
    status, out, err = yard.run("make")
    assert status == 1
    assert "section-failed" in err
    assert "1 problem in the journal" in out
    assert "section-failed" in (yard.folder / "made/index.html").read_text()
    assert (yard.folder / "made/trees/hoshi.html").is_file()


def test_the_sound_part_of_a_file_is_used(yard) -> None:
    """An act that clashes, beside a rule, an act and a species that do not."""
    yard.plugin(
        HEAD
        + "acts = (ActForm('mossed', 'feed', 'Own'), ActForm('charmed', 'charm', 'Own'))\n"
        + rule("yield Proposal('charmed', days_after(done.day, 1, 2, 3), 'Yes.', weight=CARE)")
    )
    yard.trust()
    plan = yard.open().plan()
    assert {f.id for f in plan.all() if "/own/" in f.id} == {
        "hoshi/own/wired-2026-05-01",
        "yuki/own/wired-2026-05-01",
    }
    assert [p.code for p in yard.problems()] == ["plugin-clash"]


def test_two_plugins_that_clash(yard) -> None:
    yard.plugin(HEAD + "acts = (ActForm('mossed', 'moss', 'Own'),)\n" + rule("return ()"), "a.py")
    yard.plugin(HEAD + "acts = (ActForm('mossed', 'moss', 'Own'),)\n" + rule("return ()"), "b.py")
    yard.trust()
    assert [(p.code, p.file, p.line, p.message) for p in yard.problems()] == [
        ("plugin-clash", "plugins/b.py", 3, "there is an act “mossed” already"),
        ("plugin-clash", "plugins/b.py", 4, "there is a rule “own” already"),
    ]


def test_one_file_that_fails_does_not_take_the_others_along(yard) -> None:
    yard.plugin("1 / 0\n", "a.py")
    yard.plugin(b"\xff\xfe".decode("latin-1"), "b.py")
    (yard.folder / "plugins/b.py").write_bytes(b"x = 1\n\xff\n")
    yard.plugin("", "no-name.py")
    yard.plugin(
        HEAD + rule("yield Proposal('fed', days_after(done.day, 1, 2, 3), 'Yes.', weight=CARE)"),
        "z.py",
    )
    yard.trust()
    session = yard.open()
    assert any("/own/" in f.id for f in session.plan().all())
    assert [(p.file, p.line, p.message) for p in session.problems()] == [
        ("plugins/a.py", 1, "ZeroDivisionError: division by zero"),
        ("plugins/b.py", 2, "this is not UTF-8"),
        ("plugins/no-name.py", 1, "no Python name: letters, digits and underscores"),
    ]


# ------------------------------------------------------------------ the time budget

SOON = 0.2
ENDLESS = "while True: pass"


@pytest.fixture
def soon(monkeypatch) -> None:
    monkeypatch.setattr(budget, "RULE_SECONDS", SOON)
    monkeypatch.setattr(budget, "IMPORT_SECONDS", SOON)


def test_a_rule_may_take_two_seconds() -> None:
    assert budget.RULE_SECONDS == 2.0


@pytest.mark.parametrize(
    "body",
    [
        ENDLESS,
        "yield from iter(int, 1)",
        "yield sum(1 for _ in iter(int, 1))",
        "\n    ".join(
            (
                "while True:",
                "    try:",
                "        while True: pass",
                "    except Exception: pass",
            )
        ),
    ],
)
def test_a_rule_that_never_ends_is_interrupted_and_not_asked_again(yard, soon, body) -> None:
    yard.plugin(HEAD + rule(body))
    began = time.monotonic()
    threads = threading.active_count()
    problem = yard.fault()
    took = time.monotonic() - began
    assert (problem.code, problem.file) == ("rule-failed", "plugins/own.py")
    if "yield from" not in body:  # which ends sooner, since it yields nonsense
        assert "hoshi: it took longer than 0.2 seconds and was interrupted" in problem.message
        assert SOON <= took < 10 * SOON
    assert threading.active_count() == threads
    assert signal.getitimer(signal.ITIMER_REAL) == (0.0, 0.0)
    assert signal.getsignal(signal.SIGALRM) == signal.SIG_DFL
    assert sys.gettrace() is None or "coverage" in str(sys.gettrace())


def test_a_file_that_never_ends(yard, soon) -> None:
    yard.plugin(f"x = 1\n{ENDLESS}\n")
    problem = yard.fault()
    assert (problem.code, problem.line) == ("plugin-failed", 2)
    assert problem.message == "it took longer than 0.2 seconds and was interrupted"


def test_a_section_that_never_ends(yard, soon) -> None:
    yard.plugin(f"def section(tree, year):\n    {ENDLESS}\n")
    problem = yard.fault()
    assert (problem.code, problem.line) == ("section-failed", 2)
    # It was not asked for the second tree.
    assert "for the page of hoshi failed: it took longer" in problem.message


GIGANTIC = "tuple(['x' * 10**6]) * 10**6"


def test_what_a_rule_yields_may_be_so_long_and_no_longer(yard) -> None:
    """A text of a megabyte, a million times: never written out, so it takes no time."""
    body = (
        "yield Proposal('checked', Window(done.day, done.day, done.day), 'why',\n"
        f"        cautions={GIGANTIC}, weight=CARE)"
    )
    yard.plugin(HEAD + rule(body))
    began = time.process_time()
    problem = yard.fault()
    assert time.process_time() - began < 5
    assert problem.code == "rule-failed"
    assert "it yielded a Proposal that is not in order: it is too long" in problem.message


def test_a_section_may_be_so_long_and_no_longer(yard) -> None:
    yard.plugin(HEAD + f"def section(tree, year):\n    return Section('Own', {GIGANTIC})\n")
    began = time.process_time()
    problem = yard.fault()
    assert time.process_time() - began < 5
    assert problem.code == "section-failed"
    assert "it returned a Section that is not in order: it is too long" in problem.message


def test_an_error_that_never_ends_to_say_what_it_is(yard) -> None:
    yard.plugin(f"class E(Exception):\n    def __str__(self):\n        {ENDLESS}\nraise E\n")
    problem = yard.fault()
    assert (problem.code, problem.line, problem.message) == ("plugin-failed", 4, "E")


def test_an_error_that_says_too_much_is_cut(yard) -> None:
    yard.plugin("raise ValueError('so much ' * 10**7)\n")
    problem = yard.fault()
    assert problem.message == f"ValueError: {('so much ' * 38)[:300]} …"


def test_a_species_that_never_is(yard, soon) -> None:
    yard.plugin(
        HEAD
        + "class Own(Species):\n    botanical = 'Arbor propria'\n    common = ('own tree',)\n"
        + "    def __init__(self):\n"
        + f"        {ENDLESS}\n"
    )
    problem = yard.fault()
    assert problem.line == L + 4
    assert problem.message.startswith("the species Own cannot be used: it took longer")


def test_in_another_thread_the_time_is_kept_too(yard, soon) -> None:
    """As `watch` compiles."""
    yard.plugin(HEAD + rule(ENDLESS))
    found: list[object] = []
    thread = threading.Thread(target=lambda: found.append(yard.fault()))
    thread.start()
    thread.join(30)
    assert not thread.is_alive()
    (problem,) = found
    assert "it took longer than 0.2 seconds" in problem.message  # type: ignore[attr-defined]
    assert problem.line == L + 2, problem.message  # type: ignore[attr-defined]


def test_what_catches_everything_is_interrupted_again() -> None:
    caught: list[BaseException] = []

    def stubborn() -> None:
        while True:
            try:
                time.sleep(0.01)
            except BaseException as error:
                caught.append(error)

    with pytest.raises(OverTime):
        within(0.05, stubborn)
    assert all(isinstance(error, OverTime) for error in caught)
    assert signal.getitimer(signal.ITIMER_REAL) == (0.0, 0.0)


def test_what_is_interrupted_as_an_object_goes_is_told_to_nobody_and_interrupted_again(
    monkeypatch,
) -> None:
    """Python only tells of what `__del__` raises, so the interruption would be lost, and shown."""
    told: list[object] = []
    monkeypatch.setattr(sys, "unraisablehook", told.append)
    lost = ValueError("not ours")

    class Slow:
        def __del__(self) -> None:
            until = time.monotonic() + 0.002
            while time.monotonic() < until:
                pass
            raise lost

    def goes_on() -> None:
        while True:
            Slow()

    with pytest.raises(OverTime):
        within(0.05, goes_on)
    assert told
    assert all(one.exc_value is lost for one in told)
    assert sys.unraisablehook == told.append


def test_interrupted_many_times_nothing_is_left_behind() -> None:
    def endless() -> None:
        while True:
            pass

    for _ in range(300):
        with pytest.raises(OverTime):
            within(0.001, endless)
    assert signal.getitimer(signal.ITIMER_REAL) == (0.0, 0.0)
    assert signal.getsignal(signal.SIGALRM) == signal.SIG_DFL


def test_what_is_quick_is_left_alone() -> None:
    for _ in range(1000):
        assert within(0.5, lambda: 3) == 3
    time.sleep(0.6)


def test_a_timer_that_ran_before_runs_on() -> None:
    signal.setitimer(signal.ITIMER_REAL, 50.0)
    try:
        within(1.0, list)
        assert 49 < signal.getitimer(signal.ITIMER_REAL)[0] <= 50
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)


def test_ctrl_c_is_no_fault_of_a_plugin(yard) -> None:
    yard.plugin(HEAD + rule("raise KeyboardInterrupt"))
    yard.trust()
    with pytest.raises(KeyboardInterrupt):
        yard.open().plan()
