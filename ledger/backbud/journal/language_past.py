"""Finds the past lines that a newer language would read otherwise, until the keeper says from when
on it is read: in backbud.toml, and nowhere else.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache

from backbud.journal.heard_act import LineHearer
from backbud.journal.outlined import Outlined
from backbud.journal.own_past import PastLine
from backbud.journal.said import ActReader
from backbud_grammar.dates import WrittenDate, read_date
from backbud_grammar.held_back import HELD
from backbud_grammar.problems import Misread
from backbud_grammar.syntax import Act


def lines_read_otherwise(
    files: Mapping[str, Outlined], acts: ActReader, newest: int, *, southern: bool
) -> tuple[PastLine, ...]:
    """The lines that the newest language reads in another way than the journal's does.

    None where the journal says already from when on it is read by it.
    """
    if not acts.languages.is_open(newest):
        return ()
    hearer = cache(LineHearer)
    new = hearer(acts.of_language(newest))
    out: list[PastLine] = []
    for file, outlined in files.items():
        for start, kept in outlined.pages:
            page = kept.section.read(acts.language_known)
            try:
                when = read_date(page.date, southern)
            except Misread:
                continue
            old = hearer(acts.of_day(when.first))
            for block in page.blocks:
                for act in block.acts:
                    was, will_be = _as_read(old, act, when), _as_read(new, act, when)
                    if was != will_be:
                        out.append(
                            PastLine(
                                f"{file}:{start + act.line + 1}",
                                f"{act.word} {act.text}".rstrip(),
                                "; ".join(will_be),
                            )
                        )
    return tuple(out)


def _as_read(hearer: LineHearer, act: Act, when: WrittenDate) -> tuple[str, ...]:
    return tuple(_shown(hearer, act, when))


def _shown(hearer: LineHearer, act: Act, when: WrittenDate) -> Iterator[str]:
    """What a line is read as, an act each; where it was held back, that too."""
    for one in hearer.heard(act, when, 0):
        if not one.past:
            yield "not read"
            continue
        said = hearer.acts.said(one.act, held=one.past == HELD)
        held = f"held back: {said.held} " if said.held else ""
        remark = f" -- {one.act.remark}" if one.act.remark else ""
        kept = f" (kept: {'; '.join(said.kept)})" if said.kept and not said.held else ""
        yield f"{held}{said.act if not said.held else ''} {one.act.text}{remark}{kept}".strip()
