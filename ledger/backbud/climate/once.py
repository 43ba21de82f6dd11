"""Questions that are answered once: the answer is kept by what was asked."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, Concatenate, ParamSpec, TypeVar, cast

P = ParamSpec("P")
R = TypeVar("R")
S = TypeVar("S", bound="Answers")
# So many answers are kept of one sky at the least, and twice as many at the most: some two
# megabytes. What is asked again stays, however many are asked once.
MOST_ANSWERS = 4000
_NONE = object()


class Answers:
    """What keeps the answers it gave."""

    def __init__(self) -> None:
        self._answers: dict[tuple[object, ...], Any] = {}
        self._older: dict[tuple[object, ...], Any] = {}
        self._of_one: Answers | None = None

    def is_of_one(self, key: tuple[object, ...]) -> bool:
        """Whether hardly anybody but who asks it now asks a question: such answers are kept apart,
        so that they push out none that many ask for."""
        return False

    def kept(self, key: tuple[object, ...], make: Callable[[], R]) -> R:
        """What was worked out under a key before, or else is now."""
        found = self._answers.get(key, _NONE)
        if found is _NONE:
            if self.is_of_one(key):
                self._of_one = self._of_one or Answers()
                return self._of_one.kept(key, make)
            found = self._older.get(key, _NONE)
            self._remember(key, found := make() if found is _NONE else found)
        answer: R = found
        return answer

    def _remember(self, key: tuple[object, ...], answer: object) -> None:
        """Keep an answer; of very many those are let go that were not asked for since."""
        if len(self._answers) >= MOST_ANSWERS:
            self._older, self._answers = self._answers, {}
        self._answers[key] = answer


def once(
    method: Callable[Concatenate[S, P], R],
) -> Callable[Concatenate[S, P], R]:
    """Answer a question once for each set of arguments: every tree of a place asks the same."""

    name = method.__name__

    @wraps(method)
    def answer(self: S, *args: P.args, **kwargs: P.kwargs) -> R:
        key = (name, *args, *kwargs.items())
        found = self._answers.get(key, _NONE)
        if found is _NONE:
            found = self.kept(key, lambda: method(self, *args, **kwargs))
        given: R = found
        return given

    return cast("Callable[Concatenate[S, P], R]", answer)
