"""The handles of a journal as the bench writes them: with blanks, a person by the surname."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Container, Iterable, Mapping

from msgspec import Struct

NEVER = re.compile(r"(?!)")
# A surname that is shorter may be a word, or somebody's initials.
SHORTEST_SURNAME = 4


class Handles(Struct, frozen=True):
    """What names a thing in a line. `written`: the handle of each that is written in another way.

    `places`, `people`, `trees`, `pots`: those of a kind; a surname names a person where one alone
    has it.
    `every`: what is written with blanks. `after`: a surname, where a person is named.
    """

    written: Mapping[str, str]
    places: re.Pattern[str] = NEVER
    people: re.Pattern[str] = NEVER
    trees: re.Pattern[str] = NEVER
    pots: re.Pattern[str] = NEVER
    every: re.Pattern[str] = NEVER
    after: re.Pattern[str] = NEVER

    def spelled(self, text: str) -> str:
        """The text with the handles as their cards have them."""
        text = self.every.sub(lambda found: self.written[found[0].casefold()], text)
        return self.after.sub(lambda found: f"{found[1]} {self.one(found[2])}", text)

    def one(self, written: str) -> str:
        """The handle of one thing."""
        return self.written.get(written.casefold(), written)


NO_HANDLES = Handles({})


def handles_of(of_kind: Mapping[str, str], people: Mapping[str, str] = {}) -> Handles:
    """`of_kind`: the kind of each handle. `people`: the handle of each person by what they are
    called, as `Mrs Marrow`."""
    written = {handle.replace("-", " "): handle for handle in of_kind if "-" in handle}
    with_blanks = [said for said, handle in written.items() if of_kind[handle] != "material"]
    called = {
        name.casefold(): handle
        for name, handle in people.items()
        if " " in name and name.casefold() not in written
    }
    named = {name.casefold(): handle for name, handle in people.items() if " " in name}
    called |= _with_initials(named, {*written, *called})
    with_blanks += called
    surnames = _surnames([handle for handle, kind in of_kind.items() if kind == "person"], of_kind)

    def of(kind: str) -> list[str]:
        return [
            said
            for handle, its in of_kind.items()
            if its == kind
            for said in {handle, handle.replace("-", " ")}
        ]

    return Handles(
        {**written, **called, **surnames},
        _any_of(of("place")),
        _any_of([*of("person"), *called, *surnames]),
        _any_of(of("tree")),
        _any_of(of("pot")),
        _any_of(with_blanks),
        _any_of(surnames, r"\b(from|to|by|with) "),
    )


def _with_initials(named: Mapping[str, str], taken: Container[str]) -> dict[str, str]:
    """People by the first letter of their last name, where one alone is so called: `Dr S`."""
    short = {said: f"{' '.join(said.split()[:-1])} {said.split()[-1][0]}" for said in named}
    count = Counter(short.values())
    return {
        name: named[said]
        for said, name in short.items()
        if count[name] == 1 and name not in taken and name[-1].isalpha()
    }


def _surnames(people: Iterable[str], taken: Mapping[str, str]) -> dict[str, str]:
    """The last words of handles of people that one alone has, and no other thing is called."""
    last = {handle: handle.rsplit("-", 1)[1] for handle in people if "-" in handle}
    count = Counter(last.values())
    return {
        name: handle
        for handle, name in last.items()
        if count[name] == 1 and name not in taken and len(name) >= SHORTEST_SURNAME
    }


def _any_of(words: Iterable[str], before: str = "") -> re.Pattern[str]:
    longest = sorted(set(map(re.escape, words)), key=lambda word: (-len(word), word))
    if not longest:
        return NEVER
    any_of = "|".join(longest)
    if before:
        return re.compile(rf"{before}({any_of})(?![\w-])", re.IGNORECASE)
    return re.compile(rf"(?<![\w-])(?:{any_of})(?![\w-])", re.IGNORECASE)
