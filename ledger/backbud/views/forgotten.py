"""Puts a number where a text that is shown names somebody who asked to be forgotten.

What the diary itself says stays in its files, and in their versions: whoever keeps those must
change them. Papers that the law keeps stay as they were issued.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from operator import is_
from typing import Any, TypeVar, cast

from msgspec import Struct
from msgspec.structs import replace

T = TypeVar("T")


class Forgotten:
    """Who is forgotten: by the number that stands for each, the names they had."""

    def __init__(self, hidden: Mapping[str, tuple[str, ...]]) -> None:
        self._number: dict[str, str] = {}
        for number, names in hidden.items():
            for name in (*names, *names[0].split()):
                self._number.setdefault(name.casefold(), number)
        longest = sorted(self._number, key=len, reverse=True)
        self._named = (
            re.compile(
                rf"(?<![^\W_])(?:{'|'.join(map(re.escape, longest))})(?![^\W_])", re.IGNORECASE
            )
            if longest
            else None
        )

    def text(self, text: str) -> str:
        """The text with numbers in the place of names."""
        if self._named is None:
            return text
        return self._named.sub(lambda found: self._number[found[0].casefold()], text)

    def told(self, value: T) -> T:
        """A view with numbers in the place of names, in every text of it."""
        return value if self._named is None else cast(T, self._told(value))

    def _told(self, value: Any) -> Any:
        if isinstance(value, str):
            return self.text(value)
        if isinstance(value, Struct):
            was = {name: getattr(value, name) for name in value.__struct_fields__}
            new = {name: self._told(one) for name, one in was.items()}
            changed = {name: one for name, one in new.items() if one is not was[name]}
            return replace(value, **changed) if changed else value
        if isinstance(value, tuple):
            told = tuple(map(self._told, value))
            return value if all(map(is_, told, value)) else told
        if isinstance(value, dict):
            pairs = {self._told(key): self._told(one) for key, one in value.items()}
            return value if pairs == value else pairs
        return value
