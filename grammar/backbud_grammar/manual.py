"""The tables of the manual, written from those that the language is read by.

`python -m backbud_grammar.manual grammar/README.md` writes it into the manual.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence

from backbud_grammar.acts import ACTS, DAY_FORMS
from backbud_grammar.forms import EXAMPLES, ActForm, Bearing, Form
from backbud_grammar.kinds import KINDS
from backbud_grammar.measures import UNITS

BEGIN = "<!-- the tables: written by `python -m backbud_grammar.manual grammar/README.md` -->"
END = "<!-- end of the tables -->"


def tables() -> str:
    """Return every table of the manual as Markdown."""
    return "\n\n".join((_cards(), _acts(), _day(), _sorts(), _units()))


def with_tables(manual: str) -> str:
    """Return the manual with its tables written anew; ValueError where it has no place for them."""
    before, begin, rest = manual.partition(BEGIN)
    _, end, after = rest.partition(END)
    if not begin or not end:
        raise ValueError("the manual has no marks for its tables")
    return f"{before}{BEGIN}\n\n{tables()}\n\n{END}{after}"


def _cell(text: str) -> str:
    return text.replace("|", "\\|")


def _code(text: str) -> str:
    return f"`{_cell(text)}`" if text else ""


def _table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    lines = [f"| {' | '.join(head)} |", f"|{'---|' * len(head)}"]
    lines += [f"| {' | '.join(row)} |" for row in rows]
    return "\n".join(lines)


def _cards() -> str:
    out = ["## Cards"]
    for kind in KINDS.values():
        rows = [
            (_code(form.shown() if form.labels else "WORDS NUMBER"), _cell(form.about))
            for form in kind.forms
        ]
        if kind.kind == "words":
            rows.append(("`YOUR WORDS  WORDS OF THE LANGUAGE`", "two blanks between the two"))
        out += [f"### `{kind.kind}`: {kind.about}", _table(("line", "what it says"), rows)]
    return "\n\n".join(out)


def _acts() -> str:
    out = [
        "## Acts",
        "Past and bare form mean the same. What stands in square brackets may be left out.",
        f"**Whole or nothing.** {_named('ends')} change where a tree stands, whose it is, whether "
        "it lives, what is on it or what is still to be done. They are done only where every word "
        "before ` -- ` is understood. All others are done with what was understood, unless a word "
        "that limits them was not (`not`, `except`, `only`, `but`, `half`, `partly`, `rest`, "
        "`yet`, `off` …) or begins the remark, and unless they are written in the bare form, "
        "which may be a noun or a wish (`wire loose`, `repot soon`). Of what is put on a part "
        "(`wired`, `guyed`, `wrapped`) at least one detail must be understood, where any is "
        "written. What comes off a part "
        "(`unwired on right 9`) must be on it, where anything is written to be on the tree. "
        "A line that is held back "
        "stands in the history, changes nothing, leaves open what it might have settled, and is a "
        "problem that says what was not understood.",
    ]
    groups = dict.fromkeys(act.group for act in ACTS)
    for group in groups:
        rows = [_act_row(act) for act in ACTS if act.group == group]
        out += [f"### {group}", _table(("act", "bare", "details", "done to", "note"), rows)]
    return "\n\n".join(out)


def _named(bearing: Bearing) -> str:
    """The acts of one bearing: `died`, `lost` and `sold`."""
    *words, last = (f"`{act.word}`" for act in ACTS if act.bearing == bearing)
    return f"{', '.join(words)} and {last}"


def _act_row(act: ActForm) -> tuple[str, ...]:
    forms = [form for form in act.forms if form.name != "by"]
    if act.prose:
        details = "everything after it is text"
    else:
        details = "<br>".join(_code(_shown(form)) for form in forms)
    notes = [act.about]
    if act.names_act:
        details = "<br>".join(("`ACT`, with its details", details)) if details else "`ACT`"
    if act.shared:
        notes.append("shared equally by the trees of the line; `each` says otherwise")
    return (
        f"`{act.word}`",
        f"`{act.bare}`",
        details,
        ", ".join(act.on),
        _cell("; ".join(filter(None, notes))),
    )


def _shown(form: Form) -> str:
    return form.shown() or "on PART"


def _day() -> str:
    rows = [(_code(form.shown()), _cell(form.about)) for form in DAY_FORMS]
    return "## The day's weather\n\n" + _table(("detail", "what it says"), rows)


def _sorts() -> str:
    rows = [(f"`{sort.upper()}`", example) for sort, example in EXAMPLES.items()]
    return "## What the capitals stand for\n\n" + _table(("capitals", "write"), rows)


def _units() -> str:
    by_dimension: dict[str, list[str]] = {}
    for unit in UNITS:
        by_dimension.setdefault(unit.dimension, []).append(
            " ".join(f"`{writing}`" for writing in (unit.symbol, *unit.written))
        )
    rows = [(dimension, ", ".join(units)) for dimension, units in by_dimension.items()]
    return "## Units\n\n" + _table(("measures", "units"), rows)


if __name__ == "__main__":
    for name in sys.argv[1:]:
        with open(name, encoding="utf-8") as file:
            text = with_tables(file.read())
        with open(name, "w", encoding="utf-8") as file:
            file.write(text)
