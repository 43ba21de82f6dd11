"""Finds the figures in the settings that nothing asks for, since each is most likely a slip."""

from __future__ import annotations

from backbud.journal import remember
from backbud.journal.events import Origin
from backbud.journal.problems import PlacedFlaw, PlacedFlaws, flaw_at, is_flood
from backbud.journal.read import Journal
from backbud.journal.settings import SETTINGS_FILE, place_of_setting
from backbud_grammar.problems import did_you_mean


def check_figures(journal: Journal, program: str) -> PlacedFlaws:
    """Each figure of the settings that nothing asks for: most likely a slip.

    What is asked for is remembered as long as `program`, its mark, is the same.
    """
    figures, memory = journal.settings.figures, journal.memory
    file = remember.FIGURES_FILE
    if not figures or figures.keys() <= remember.recall_names(memory, file, program):
        return ()
    from backbud.plan.known_figures import known_figures

    known = [figure.name for figure in known_figures()]
    remember.keep_names(memory, file, program, known)
    flaws: list[PlacedFlaw] = []
    before = sum(one.file == SETTINGS_FILE for one in journal.flaws)
    for name in (name for name in figures if name not in known):
        if is_flood(before + len(flaws)):
            break
        line, column = place_of_setting(journal.texts[SETTINGS_FILE], name)
        message = f"nothing asks for a figure called “{name}”"
        hint = did_you_mean(name, known, f"Some are: {', '.join(sorted(known)[:6])} …")
        origin = Origin(SETTINGS_FILE, line, column)
        flaws.append(flaw_at(origin, "unknown-figure", message, hint, 0, len(name), "warning"))
    return tuple(flaws)
