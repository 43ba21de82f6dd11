"""What several commands say alike: JSON, a question, and that all stays as it was made."""

from __future__ import annotations

from typing import TYPE_CHECKING

from backbud.commands.status import PROBLEMS
from backbud.say import ask, can_ask, say, say_json, warn, warn_problem

if TYPE_CHECKING:
    from backbud.whole import Broken


def print_json(value: object) -> None:
    """Print a value for a program."""
    from backbud.views.published import as_json

    say_json(as_json(value))


def tell_refused(error: Broken) -> int:
    """Say that what was made last stays, since the journal cannot be read as a whole."""
    for problem in error.lost:
        warn_problem(problem)
    warn(f"{error} It was read before, so all stays as it was made last.")
    return PROBLEMS


def agreed_to(question: str, without: str, json: bool) -> bool:
    """Ask the person at the terminal; where there is none, nothing is agreed to, and `without` says
    what can be done."""
    if json or not can_ask():
        if not json:
            say(without)
        return False
    return ask(f"{question} [y/N] ") in ("y", "yes")
