"""A figure of the weather in one sentence, and whether it is measured or only expected."""

from __future__ import annotations


class Datum(str):
    """A sentence about a figure; `expected`: it rests on weather that nobody has measured yet.

    It is a `str`, so it is shown as it is; what is built from it with other words goes through
    `joined`, for a plain f-string forgets what was expected.
    """

    __slots__ = ("expected",)
    expected: bool

    def __new__(cls, text: str, expected: bool = False) -> Datum:
        one = super().__new__(cls, text)
        one.expected = expected
        return one


def is_expected(text: str) -> bool:
    """Whether a sentence rests on weather that is only expected; plain words do not."""
    return isinstance(text, Datum) and text.expected


def joined(text: str, *made_of: str) -> Datum:
    """The text, which was made of these sentences: expected where one of them is."""
    return Datum(text, any(map(is_expected, made_of)))
