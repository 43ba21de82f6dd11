"""A journal's own: an act for the roots' fungus, a fact, a part of the page, and the rowan."""

import backbud.species as bb

interface = 1
amount = bb.Form("amount", (), ("volume", "mass"), bound=True, about="how much of it")
acts = (bb.ActForm("inoculated", "inoculate", "Roots", (amount,)),)
facts = {"Scots pine": {"roots": bb.Fact("never washed bare", bb.COMMON_PRACTICE)}}


@bb.after("inoculated", rule="inoculated-look")
def look_for_threads(tree: bb.Tree, done: bb.Event, year: bb.Year) -> bb.Proposals:
    why = "White threads on the roots, a season later, show that the fungus took."
    window = bb.weeks_after(done.day, 26, 30, 40)
    seen = ("checked roots", "repotted")
    yield bb.Proposal(
        "checked", window, why, what="roots for the fungus", settled_by=seen, weight=bb.STAYS_ON
    )


def section(tree: bb.Tree, year: bb.Year) -> bb.Section | None:
    given = [entry.event for entry in tree.history if entry.event.act == "inoculated"]
    rows = tuple((str(done.day), done.text) for done in given)
    return bb.Section("Mycorrhiza", head=("Given", "How much"), rows=rows) if rows else None


class Rowan(bb.Species):
    botanical = "Sorbus aucuparia"
    common = ("rowan", "mountain ash")
    hardiness = bb.Fact("H6", bb.FROM_MEMORY)

    @bb.each("spring", rule="rowan-repot")
    def repot(self, tree: bb.Tree, season: bb.Season, year: bb.Year) -> bb.Proposals:
        last_spring = season.first.replace(year=season.first.year - 1)
        if not tree.done_since(last_spring, "repotted"):
            why = "Its fast roots fill a pot in two years; they are cut before the leaves open."
            window = year.months((3, 1), (3, 20), (4, 10))
            yield bb.Proposal("repotted", window, why, datum=year.by_months, weight=bb.CARE)
