"""Sets the lines that a list becomes out as a file of the journal, cards first, then days."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from datetime import date
from itertools import groupby

from msgspec import Struct

from backbud.bring.gathered import BroughtLine, NewCard
from backbud.jot.style import Style
from backbud_grammar.dates import read_date
from backbud_grammar.kinds import KINDS
from backbud_grammar.outline import Known

# How far a line was understood: as it is; as a note; as a note at the home place; not at all.
AS_READ, AS_NOTE, AT_HOME, NOT_WRITTEN = range(4)
_ROWS = re.compile(rb"^# rows:((?: [0-9a-f]{16})+)[ \t]*$", re.MULTILINE)
_A_LINE = 6
_LABEL_COLUMN = 10


class LaidOut(Struct, frozen=True):
    """The text of the file. `owners`: for each line of it (1 first) which of the given lines it
    says, or which it stands above. `heads`: of a card's first line, the place of that card."""

    text: str
    owners: dict[int, tuple[int, ...]]
    heads: dict[int, int]


def lay_out(
    title: str,
    cards: Sequence[NewCard],
    lines: Sequence[BroughtLine],
    levels: Sequence[int],
    home: str,
    digests: Sequence[str],
    known: Known,
) -> LaidOut:
    """The file. `title`: says where it comes from. `levels`: of each line how far it was
    understood. `digests`: by which its rows are known when they come again."""
    out: list[str] = [f"# {title}"]
    owners: dict[int, tuple[int, ...]] = {}
    heads: dict[int, int] = {}
    of_card: dict[tuple[str, str], list[int]] = {}
    for n, one in enumerate(lines):
        of_card.setdefault((one.kind, one.handle), []).append(n)
    for at, card in enumerate(cards):
        mine = of_card.get((card.kind, card.handle), [])
        out += ["", f"{card.kind} {card.handle}"]
        owners[len(out)], heads[len(out)] = tuple(mine), at
        for n in mine:
            if levels[n] < AT_HOME:
                out.append(_card_line(lines[n], levels[n]))
                owners[len(out)] = (n,)
    style = Style()
    dated = [n for n, one in enumerate(lines) if one.day and levels[n] < NOT_WRITTEN]
    dated.sort(key=lambda n: (read_date(lines[n].day).first, lines[n].day))
    for day, of_day in groupby(dated, key=lambda n: lines[n].day):
        out += ["", day]
        by_subject: dict[str, list[int]] = {}
        for n in of_day:
            whose = home if levels[n] == AT_HOME else lines[n].subject
            by_subject.setdefault(whose, []).append(n)
        for subject, those in by_subject.items():
            out += ["", subject]
            owners[len(out)] = tuple(those)
            for n in those:
                out.append(style.line(_said(lines[n], levels[n]), known))
                owners[len(out)] = (n,)
    if digests:
        out += ["", "# The rows that stand above; they are not brought again while this says so."]
        out += [
            f"# rows: {' '.join(digests[n : n + _A_LINE])}" for n in range(0, len(digests), _A_LINE)
        ]
    return LaidOut("\n".join(out) + "\n", owners, heads)


def _card_line(line: BroughtLine, level: int) -> str:
    text = line.text if level == AS_READ else f"note {line.words}"
    labels = [label for form in KINDS[line.kind].forms for label in form.labels]
    label = max((one for one in labels if text.startswith(f"{one} ")), key=len)
    return f"  {label.ljust(_LABEL_COLUMN)}{text[len(label) :]}"


def _said(line: BroughtLine, level: int) -> str:
    if level == AT_HOME:
        return f"noted {line.subject}: {line.words}"
    return line.text if level == AS_READ else f"noted {line.words}"


def rows_brought(texts: Iterable[bytes]) -> frozenset[str]:
    """The digests of all rows that files of the journal say they hold."""
    return frozenset(
        one.decode() for text in texts for found in _ROWS.findall(text) for one in found.split()
    )


def first_line_says(file: str, today: date) -> str:
    """What the first line of a brought file says."""
    return f"Brought from “{file}” on {today}."
