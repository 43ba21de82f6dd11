"""What may be jotted from a phone, and where that goes: a file of its own a day.

An open editor overwrites nothing there. What sends a tree away, speaks of money or means `all` is
written at the keyboard: a phone may be lost, and what it sends can be read on the way.
"""

from __future__ import annotations

from datetime import date

from backbud.collection.stand import DEPARTURES
from backbud.jot.line import JottedLine
from backbud.jot.placing import DiaryPlace, place_of
from backbud.jot.reading import AsRead
from backbud.jot.trial import known_on
from backbud.jot.which_file import jotted_file
from backbud.jot.write import Placing
from backbud.journal.read import Journal
from backbud.session import Session
from backbud_grammar.acts.business import GROUP
from backbud_grammar.forms import ActForm
from backbud_grammar.measures import is_money
from backbud_grammar.outline import Known, read_act_line
from backbud_grammar.own_words import expanded
from backbud_grammar.problems import Flaw

AT_THE_KEYBOARD = "at the keyboard"


def place_for_phone(day: date) -> Placing:
    """Where lines of a day go that were sent from a phone."""

    def place(session: Session) -> DiaryPlace:
        journal, file = session.journal, jotted_file(day)
        pages = [page for page in journal.pages if page.file == file]
        found = place_of(day, pages, journal.texts) if pages else None
        lines = journal.texts.get(file, b"").count(b"\n") + 1 if file in journal.texts else 0
        return found or DiaryPlace(file, lines, day, True)

    return place


def only_at_the_keyboard(journal: Journal, line: JottedLine, read: AsRead, day: date) -> str:
    """Why a line is not taken from a phone; "" where it is. Told by its words and its reading."""
    subjects = journal.details.subjects(line.subjects)
    if not isinstance(subjects, Flaw) and any(one.by != "handle" for one in subjects.chosen):
        return f"“all” is written {AT_THE_KEYBOARD}; name the trees here"
    known = Known.of(journal.acts)
    act = read_act_line(line.act, 0, known_on(journal, day))
    own = expanded(act, journal.own_words.on(day), known)
    act = own.act if own is not None else act
    rows = [journal.acts.get(act.word.casefold())]
    if rows[0] is not None and rows[0].names_act and act.text:
        # `corrected sold 2027-03-06, not done` brings a tree back.
        rows.append(journal.acts.get(act.text.split()[0].rstrip(",").casefold()))
    rows += [journal.acts.get(word) for word in read.acts]
    for row in rows:
        if row is None:
            continue
        if row.word in DEPARTURES:
            return f"what sends a tree away ({row.word}) is written {AT_THE_KEYBOARD}"
        if row.group == GROUP or read.says_money or _says_money(journal, row, act.text):
            return f"hours and money ({row.word}) are written {AT_THE_KEYBOARD}"
    return ""


def _says_money(journal: Journal, row: ActForm, text: str) -> bool:
    """Whether an amount stands in a line, also where it is held back."""
    details = journal.details.of(row, text).details
    return any(one.measure is not None and is_money(one.measure.sort) for one in details)
