"""Wire is looked at before it bites, and again after each look."""

from __future__ import annotations

from backbud.species import Event, Proposal, Proposals, Tree, Year, after, weeks_after

# Common practice, no source: fast in spring and summer, slow in the cold half of the year.
WARM_WEEKS = (3, 4, 6)
COLD_WEEKS = (8, 12, 16)


def parts_of(done: Event) -> list[str]:
    """The parts an act names, each once; "" when it names none."""
    return list(dict.fromkeys(done.parts)) or [""]


def wire_weeks(done: Event, year: Year) -> tuple[int, int, int]:
    """How many weeks wire is safe, by the season it was put on."""
    growing = year.on((3, 15)) <= done.day <= year.on((9, 15))
    return WARM_WEEKS if growing else COLD_WEEKS


@after("wired", rule="wire-check")
def look_before_it_bites(tree: Tree, done: Event, year: Year) -> Proposals:
    weeks = wire_weeks(done, year)
    for part in parts_of(done):
        yield Proposal(
            "checked", weeks_after(done.day, *weeks),
            what=f"wire on {part}" if part else "wire", part=part,
            because=f"Wire put on in {'growth' if weeks == WARM_WEEKS else 'the cold season'} "
            f"can bite after {weeks[0]} to {weeks[2]} weeks.",
            settled_by=("checked wire", "unwired"), minutes=5,
        )


@after("checked", rule="wire-check-again")
def look_again(tree: Tree, done: Event, year: Year) -> Proposals:
    if not done.says("wire") or not tree.on("wire") or done.has("again"):
        return
    if done.says("biting"):
        yield Proposal(
            "unwired", weeks_after(done.day, 0, 0, 1), because="The wire was seen to bite.",
            cautions=("Cut wire off in short pieces; unwinding tears bark and buds.",),
        )
        return
    yield Proposal(
        "checked", weeks_after(done.day, *wire_weeks(done, year)), what="wire",
        because="The wire is still on; each look sets the next.",
        settled_by=("checked wire", "unwired"), minutes=5,
    )
