"""Questions that are answered once: the answer is kept by what was asked."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from itertools import islice
from typing import Any, Concatenate, ParamSpec, TypeVar, cast

P = ParamSpec("P")
R = TypeVar("R")
S = TypeVar("S", bound="Answers")
# So many answers are kept of one sky: some two megabytes.
MOST_ANSWERS = 4000


class Answers:
    """What keeps the answers it gave."""

    def __init__(self) -> None:
        self._answers: dict[tuple[object, ...], Any] = {}

    def kept(self, key: tuple[object, ...], make: Callable[[], R]) -> R:
        """What was worked out under a key before, or else is now."""
        if key not in self._answers:
            self._remember(key, make())
        found: R = self._answers[key]
        return found

    def _remember(self, key: tuple[object, ...], answer: object) -> None:
        """Keep an answer. A tree whose stages were seen asks for sums of its own, that no other
        asks for again, so of very many the oldest are let go."""
        if len(self._answers) >= MOST_ANSWERS:
            for old in list(islice(self._answers, MOST_ANSWERS // 4)):
                del self._answers[old]
        self._answers[key] = answer


def once(
    method: Callable[Concatenate[S, P], R],
) -> Callable[Concatenate[S, P], R]:
    """Answer a question once for each set of arguments: every tree of a place asks the same."""

    @wraps(method)
    def answer(self: S, *args: P.args, **kwargs: P.kwargs) -> R:
        key = (method.__name__, *args, *kwargs.items())
        if key not in self._answers:
            self._remember(key, method(self, *args, **kwargs))
        found: R = self._answers[key]
        return found

    return cast("Callable[Concatenate[S, P], R]", answer)
