"""Tells where what was issued is gone or was changed, and where the diary no longer agrees with it.

What was issued stays as it is; a bill is put right by a corrected or a credited one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date

from backbud.collection.whereabouts import Histories
from backbud.issued.facts import facts_on
from backbud.issued.record import RECORD, IssuedPaper, IssuedSums, paper_digest, read_issued
from backbud.journal.events import Origin
from backbud.journal.problems import PlacedFlaw, flaw_at
from backbud.journal.read import Journal
from backbud.publish.plain import read_plain
from backbud.tongue import full_day
from backbud.visits.account import Account
from backbud.visits.run import accounts

_HINT = (
    "What was issued stays as it is. Write the difference: corrected billed …, or credited …; and "
    "issue the paper again with: backbud papers PERSON --issue"
)


def issued_flaws(journal: Journal, histories: Callable[[], Histories]) -> Iterator[PlacedFlaw]:
    """A flaw for each paper that is not as it was issued, or that the diary no longer agrees with.

    `histories`: asked only where a statement was issued.
    """
    papers = read_issued(journal.folder)
    if papers is None:
        message = "the record of the papers that were issued cannot be read"
        yield _flaw("issued-unread", message, "Bring it back from a copy: nothing else tells.")
        return
    later = {paper.after for paper in papers if paper.after}
    on_day: dict[date, dict[str, Account]] = {}
    for paper in papers:
        yield from _file_flaws(journal.folder, paper)
        if paper.sort == "statement" and paper.file not in later:
            found = on_day.get(paper.day)
            if found is None:
                reckoned = accounts(journal, histories(), paper.day)
                found = on_day[paper.day] = {one.person: one for one in reckoned}
            yield from _disagreements(paper, found.get(_today(paper.person, journal)))


def _today(person: str, journal: Journal) -> str:
    """The handle of a person today, who may have had another."""
    found = journal.things.find(person)
    return found.handle if found is not None else person


def _file_flaws(folder: str, paper: IssuedPaper) -> Iterator[PlacedFlaw]:
    content = read_plain(folder, paper.file)
    if content is None:
        message = f"{paper.file} was issued on {full_day(paper.day)} and is gone"
        yield _flaw("issued-gone", message, "Bring it back from a copy.")
    elif paper_digest(content) != paper.digest:
        message = f"{paper.file} is not as it was issued on {full_day(paper.day)}"
        yield _flaw("issued-changed", message, "Bring it back from a copy.")


def _disagreements(paper: IssuedPaper, account: Account | None) -> Iterator[PlacedFlaw]:
    sums, lines = ((), "") if account is None else facts_on(account, paper.day, paper.tree)
    if (sums, lines) == (paper.sums, paper.lines):
        return
    told = "; ".join(_differences(paper.sums, sums)) or "its lines are others now"
    message = f"the diary no longer agrees with {paper.file}: {told}"
    yield _flaw("issued-otherwise", message, _HINT)


def _differences(then: tuple[IssuedSums, ...], now: tuple[IssuedSums, ...]) -> Iterator[str]:
    """`billed 80.00 EUR then, 90.00 now`."""
    by_currency = {one.currency: one for one in now}
    for one in then:
        other = by_currency.get(one.currency)
        for name in ("comes_to", "billed", "paid", "due"):
            was, is_ = getattr(one, name), getattr(other, name, "nothing")
            if was != is_:
                yield f"{name.replace('_', ' ')} {was} {one.currency} then, {is_} now"


def _flaw(code: str, message: str, hint: str) -> PlacedFlaw:
    return flaw_at(Origin(RECORD, 1, 1), code, message, hint, 0, 1)
