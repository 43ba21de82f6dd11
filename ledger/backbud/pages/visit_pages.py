"""Makes the page of visits, and where they are very many one for each person: for the keeper alone,
for they have prices and people."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from backbud.memo import Identical, Memo
from backbud.pages import links, papers, visits
from backbud.pages.papers import PaperPage
from backbud.pages.templating import page
from backbud.views.nursery import Nursery
from backbud.views.visit import AccountView


def visit_pages(
    view: Nursery, shared: dict[str, object], around: object, kept: Memo
) -> Iterator[tuple[str, bytes]]:
    """The page of all, and those of the people to whom it leads."""
    inputs = (Identical(around, *view.accounts), Identical(*view.papers))
    by_person = {one.person: one for one in view.papers}

    def made() -> tuple[bytes, tuple[AccountView, ...]]:
        pages = {one.person: tuple(papers.papers(one)) for one in view.papers}
        shown = visits.sheet(view.accounts, pages, view.today)
        led_to = {one.person for one in shown.people if one.page}
        those = tuple(one for one in view.accounts if one.person in led_to)
        return page("visits.html", shared, {"base": "", "visits": shown}), those

    content, those = kept.once("visits page", inputs, made)
    yield links.VISITS, content
    for account in those:
        its = by_person.get(account.person)
        yield kept.once(
            ("visits", account.person),
            (Identical(around, account), Identical(its)),
            partial(_of_person, view, shared, account, tuple(papers.papers(its)) if its else ()),
        )


def _of_person(
    view: Nursery, shared: dict[str, object], account: AccountView, its: Sequence[PaperPage]
) -> tuple[str, bytes]:
    shown = visits.sheet_of_person(account, its, view.today)
    path = links.visits_page_of(account.person)
    return path, page("visits.html", shared, {"base": "../", "visits": shown})
