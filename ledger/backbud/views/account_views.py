"""The account of each person, as it is shown on a day with what falls due on their trees here."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

from backbud.journal.things import Things
from backbud.memo import Identical, Memo
from backbud.plan.run import Plan
from backbud.views.forgotten import Forgotten
from backbud.views.visit import AccountView, account_view
from backbud.visits.account import Account


def account_views(
    accounts: Iterable[Account],
    plan: Plan,
    names: Mapping[str, str],
    things: Things,
    forgotten: Forgotten,
    today: date,
    kept: Memo,
) -> tuple[AccountView, ...]:
    """Each account once, in their order. `names`: what people call each thing, always the same
    object for equal names, so that an account stays as it was shown while nothing of it changed."""

    def told(account: Account) -> AccountView:
        plans = {
            handle: plan.follow_ups.get(handle, ())
            for one in account.visits
            if (handle := one.visit.tree.handle) and one.visit.is_here
        }
        return kept.once(
            ("account view", account.person),
            (Identical(account, *plans.values(), names, things), today),
            lambda: forgotten.told(account_view(account, plans, names, things, today)),
        )

    return tuple(map(told, accounts))
