"""Says what a statement comes to, so that it can be held against the diary: its sums and lines."""

from __future__ import annotations

from datetime import date
from hashlib import sha256

from backbud.bench.money import rounded
from backbud.issued.record import IssuedSums
from backbud.views.statement import stated_sums, visits_told
from backbud.visits.account import ZERO, Account

Facts = tuple[tuple[IssuedSums, ...], str]


def facts_on(account: Account, day: date, tree: str) -> Facts:
    """The sums of a statement as it is issued on a day, and a digest of its lines. `account`: as it
    stood on that day; `tree`: of one tree alone, or ""."""
    told = visits_told(account, day, tree)
    sums = tuple(
        IssuedSums(
            one.currency,
            # By what the diary says was done, whatever was billed for it.
            str(rounded(sum((each.comes_to(one.currency) for each in told), ZERO), one.currency)),
            str(one.billed),
            str(one.paid),
            str(one.due),
        )
        for one in stated_sums(account, told)
    )
    lines = [
        f"{one.visit.tree.handle}|{line.day}|{line.sort}|{line.what}|{line.quantity:.4f}|"
        f"{line.unit}|{line.amount}|{line.currency}|{line.tax_rate}"
        for one in told
        for line in one.charges
    ]
    return sums, sha256("\n".join(lines).encode()).hexdigest()
