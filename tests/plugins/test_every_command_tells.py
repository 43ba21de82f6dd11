"""Every command that reads a journal tells the same problems with the same exit status, whichever
step found them: a slip in the diary, a card, a count, a rule of a plugin that fails."""

from __future__ import annotations

import json
import re

import pytest

from backbud.commands.status import FINE, PROBLEMS

ON = ("--on", "2026-11-20")
FAILING = """\
from backbud.species import after

@after("wired", rule="own-look")
def look(tree, done, year):
    yield 1 / 0
"""
# Each with what it finds, and in which step.
WRONG = {
    "a slip": ("2026-05-02\nhoshi\n  wird 3 mm Al\n", "", "unknown-act"),
    "a card": ("tree kuro\n  kind trident maple\n  place nowhere\n", "", "unknown-handle"),
    "the replay": ("2026-05-03\nyuki\n  returned\n2026-05-04\nyuki\n  pruned\n", "", "not-here"),
    "a rule": ("", FAILING, "rule-failed"),
}
# Those that plan, or read, all of a journal; the day is theirs to be told.
COMMANDS = (
    ("due",),
    ("tree", "hoshi"),
    ("trees",),
    ("places",),
    ("pots",),
    ("why", "hoshi"),
    ("stores",),
    ("visits",),
    ("registers",),
)


@pytest.mark.parametrize("wrong", WRONG)
def test_every_command_tells_the_same_problems(yard, wrong) -> None:
    diary, plugin, code = WRONG[wrong]
    yard.append(diary)
    if plugin:
        yard.plugin(plugin)
        yard.trust()
    # It runs first and plans, so that `check`, which plans nothing, tells it as well.
    status, out, _ = yard.run("make", *ON, "--json")
    told = json.loads(out)["problems"]
    assert (status, {one["code"] for one in told}) == (PROBLEMS, {code})
    status, out, _ = yard.run("check", *ON, "--json")
    assert (status, json.loads(out)) == (PROBLEMS, told)
    for command in COMMANDS:
        status, _, err = yard.run(*command, *ON)
        (counted,) = re.findall(r"(\d+) problems? in the journal; backbud check shows them", err)
        assert (command, status, int(counted)) == (command, PROBLEMS, len(told))


def test_a_sound_journal_has_none_in_any_command(yard) -> None:
    assert json.loads(yard.run("check", *ON, "--json")[1]) == []
    for command in COMMANDS:
        status, _, err = yard.run(*command, *ON)
        assert (command, status, "problem" in err) == (command, FINE, False)
