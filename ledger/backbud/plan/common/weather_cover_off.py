"""Winter protection and summer shade come off again."""

from __future__ import annotations

from backbud.species import Event, Proposal, Proposals, Tree, Window, Year, after


@after("protected", rule="protection-off")
def winter_is_over(tree: Tree, done: Event, year: Year) -> Proposals:
    """By months until the weather of the place decides."""
    if not tree.on("protection") or year.on((3, 1)) <= done.day <= year.on((8, 31)):
        return
    spring = year.months((3, 10), (4, 5), (5, 10))
    if done.day > spring.opens:
        spring = Window(*(day.replace(year=day.year + 1) for day in
                          (spring.opens, spring.best, spring.closes)))
    yield Proposal(
        "unprotected", spring, datum=year.by_months,
        because="Under winter cover growth starts early and soft.",
        cautions=("Choose a dull day, and keep fleece at hand for late frost.",),
    )


@after("shaded", rule="shade-off")
def summer_is_over(tree: Tree, done: Event, year: Year) -> Proposals:
    if not tree.on("shade"):
        return
    autumn = year.months((9, 1), (9, 15), (10, 15))
    if done.day >= autumn.closes:
        return
    opens = max(autumn.opens, done.day)
    yield Proposal(
        "unshaded", Window(opens, max(autumn.best, opens), autumn.closes), datum=year.by_months,
        because="The low sun of autumn hardens the wood and the buds.",
    )
