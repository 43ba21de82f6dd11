"""Writes `words.py`: the words of the table as types, so that a misspelt one fails in mypy.

`python -m backbud_grammar.acts.generate` after a change of the table.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from backbud_grammar.acts import ACTS, DAY_FORMS
from backbud_grammar.forms import ANY_WORDS
from backbud_grammar.kinds import KINDS

WORDS_FILE = Path(__file__).with_name("words.py")
_HEAD = '''"""The words of the table of acts as types, made by `generate.py`: never edit it."""

from __future__ import annotations

from typing import Literal
'''


def words_file() -> str:
    """What `words.py` says."""
    forms = [form for act in ACTS for form in act.forms]
    # What no row has: a part by itself, and the prose of a line that is all words.
    names = {form.name for form in (*forms, *DAY_FORMS)} | {"", "part", "text"}
    listed = {word for form in forms if form.words != ANY_WORDS for word in form.words}
    phrases = {form.name for form in forms} | {label for form in forms for label in form.labels}
    return "\n".join(
        (
            _HEAD,
            "# The past form of each act.",
            _type("ActWord", (act.word for act in ACTS)),
            "# What code calls a detail of an act, or of the line of a day.",
            _type("DetailName", names),
            "# What an act may say in its details: names, labels, and the words of closed lists.",
            _type("DetailWord", listed | phrases),
            "# What a card says in its lines.",
            _type("LabelName", (form.name for kind in KINDS.values() for form in kind.forms)),
            "# What settles a work: an act, or one that says what it was done to.",
            _type("SettledBy", _settling()),
        )
    )


def _settling() -> Iterator[str]:
    for act in ACTS:
        yield act.word
        for form in act.forms:
            if form.name == "what" and form.words != ANY_WORDS:
                yield from (f"{act.word} {word}" for word in form.words)


def _type(name: str, words: Iterable[str]) -> str:
    lines = "".join(f'    "{word}",\n' for word in sorted(set(words)))
    return f"{name} = Literal[\n{lines}]"


if __name__ == "__main__":
    WORDS_FILE.write_text(words_file() + "\n", encoding="utf-8", newline="\n")
