"""Sheets for paper: the week by place, the year of a kind, labels."""

from __future__ import annotations

import base64
import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from msgspec.structs import replace
from tests.browser import needs_chromium
from tests.pages.conftest import TODAY, around, plan, tree
from tests.pages.test_in_chromium import Opened
from tests.pages.test_render import Outline
from tests.project.test_example import EXAMPLE

from backbud.compiled import nursery_of
from backbud.pages import Nursery, render_pages
from backbud.pages.drawings.window_line import year_line
from backbud.pages.printed.labels import qr_code
from backbud.pages.printed.running import running
from backbud.plan.followups import FollowUp
from backbud.session import open_session
from backbud.species import CARE, CHANCE, PROTECTION, Window
from backbud.views.week_on_paper import in_week, of_week
from backbud.views.work import work_view

NO_BREAK = "\N{NO-BREAK SPACE}"


def week_of(*plans: FollowUp, **places: str) -> str:
    """The week on paper of these works. `places`: where each tree stands, else the tunnel."""
    by_tree: dict[str, tuple[FollowUp, ...]] = {}
    for one in plans:
        by_tree[one.tree] = (*by_tree.get(one.tree, ()), one)
    trees = tuple(tree(handle, place=places.get(handle, "tunnel")) for handle in by_tree)
    names = {"tunnel": "Tunnel", "bench": "Long bench"}
    view = Nursery("Paper", TODAY, "", trees, by_tree, names)
    return render_pages(view)["paper/week.html"].decode().replace(NO_BREAK, " ")


def test_places_stand_as_one_walks_and_each_tree_has_a_box() -> None:
    page = week_of(
        plan("moth", "fed", "feed", around(-3, 0, 4)),
        plan("hoshi", "fed", "feed", around(-3, 0, 4)),
        plan("yuki", "fed", "feed", around(-3, 0, 4)),
        moth="bench",
    )
    text = Outline(page.encode()).text
    # 25 November and six days more; 20 minutes for each tree.
    assert "The week of 25 November to 1 December 2026" in text
    assert "Long bench 20 min Feed by 29 November, 20 min moth" in text
    assert "Tunnel 40 min Feed by 29 November, 40 min hoshi yuki" in text
    assert page.index("Long bench") < page.index("Tunnel")
    assert page.count('class="box"') == 3 and page.count('class="write"') == 2


def test_cautions_stand_once_and_the_works_tell_their_numbers() -> None:
    burns, kicks = "Lime sulphur burns.", "The saw kicks."
    page = week_of(
        plan("hoshi", "carved", "carve", around(0, 1, 3), cautions=(kicks,)),
        plan("moth", "treated-deadwood", "treat the deadwood", around(0, 2, 4), cautions=(burns,)),
        plan("moth", "pruned", "prune", around(0, 3, 5), cautions=(burns, kicks)),
    )
    assert re.findall(r"<li dir=\"auto\">([^<]+)</li>", page) == [kicks, burns]
    assert re.findall(r"take care&nbsp;([\d,&nbsp;]+)</b>", page) == ["1", "2", "1,&nbsp;2"]


@pytest.mark.parametrize(
    ("days", "weight", "expected"),
    [
        ((-40, -30, -12), CARE, True),  # late
        ((-10, 6, 60), CARE, True),  # best on the last day of the week
        ((-10, 7, 60), CARE, False),  # a day later
        ((-10, 9, 10), CARE, True),  # closes soon: within ten days
        ((-10, 9, 11), CARE, False),
        ((6, 6, 40), CARE, True),  # opens on the last day
        ((7, 7, 8), CARE, False),  # a day later, though it closes soon
        ((-10, 30, 60), PROTECTION, True),  # the tree may die without it
        ((7, 30, 60), PROTECTION, False),
        ((-10, 6, 60), CHANCE, True),
        ((-10, 7, 60), CHANCE, False),
    ],
)
def test_what_belongs_to_the_week(
    days: tuple[int, int, int], weight: object, expected: bool
) -> None:
    one = plan("hoshi", "pruned", "prune", around(*days), weight=weight)
    work = work_view(one, tree("hoshi"), {}, TODAY)
    assert in_week(work, TODAY) is expected
    found = of_week([work], TODAY)
    assert len(found.works) == expected


def test_what_waits_is_counted_and_nothing_else_is_said() -> None:
    page = week_of(plan("hoshi", "pruned", "prune", around(-10, 9, 60)))
    text = Outline(page.encode()).text
    assert "Nothing wants doing this week." in text
    assert "1 more work can be done already and is best later." in text


def test_a_late_work_has_its_diamond_and_one_ahead_its_days() -> None:
    page = week_of(
        plan("hoshi", "fed", "feed", around(-40, -30, -12)),
        plan("moth", "fed", "feed", around(2, 4, 20)),
    )
    assert re.search(r'<li class="late">\s*<h3[^>]*>Feed</h3>\s*<p class="by">was due 13 Nov', page)
    assert "27 November to 15 December, 20 min" in page


def test_a_title_in_the_margin_cannot_end_its_string() -> None:
    assert running('The "old" yard\\') == r'--running: "The \22 old\22  yard\5c "'
    assert running("a\nb\0") == r'--running: "a\a b\fffd "'


def test_a_window_that_passes_new_year_comes_back_at_its_start() -> None:
    # 280 pixels for 365 days: 12 October is day 284, so 218; 10 May is day 129, so 99.
    drawn = year_line(
        Window(date(2026, 10, 12), date(2026, 10, 26), date(2027, 5, 10)),
        date(2026, 1, 1),
        date(2026, 5, 20),
    )
    assert '<path class="days" d="M218 10H280M0 10H100"/>' in drawn
    # 26 October is day 298.
    assert '<path class="best" d="M229 10' in drawn
    assert '<path class="today" d="M107 1V19"/>' in drawn


def test_a_label_has_a_code_only_where_an_address_is_known(nursery: Nursery) -> None:
    plain = render_pages(replace(nursery, weather=Nursery("", TODAY, "").weather))
    page = plain["paper/labels/frame.html"].decode()
    assert "qr" not in page and "base_url" in page
    coded = render_pages(
        Nursery("", TODAY, "", nursery.trees, address="https://garden.example/w/")
    )["paper/labels/frame.html"].decode()
    assert coded.count('<svg class="qr"') == 2 and "base_url" not in coded
    assert qr_code("https://garden.example/w/trees/pip.html") in coded


def test_a_code_holds_the_modules_of_the_standard() -> None:
    """ISO/IEC 18004: finder patterns of seven modules in three corners, within a margin of four."""
    code = qr_code("https://garden.example/trees/pip.html")
    size = int(re.search(r'viewBox="0 0 (\d+) ', code)[1])  # type: ignore[index]
    assert (size - 8 - 17) % 4 == 0
    assert "M4 4.5h7" in code and f"M{size - 11} 4.5h7" in code and f"M4 {size - 4.5:g}h7" in code


def test_only_the_labels_need_segno(nursery: Nursery) -> None:
    import subprocess
    import sys

    code = "import sys, backbud.pages.render; print('segno' in sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout == "False\n"


# ------------------------------------------------------------------ as PDF

A4, LETTER, A5 = (210, 297), (216, 279), (148, 210)


@pytest.fixture(scope="module")
def folder(nursery: Nursery, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("made")
    for path, page in render_pages(nursery).items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(page)
    return folder


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Opened]:
    one = Opened(tmp_path_factory.mktemp("profile"))
    yield one
    one.close()


@pytest.fixture(scope="module")
def kinds(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """The example's pages in late autumn; those of its kinds."""
    folder = tmp_path_factory.mktemp("example")
    session = open_session(str(EXAMPLE), date(2026, 11, 29), as_of=True)
    for path, page in render_pages(nursery_of(session, session.plan())).items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(page)
    found = sorted((folder / "kinds").glob("*.html"))
    assert len(found) == 4
    return found


def sheets_of(browser: Opened, address: str, paper: tuple[int, int]) -> list[tuple[int, int]]:
    """The sizes in mm of the sheets of a page that is printed on a paper."""
    browser.call("Page.navigate", url="about:blank")
    browser.wait_for("Page.loadEventFired")
    browser.call("Page.navigate", url=address)
    browser.wait_for("Page.loadEventFired")
    wide, high = paper
    printed = browser.call("Page.printToPDF", preferCSSPageSize=True,
                           paperWidth=wide / 25.4, paperHeight=high / 25.4)  # fmt: skip
    boxes = re.findall(rb"/MediaBox\s*\[([^\]]*)\]", base64.b64decode(printed["data"]))
    sides = [[round(float(n) * 25.4 / 72) for n in box.split()[2:]] for box in boxes]
    return [(wide, high) for wide, high in sides]


class TestAsPdf:
    pytestmark = needs_chromium

    @pytest.mark.parametrize(
        ("page", "paper", "sheets"),
        [
            ("paper/week.html", A4, [A4]),
            ("paper/week.html", LETTER, [LETTER]),
            ("paper/labels/tunnel.html", A4, [A4]),
            ("paper/labels/tunnel.html", LETTER, [LETTER]),
            # Its front, and three years overleaf, whatever paper the printer has.
            ("trees/hoshi.html#card", A4, [A5, A5]),
        ],
    )
    def test_the_size_and_the_number_of_sheets(
        self,
        browser: Opened,
        folder: Path,
        page: str,
        paper: tuple[int, int],
        sheets: list[tuple[int, int]],
    ) -> None:
        path, _, anchor = page.partition("#")
        address = f"{(folder / path).as_uri()}{'#' if anchor else ''}{anchor}"
        assert sheets_of(browser, address, paper) == sheets

    @pytest.mark.parametrize("paper", [A4, LETTER])
    def test_the_year_of_a_kind_is_one_sheet_and_its_facts_another(
        self, browser: Opened, kinds: list[Path], paper: tuple[int, int]
    ) -> None:
        """The azalea has most works; on the lower sheet its cautions stand with its facts."""
        for page in kinds:
            assert sheets_of(browser, page.as_uri(), paper) == [paper, paper], page.name

    @pytest.mark.parametrize("tree", ["heron", "anvil", "lantern", "old-nell"])
    def test_the_card_of_a_tree_with_much_to_tell_is_one_sheet_of_two_sides(
        self, browser: Opened, kinds: list[Path], tree: str
    ) -> None:
        address = (kinds[0].parents[1] / f"trees/{tree}.html").as_uri()
        assert sheets_of(browser, f"{address}#card", A4) == [A5, A5]

    def test_no_day_of_a_history_is_broken(self, browser: Opened, kinds: list[Path]) -> None:
        """On A4 beside the line: the dates of a tree's page stand on one row each."""
        browser.call("Emulation.setEmulatedMedia", media="print")
        browser.call("Emulation.setDeviceMetricsOverride", width=688, height=1000,
                     deviceScaleFactor=1, mobile=False)  # fmt: skip
        browser.call("Page.navigate", url=(kinds[0].parents[1] / "trees/heron.html").as_uri())
        browser.wait_for("Page.loadEventFired")
        rows = browser.value(
            "[...document.querySelectorAll('.history .days dt')].filter(d => d.offsetHeight)"
            ".map(d => { const text = document.createRange(); text.selectNodeContents(d);"
            " return [d.textContent, text.getClientRects().length] })"
        )
        browser.call("Emulation.setEmulatedMedia", media="")
        browser.call("Emulation.clearDeviceMetricsOverride")
        assert any("September" in said for said, _ in rows)
        assert {said for said, high in rows if high != 1} == set()

    def test_a_label_is_50_by_25_mm(self, browser: Opened, folder: Path) -> None:
        browser.open(folder / "paper/labels/tunnel.html", 1280, "light")
        box = browser.value(
            "(() => { const box = document.querySelector('.label').getBoundingClientRect();"
            " return [box.width, box.height] })()"
        )
        # CSS Values 4, 6.2: 96 px an inch.
        assert [side * 25.4 / 96 for side in box] == pytest.approx([50, 25], abs=0.1)

    def test_the_way_to_one_label_leaves_the_others_out(
        self, browser: Opened, folder: Path
    ) -> None:
        browser.open(folder / "paper/labels/tunnel.html", 1280, "light")
        shown = "[...document.querySelectorAll('.label')].filter(l => l.offsetHeight).length"
        assert browser.value(shown) > 2
        browser.value("location.hash = document.querySelector('.label').id")
        assert browser.value(shown) == 1

    def test_a_card_shows_nothing_that_is_private(self, browser: Opened, folder: Path) -> None:
        browser.call("Page.navigate", url="about:blank")
        browser.wait_for("Page.loadEventFired")
        browser.call("Page.navigate", url=f"{(folder / 'trees/hoshi.html').as_uri()}#card")
        browser.wait_for("Page.loadEventFired")
        text = browser.value("document.querySelector('main').innerText")
        assert "promised to Odile" not in text and "Odile may sell it" not in text
        assert "take the wire off left 2".capitalize() in text and "2024" in text
        # This year and the two before it.
        years = "[...document.querySelectorAll('.history details')].filter(d => d.offsetHeight)"
        assert browser.value(f"{years}.map(d => d.querySelector('h3').textContent)") == [
            "2026", "2025", "2024",
        ]  # fmt: skip
