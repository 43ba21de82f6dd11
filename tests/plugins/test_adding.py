"""What a trusted plugin adds: an act with details, a rule, facts, a section, a species."""

from __future__ import annotations

import json
from html.parser import HTMLParser
from pathlib import Path

import pytest

from backbud.plan.pack import Pack
from backbud.plugins.offered import species_points

EXAMPLE = Path(__file__).parents[2] / "example_journal" / "plugins" / "rowan.py"


class Page(HTMLParser):
    """The text of each element, as a reader of HTML that is not ours finds it."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[tuple[str, str]] = []
        self._open: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: object) -> None:
        self._open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        while self._open and self._open.pop() != tag:
            pass

    def handle_data(self, data: str) -> None:
        if data.strip() and self._open:
            outer = [tag for tag in self._open if tag != "bdi"]
            self.found.append((outer[-1], data.strip()))


@pytest.fixture
def example(yard):
    """A journal with the example of the guide."""
    (yard.folder / "plugins/own.py").write_text(EXAMPLE.read_text())
    yard.append(
        "  inoculated 20 g -- from the old soil\n"
        "tree pine\n  kind Scots pine\n  place yard\n"
        "tree row\n  kind mountain ash\n  place yard\n"
        "2026-05-02\nrow\n  trimmed\n"
    )
    yard.trust()
    return yard


def test_the_example_is_under_forty_lines_and_without_a_fault(example) -> None:
    assert len(EXAMPLE.read_text().splitlines()) < 40
    assert example.problems() == []


def test_an_act_is_read_with_its_details_and_its_rule_is_asked(example) -> None:
    plan = example.open().plan()
    (follow_up,) = [f for f in plan.all() if f.id == "hoshi/inoculated-look/inoculated-2026-05-01"]
    assert follow_up.title == "check roots for the fungus"
    # 26, 30 and 40 weeks from 1 May 2026, by the calendar.
    window = follow_up.window
    assert [str(day) for day in (window.opens, window.best, window.closes)] == [
        "2026-10-30",
        "2026-11-27",
        "2027-02-05",
    ]
    assert follow_up.because[0].text == "1 May 2026: inoculated 20 g."
    example.append("hoshi\n  inoculated soon\n")
    assert [p.message for p in example.problems()] == [
        "“soon” is not understood here, so this line is held back and changes nothing"
    ]


def test_the_follow_up_is_settled_by_its_act(example) -> None:
    example.append("2026-11-10\nhoshi\n  checked roots\n")
    plan = example.open().plan()
    (follow_up,) = [f for f in plan.all() if f.id.startswith("hoshi/inoculated-look/")]
    assert follow_up.outcome == "done"


def test_a_species_is_found_by_its_names_and_asked(example) -> None:
    session = example.open()
    plan = session.plan()
    assert plan.species["row"].botanical == "Sorbus aucuparia"
    (follow_up,) = [f for f in plan.all() if f.id == "row/rowan-repot/2027"]
    assert str(follow_up.window.best) == "2027-03-20"
    # It has what holds for every tree as well.
    assert any(f.id.startswith("hoshi/wire-check/") for f in plan.all())


def test_the_page_shows_the_section_and_the_fact(example) -> None:
    assert example.run("make")[0] == 0
    page = Page((example.folder / "made/trees/hoshi.html").read_text())
    assert ("h2", "Mycorrhiza") in page.found
    at = page.found.index(("th", "Given"))
    assert page.found[at : at + 4] == [
        ("th", "Given"), ("th", "How much"), ("th", "2026-05-01"), ("td", "20 g"),
    ]  # fmt: skip
    assert ("h2", "Mycorrhiza") not in Page(
        (example.folder / "made/trees/pine.html").read_text()
    ).found
    pine = Page((example.folder / "made/kinds/scots-pine.html").read_text()).found
    at = pine.index(("td", "never washed bare"))
    assert pine[at - 1 : at + 2] == [
        ("th", "roots"), ("td", "never washed bare"), ("td", "common practice, no source"),
    ]  # fmt: skip


def test_a_section_is_text_and_never_html(yard) -> None:
    evil = "<script>alert(1)</script>&amp;"
    yard.plugin(
        "from backbud.species import Section\n"
        f"E = {evil!r}\n"
        "def section(tree, year):\n    return Section(E, (E,), (E,), ((E,),))\n"
    )
    yard.trust()
    assert yard.run("make")[0] == 0
    text = (yard.folder / "made/trees/hoshi.html").read_text()
    assert "<script>alert(1)" not in text
    found = [data for _, data in Page(text).found]
    assert found.count(evil) == 5  # heading, paragraph, caption, head, cell


def test_a_section_is_given_the_growing_year_at_the_tree_s_place(yard) -> None:
    yard.plugin(
        "from backbud.species import Section\n"
        "def section(tree, year):\n"
        "    return Section('Year', (f'{tree.handle} {year.name} {year.place} {year.today}',))\n"
    )
    yard.trust()
    yard.run("make", "--on", "2026-11-20")
    page = yard.folder / "made-on/2026-11-20/trees/hoshi.html"
    assert "hoshi 2026 yard 2026-11-20" in page.read_text()


def test_details_are_added_to_an_act_that_is_there(yard) -> None:
    yard.append("2026-05-02\nhoshi\n  fed by spoon\n")
    assert [p.code for p in yard.problems()] != []
    yard.plugin(
        "from backbud.species import Form\ndetails = {'fed': (Form('spoon', ('by spoon',)),)}\n"
    )
    yard.trust()
    assert yard.problems() == []
    (fed,) = [e for page in yard.open().journal.pages for e in events_of(page) if e.act == "fed"]
    assert fed.has("spoon")


def events_of(page):
    """The events of a page, whatever it calls its blocks."""
    return [event for block in page.blocks for event in getattr(block, "events", block.acts)]


def test_a_rule_of_the_year_holds_for_every_tree(yard) -> None:
    yard.plugin(
        "from backbud.species import *\n"
        "@each('summer', rule='own-turn')\n"
        "def turn(tree, season, year):\n"
        "    yield Proposal('turned', year.months((7, 1), (7, 8), (7, 15)), 'Sun.', weight=CARE)\n"
    )
    yard.trust()
    ids = {f.id for f in yard.open().plan().all()}
    assert {"hoshi/own-turn/2026", "yuki/own-turn/2026"} <= ids


# ------------------------------------------------------------------ watch keeps nothing of it


def test_a_process_that_compiles_again_and_again_plans_anew(yard) -> None:
    from datetime import date

    from backbud.make import make
    from backbud.memo import Memo

    yard.plugin(
        "from backbud.species import *\n"
        "@after('wired', rule='own-turn')\n"
        "def turn(tree, done, year):\n"
        "    now = Window(*3 * [year.today])\n"
        "    yield Proposal('turned', now, 'Light.', what='for a charm', weight=CARE)\n"
    )
    kept = Memo()

    def charmed() -> bool:
        make(str(yard.folder), date(2026, 11, 20), kept=kept, with_files=True)
        return "for a charm" in (yard.folder / "made/trees/hoshi.html").read_text()

    assert not charmed()
    yard.trust()
    assert charmed()
    yard.run("trust", "--forget")
    assert not charmed()


# ------------------------------------------------------------------ installed packages


class Point:
    """An entry point as the import system offers it, with a class that is there already."""

    def __init__(self, name: str, found: object, module: str = "others.trees") -> None:
        self.name, self.module, self.value = name, module, f"{module}:Tree"
        self._found = found

    def load(self) -> object:
        if isinstance(self._found, Exception):
            raise self._found
        return self._found


def foreign(body: str) -> type:
    """A species as another package would define it."""
    names: dict[str, object] = {"__name__": "others.trees"}
    exec("from backbud.species import *\nclass Tree(Species):\n" + body, names)
    return names["Tree"]  # type: ignore[return-value]


SOUND = "    botanical = 'Arbor aliena'\n    common = ('alien tree',)\n"


@pytest.mark.parametrize(
    ("found", "says"),
    [
        (ImportError("not here"), "ImportError: not here"),
        (int, "it is a int, and no Species"),
        (
            foreign("    interface = 2\n"),
            "it was written for interface 2, and this backbud offers 1",
        ),
        (foreign(SOUND + "    soil_ph = 6\n"), "“soil_ph” is not what the interface says"),
        (
            foreign(SOUND + "    @after('fertilised', rule='a')\n    def a(s, t, d, y): yield\n"),
            "the rule “a”: “fertilised” is no act in its past form",
        ),
        (
            foreign(
                SOUND + "    @each('spring', rule='wire-check')\n    def a(s, t, d, y): yield\n"
            ),
            "the rule “wire-check”: there is a rule of this id for every tree already",
        ),
    ],
)
def test_an_installed_species_that_is_wrong_is_a_problem(found, says) -> None:
    known = Pack((Point("alien tree", found),))  # type: ignore[arg-type]
    assert known.find("alien tree") is None
    (fault,) = known.faults
    assert fault.startswith(f"the species “alien tree” (others.trees:Tree) cannot be used: {says}")


def test_an_installed_species_that_never_loads(monkeypatch) -> None:
    from backbud.plugins import budget

    class Endless(Point):
        def load(self) -> object:
            while True:
                pass

    monkeypatch.setattr(budget, "IMPORT_SECONDS", 0.1)
    known = Pack((Endless("alien tree", None),))  # type: ignore[arg-type]
    assert known.find("alien tree") is None
    assert "took longer than 0.1 seconds" in known.faults[0]


def test_what_is_built_in_keeps_its_name() -> None:
    (built_in,) = [p for p in species_points() if p.name == "trident maple"]
    known = Pack((Point("Trident maple", foreign(SOUND)), built_in))  # type: ignore[arg-type]
    assert known.find("trident maple").botanical == "Acer buergerianum"  # type: ignore[union-attr]
    assert known.faults == [
        "the species “Trident maple” (others.trees:Tree) cannot be used: "
        "backbud_species.trident_maple:TridentMaple has this name already"
    ]


def test_a_sound_one_says_where_it_is_from() -> None:
    known = Pack((Point("alien tree", foreign(SOUND)),))  # type: ignore[arg-type]
    assert [(one.species.title, one.origin) for one in known.all()] == [("alien tree", "others")]


# ------------------------------------------------------------------ the command `species`


def test_species_lists_what_is_known_and_from_where(example) -> None:
    status, out, _ = example.run("species")
    assert status == 0
    lines = out.splitlines()
    assert any(
        line.split("  ")[0] == "trident maple"
        and "Acer buergerianum" in line
        and "built in; also Acer trifidum" in line
        for line in lines
    )
    (rowan,) = [line for line in lines if line.startswith("rowan ")]
    assert " ".join(rowan.split()) == "rowan Sorbus aucuparia plugins/own.py; also mountain ash"
    assert [line.casefold() for line in lines[:-2]] == sorted(
        line.casefold() for line in lines[:-2]
    )
    listed = json.loads(example.run("species", "--json")[1])
    assert {"common": "rowan", "botanical": "Sorbus aucuparia", "also": ["mountain ash"],
            "from": "plugins/own.py"} in listed  # fmt: skip


@pytest.mark.parametrize("name", ["mountain ash", "Sorbus aucuparia", "ROWAN"])
def test_species_shows_the_year_of_one_by_any_of_its_names(example, name) -> None:
    status, out, _ = example.run("species", "--on", "2026-11-20", *name.split())
    assert status == 0
    assert out.startswith("rowan (Sorbus aucuparia)\n  also mountain ash\n  plugins/own.py\n")
    assert "  hardiness        RHS H6 (from memory)\n" in out
    assert "\nIts year 2026, at yard\n" in out
    assert (
        "  1 March to 10 April: repot\n"
        "      Its fast roots fill a pot in two years; they are cut before the leaves open. "
        "(common\n      practice, no source)\n"
    ) in out
    assert "  inoculated: check roots for the fungus, 26 to 40 weeks later\n" in out


def test_a_species_year_in_json_has_stages_works_facts_and_what_must_not_be_done(yard) -> None:
    sheet = json.loads(yard.run("species", "--json", "--on", "2026-11-20", "trident", "maple")[1])
    assert sheet["place"] == "yard"
    stages = {stage["bbch"]: stage for stage in sheet["stages"]}
    assert stages[7]["name"] == "bud burst"
    assert all(stage["from"] <= stage["best"] <= stage["until"] for stage in stages.values())
    works = {work["rule"]: work for work in sheet["works"]}
    assert works["trident-repot"]["title"].startswith("repot")
    # What a repotting rules out is shown all the same: a full stripping, or in part.
    assert works["trident-defoliate"]["title"].startswith("defoliate")
    assert "Never repot once the leaves are open." in sheet["never"]
    facts = {fact["fact"]: fact for fact in sheet["facts"]}
    assert facts["roots in a pot bear"]["value"] == "−5 °C"
    assert all(fact["source"] for label, fact in facts.items() if label != "grows strongest")


def test_the_weather_of_the_home_place_moves_the_year(yard) -> None:
    """A place as warm all year as a greenhouse bursts its buds sooner than the months say."""

    def bud_burst() -> tuple[str, str]:
        sheet = json.loads(yard.run("species", "--json", "--on", "2026-11-20", "trident maple")[1])
        (stage,) = [stage for stage in sheet["stages"] if stage["bbch"] == 7]
        return stage["best"], stage["because"]

    by_months, why = bud_burst()
    assert (by_months, why.split(". ")[0]) == (
        "2026-03-28",
        "By the months of the northern hemisphere",
    )
    text = (yard.folder / "journal.txt").read_text()
    means = (
        "  low   4 5 7 9 12 15 17 17 14 11 7 5 C\n  high  12 13 16 19 23 26 28 28 25 20 15 12 C\n"
    )
    (yard.folder / "journal.txt").write_text(
        text.replace("latitude  52 N\n", "latitude  52 N\n" + means)
    )
    by_weather, why = bud_burst()
    assert by_weather != by_months
    assert "By the months" not in why


def test_species_without_a_journal_goes_by_months(yard, tmp_path, monkeypatch, capsys) -> None:
    from backbud import cli

    monkeypatch.chdir(tmp_path)
    capsys.readouterr()
    assert cli.main(["species", "trident", "maple", "--on", "2026-11-20"]) == 0
    out = capsys.readouterr().out
    assert "\nIts year 2026, by the months of the northern hemisphere\n" in out
    assert "  07  bud burst: 14 March to 12 April, about 28 March\n" in out
    assert list(tmp_path.glob(".backbud")) == []


def test_a_name_that_nobody_has_names_the_nearest(yard) -> None:
    status, _, err = yard.run("species", "trident", "mapel")
    assert status == 2
    assert err == "backbud: no species is called “trident mapel”. Did you mean “trident maple”?\n"


def test_an_untrusted_species_is_not_known(example) -> None:
    example.run("trust", "--forget")
    status, _, err = example.run("species", "rowan")
    assert status == 2
    assert err.startswith("Left out: 1 plugin file in plugins/")
    assert "no species is called “rowan”" in err
