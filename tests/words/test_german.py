"""German, as proof: all that is shown is in it, and it decides nothing."""

from __future__ import annotations

import gc
import html
import re
import shutil
from collections.abc import Iterator
from datetime import date
from functools import _lru_cache_wrapper
from importlib.metadata import entry_points
from pathlib import Path

import pytest

from backbud import cldr, cli, tongue
from backbud.calendar.notes import title
from backbud.compiled import compiled, nursery_of
from backbud.front import made_of, read
from backbud.journal.settings import read_settings
from backbud.memo import Memo
from backbud.pages.templating import TEMPLATES
from backbud.session import open_session
from backbud.tongue import _catalogue
from backbud.views.plain_words import thing_called

EXAMPLE = Path(__file__).parents[2] / "example_journal"
TODAY = date(2027, 5, 20)
_WORD = re.compile(r"[^\W\d_]+")
_BLOCKS = re.compile(
    r"</?(?:p|li|h1|h2|h3|h4|td|th|dt|dd|summary|caption|text|title|desc|label|button|a|figcaption"
    r"|div|section|tr|ul|ol|span|b|bdi|i|strong|time)\b[^>]*>"
)
_SHOWN_BY_NAME = re.compile(r'(?:aria-label|alt|placeholder|data-head|data-none)="([^"]*)"')


@pytest.fixture(scope="module")
def german(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """The example journal, which speaks German."""
    journal = tmp_path_factory.mktemp("german") / "journal"
    shutil.copytree(EXAMPLE, journal, ignore=shutil.ignore_patterns("made*", ".backbud"))
    settings = journal / "backbud.toml"
    settings.write_text(f'speaks = "de"\n{settings.read_text()}')
    yield journal
    tongue.speak(tongue.ENGLISH)


def _made(folder: Path) -> dict[str, bytes]:
    session = open_session(str(folder), TODAY, as_of=True, keeps=False)
    return dict(compiled(session).output.files)


@pytest.fixture(scope="module")
def german_files(german: Path) -> dict[str, bytes]:
    """All that is made of the German journal: made once, as no test changes it."""
    return _made(german)


@pytest.fixture(scope="module")
def english_files() -> dict[str, bytes]:
    return _made(EXAMPLE)


class _Marked:
    """A catalogue that marks what was looked up in it."""

    def gettext(self, text: str) -> str:
        return f"⟦{text}⟧"

    def pgettext(self, context: str, text: str) -> str:
        return f"⟦{text}⟧"

    def ngettext(self, one: str, many: str, count: int) -> str:
        return f"⟦{one if count == 1 else many}⟧"


def _unmarked(text: str) -> str:
    depth, kept = 0, []
    for letter in text:
        depth += (letter == "⟦") - (letter == "⟧")
        if depth == 0 and letter != "⟧":
            kept.append(letter)
    return "".join(kept)


def _own_words(journal: Path) -> set[str]:
    """What a page shows that no catalogue has: the keeper's words, names of kinds, units."""
    texts = [path.read_text() for path in journal.rglob("*.txt")]
    texts.append((journal / "backbud.toml").read_text())
    for point in entry_points(group="backbud.species"):
        kind = point.load()
        texts += [*kind.common, *kind.also, kind.botanical]
    texts += [*cldr.month_names("de"), *cldr.weekday_names("de")]
    # IUPCH is an EPPO code.
    texts += ["IUPCH mm cm m min h L mL kg g s K C EUR pH BBCH csv txt diary earlier base_url"]
    words = {word.casefold() for text in texts for word in _WORD.findall(text)}
    # Initials of months, and days and months in short, in tables of the weather.
    return words | {word[:3] for word in words} | {word[0] for word in words}


def _forget_what_was_said() -> None:
    """Templates and shared words are remembered by language."""
    # What another test froze is not told by `get_objects`.
    gc.unfreeze()
    for one in gc.get_objects():
        if isinstance(one, _lru_cache_wrapper) and one.__module__.startswith("backbud."):
            one.cache_clear()


@pytest.fixture
def marked(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Iterator[None]:
    """German whose catalogue marks what was looked up in it."""
    with monkeypatch.context() as patched:
        # Templates compiled with it are kept apart from those of the real one.
        patched.setenv("XDG_CACHE_HOME", str(tmp_path))
        patched.setitem(tongue._catalogues, "de", _Marked())  # type: ignore[arg-type]
        _forget_what_was_said()
        yield
    _forget_what_was_said()


def test_no_word_on_a_page_is_outside_the_catalogue(german: Path, marked: None) -> None:
    files = _made(german)
    known = _own_words(german)
    pages = {name: data.decode() for name, data in files.items() if name.endswith(".html")}
    assert len(pages) > 50
    outside = set()
    for name, page in pages.items():
        text = re.sub(r"<(style|script|pre|code)[^>]*>.*?</\1>", "", page, flags=re.S)
        assert text.count("⟦") == text.count("⟧"), name
        assert "⟦" in text, name
        text = _unmarked(text)
        said = [*_SHOWN_BY_NAME.findall(text), *_BLOCKS.split(text)]
        for one in map(html.unescape, said):
            words = {w.casefold() for w in _WORD.findall(re.sub(r"<[^>]+>", " ", one))}
            strange = {word for word in words - known if not re.fullmatch("[jfmasond]+", word)}
            if strange:
                outside.add((name, one.strip()[:80]))
    assert outside == set()


def test_a_journal_decides_the_same_in_german(german: Path) -> None:
    def decided(folder: Path) -> dict[str, object]:
        return {
            work.id: (
                work.act, work.opens, work.best, work.closes, state, work.minutes, work.at_stake,
                work.must, work.once_past, work.extent, work.wedges, work.part, work.settled_by,
                len(work.cautions), [(one.sort, one.file, one.line) for one in work.reasons],
            )
            for state, works in read(folder, on=TODAY, as_of=True).follow_ups.items()
            for work in works
        }  # fmt: skip

    in_english, in_german = decided(EXAMPLE), decided(german)
    assert len(in_english) > 300
    assert in_german == in_english
    titles = {
        work.id: work.title
        for works in read(german, on=TODAY, as_of=True).follow_ups.values()
        for work in works
    }
    assert any(title.startswith("umtopfen") for title in titles.values())


def _entries(files: dict[str, bytes]) -> dict[str, list[str]]:
    """Of each feed, for each UID what stands beside its words."""
    found: dict[str, list[str]] = {}
    for name, data in files.items():
        if name.endswith(".ics"):
            lines = data.decode().replace("\r\n ", "").split("\r\n")
            kept = ("UID", "DTSTART", "DTEND", "DUE", "STATUS", "PRIORITY", "RELATED-TO")
            found[name] = [one for one in lines if one.split(":")[0].split(";")[0] in kept]
    return found


def test_feeds_have_the_same_entries_and_titles_that_fit(
    english_files: dict[str, bytes], german_files: dict[str, bytes]
) -> None:
    assert _entries(german_files) == _entries(english_files)
    titles = [
        line.partition(":")[2].replace("\\", "")
        for name, data in german_files.items()
        if name.endswith(".ics")
        for line in data.decode().replace("\r\n ", "").split("\r\n")
        if line.startswith("SUMMARY")
    ]
    assert len(titles) > 300
    assert max(map(len, titles)) < 40
    assert {one for one in titles if "düngen" in one}


def test_a_page_says_which_language_it_is_in(
    english_files: dict[str, bytes], german_files: dict[str, bytes]
) -> None:
    page = german_files["index.html"].decode()
    assert '<html lang="de"' in page
    assert "<h1>Donnerstag 20. Mai 2027</h1>" in page
    page = english_files["index.html"].decode()
    assert '<html lang="en"' in page
    assert "<h1>Thursday 20 May 2027</h1>" in page


def test_dates_of_a_history_are_written_anew_in_another_language(
    english_files: dict[str, bytes], german_files: dict[str, bytes]
) -> None:
    for files, said, other in ((english_files, "7 March</dt>", "März</dt>"),
                               (german_files, "7. März</dt>", "March</dt>")):  # fmt: skip
        page = files["trees/heron.html"].decode()
        assert said in page
        assert other not in page


def test_a_rebuild_in_another_language_keeps_nothing_of_the_first(tmp_path: Path) -> None:
    journal = tmp_path / "journal"
    shutil.copytree(EXAMPLE, journal, ignore=shutil.ignore_patterns("made*", ".backbud"))
    settings = journal / "backbud.toml"
    english = settings.read_text()
    kept = Memo()

    def made() -> dict[str, bytes]:
        session = open_session(str(journal), TODAY, kept=kept, keeps=False)
        files = dict(compiled(session).output.files)
        kept.end()
        return files

    first = made()
    settings.write_text(f'speaks = "de"\n{english}')
    in_german = made()
    assert in_german != first
    assert in_german == dict(made_of(journal, TODAY).files)  # type: ignore[union-attr]
    settings.write_text(english)
    assert made() == first


def test_a_language_that_nobody_translated_is_a_problem() -> None:
    settings, flaws = read_settings('language = 1\nspeaks = "tlh"\n')
    assert settings.speaks == "en"
    assert [flaw.code for flaw in flaws] == ["bad-settings"]
    assert "de (Deutsch)" in flaws[0].hint


def test_days_are_written_as_the_unicode_cldr_has_them() -> None:
    """Against Babel's data of the CLDR: `d. MMMM y` for German."""
    assert cldr.written_day(date(2027, 3, 6), "de") == "6. März"
    assert cldr.written_day(date(2027, 3, 6), "de", with_year=True) == "6. März 2027"
    assert cldr.month_names("de")[0] == "Januar"
    assert cldr.weekday_names("de")[0] == "Montag"


def test_english_imports_no_catalogue_and_no_babel() -> None:
    import subprocess
    import sys

    code = (
        "import sys; from backbud import tongue, words; from datetime import date;"
        "tongue.phrase('by {last}', last=words.day(date(2027, 3, 6), 2027));"
        "print([m for m in ('babel', 'gettext') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


@pytest.mark.parametrize(
    ("act", "what", "said"),
    [
        ("schützen", "gegen Winterfrost", "gegen Winterfrost schützen"),
        ("schützen", "gegen Frost, wenn er kommt", "gegen Frost schützen, wenn er kommt"),
        ("Haltedrähte lösen", "die Haltedrähte", "die Haltedrähte lösen"),
        ("drahten", "was gestellt werden muss", "drahten, was gestellt werden muss"),
        ("Umwicklung abnehmen", "an left 2", "Umwicklung abnehmen – an left 2"),
        ("düngen", "", "düngen"),
    ],
)
def test_a_work_is_said_as_a_german_calendar_says_it(act: str, what: str, said: str) -> None:
    tongue.speak("de")
    try:
        assert tongue.work_phrase(act, what) == said
    finally:
        tongue.speak(tongue.ENGLISH)
    assert tongue.work_phrase("untie", "the anchor ties") == "untie the anchor ties"


@pytest.mark.parametrize(
    ("work", "said"),
    [
        ("den zweiten Austrieb auf ein oder zwei Paare stutzen", "den zweiten Austrieb… stutzen"),
        ("die Lebensadern mit weicher Bürste und Wasser säubern, lose Rinde ab",
         "die Lebensadern mit… säubern"),
        ("Blütenknospen ausbrechen – bevor sich die Blüten öffnen", "Blütenknospen ausbrechen"),
        ("Zweige schneiden: was sich kreuzt, doppelt oder hängt", "Zweige schneiden"),
        ("Winterschutzvorrichtungen abbauen", "Winterschutzvorrichtungen…"),
        ("umtopfen", "umtopfen"),
    ],
)  # fmt: skip
def test_a_title_that_is_cut_keeps_its_verb(work: str, said: str) -> None:
    tongue.speak("de")
    try:
        assert title(work, 32) == said
    finally:
        tongue.speak(tongue.ENGLISH)


def test_a_thing_of_which_only_its_sort_is_known_is_called_by_it() -> None:
    assert thing_called("", "wire") == "wire"
    tongue.speak("de")
    try:
        assert thing_called("", "wire") == thing_called("wire", "wire") == "Draht"
    finally:
        tongue.speak(tongue.ENGLISH)


def test_the_terminal_keeps_its_english(german: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["due", str(german), "--on", "2026-11-29"]) == 0
    told = capsys.readouterr().out
    assert "2 trees  gegen Winterfrost schützen  –  until 10 May 2027" in told
    assert cli.main(["check", str(german), "--on", "2026-11-29"]) == 0
    told = capsys.readouterr().out
    assert "No problems. 19 trees here, " in told


def test_what_leaves_the_house_is_in_german(german: Path) -> None:
    """Its navigation, what somebody's tree measures, what was done to it, and days."""
    session = open_session(str(german), date(2026, 11, 29))
    files = dict(compiled(session).output.files)
    pages = {name: data.decode() for name, data in files.items() if name.endswith(".html")}
    assert "<bdi>öffentlich</bdi>" in pages["trees.html"]
    helpers = [page for page in pages.values() if "Die Woche auf Papier</a>" in page]
    assert len(helpers) > 20
    assert all(">Arbeitstisch</a>" in page and ">Bäume</a>" in page for page in helpers)
    assert "Stamm 13,1 cm, Höhe 50 cm, Wurzelballen" in pages["public/index.html"]
    (public,) = (page for name, page in pages.items() if name.startswith("public/trees/"))
    assert "Knospen abgerieben" in public
    assert "rubbed" not in public
    (owners,) = (
        page
        for name, page in pages.items()
        if re.fullmatch("for/[^/]+/trees/gale.html", name) and page not in helpers
    )
    assert "20. November 2026: protected" in owners
    assert not re.search(r"\d{4}-\d\d-\d\d: ", owners)


def test_the_shelf_counts_the_same_in_german(german: Path) -> None:
    """What moss is laid on pots stands beside what a line says of moss, in any language."""

    def counted(folder: Path) -> dict[str, tuple[object, ...]]:
        session = open_session(str(folder), TODAY, as_of=True, keeps=False)
        stores = nursery_of(session, session.plan()).stores
        return {
            one.material.key: (one.bought, one.written, one.reckoned, one.year)
            for one in stores.shelf
        }

    in_english = counted(EXAMPLE)
    assert in_english["moss"][1:3] != (0, 0)
    assert counted(german) == in_english


def test_no_sentence_of_ours_stands_in_english_on_a_german_page(
    german: Path, german_files: dict[str, bytes]
) -> None:
    """None of those that the catalogue has in German: not their longest run of fixed words, unless
    the keeper's own text has it too. Lines for a diary are in its language, which is English."""
    texts = [path.read_text() for path in german.rglob("*.txt")]
    own = " ".join(" ".join(texts).casefold().split())
    runs = set()
    for one in _catalogue("de")._catalog:  # type: ignore[attr-defined]
        english = (one[0] if isinstance(one, tuple) else one).rpartition("\x04")[2]
        run = max(re.split(r"\{[^}]*\}", english), key=len).strip(" ,.:;")
        if len(run.split()) > 1 and run.casefold() not in own:
            runs.add(run)
    assert len(runs) > 1500
    longest = sorted(map(re.escape, runs), key=len, reverse=True)
    english_run = re.compile(rf"\b(?:{'|'.join(longest)})\b")
    found = set()
    for name, data in german_files.items():
        if name.endswith(".html"):
            page = re.sub(r"<(style|script|pre|code)[^>]*>.*?</\1>", "", data.decode(), flags=re.S)
            text = " ".join(html.unescape(re.sub(r"<[^>]+>", " ", page)).split())
            found |= {(name, run) for run in english_run.findall(text)}
    assert found == set()


def test_the_stylesheet_says_nothing_in_english() -> None:
    """What it puts before or behind a text is signs, or stands in the page; but `1 of 3` on paper,
    which German has of its own."""
    sheet = (TEMPLATES / "backbud.css").read_text()
    said = re.findall(r"content:([^;}]*)", sheet)
    assert len(said) > 20
    words = {word for one in said for text in re.findall(r'"([^"]*)"', one)
             for word in _WORD.findall(re.sub(r"\\[0-9A-F]+ ?", "", text))}  # fmt: skip
    assert words == {"of"}
    assert ':lang(de) { hyphens: auto; --of: " von "; }' in sheet
