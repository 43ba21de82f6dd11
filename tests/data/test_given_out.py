"""A journal as data: read back by the sqlite3 shell, a CSV reader, a JSON validator, and a reader
of Darwin Core archives that had no part in writing it; and who may have what of it."""

from __future__ import annotations

import csv
import io
import json
import re
import shutil
import sqlite3
import subprocess
import sys
import zipfile
from datetime import date
from pathlib import Path

import pytest
from dwca.read import DwCAReader
from tests.folders.planted import journal as planted_journal
from tests.folders.planted import readings
from tests.project.test_example import EXAMPLE
from tests.views.test_schema import validator

from backbud.data.darwin_core import archive_of
from backbud.data.files import data_files
from backbud.data.plain_files import csv_bytes
from backbud.data.questions import QUESTIONS
from backbud.data.sqlite import sqlite_of
from backbud.data.table import DataTable, text
from backbud.data.tables import tables_of
from backbud.given_out import dataset_of
from backbud.session import open_session
from backbud.views.audience import HELPER, KEEPER, PUBLIC, eyes_of
from backbud.views.dataset import DatasetView

DAY = date(2026, 5, 20)
README = (Path(__file__).parents[2] / "README.md").read_text("utf-8")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example, as it is given out for the keeper."""
    into = tmp_path_factory.mktemp("data") / "journal"
    shutil.copytree(EXAMPLE, into, ignore=shutil.ignore_patterns("made", ".backbud"))
    made = [sys.executable, "-m", "backbud", "data", str(into), "--on", DAY.isoformat()]
    done = subprocess.run(made, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert f"made-on/{DAY}/data/: 24 files of " in done.stdout
    return into / "made-on" / DAY.isoformat() / "data"


@pytest.fixture(scope="module")
def base(folder: Path) -> sqlite3.Connection:
    return sqlite3.connect(folder / "journal.sqlite")


def shell(folder: Path, question: str) -> list[str]:
    """What SQLite's own shell answers."""
    asked = ["sqlite3", "-batch", str(folder / "journal.sqlite"), question]
    done = subprocess.run(asked, capture_output=True, text=True, check=True)
    return done.stdout.splitlines()


def test_the_shell_opens_it_and_every_reference_holds(folder: Path) -> None:
    assert shell(folder, "PRAGMA integrity_check") == ["ok"]
    assert shell(folder, "PRAGMA foreign_key_check") == []
    assert shell(folder, "PRAGMA user_version") == ["1"]
    assert shell(folder, "SELECT value FROM about WHERE what = 'day'") == ["2026-05-20"]


def test_the_shell_answers_the_five_questions_of_the_readme(folder: Path) -> None:
    block = README.split("sqlite3 made/data/journal.sqlite")
    asked = [re.match(r' "([^"]+)"', part) for part in block[1:]]
    questions = [one[1] for one in asked if one]
    assert len(questions) == 5
    for question in questions:
        assert shell(folder, question), question


def test_every_view_can_be_asked(base: sqlite3.Connection) -> None:
    for question in QUESTIONS:
        assert base.execute(f"SELECT * FROM {question.name}").fetchall(), question.name


def test_what_the_questions_answer(base: sqlite3.Connection) -> None:
    """Each against the lines of the example's diary, counted once however many trees share one."""
    roots = dict(base.execute("SELECT tree, last_day FROM last_root_work"))
    assert roots["heron"] == "2024-03-16"
    hours = dict(base.execute("SELECT month, hours FROM hours_by_month"))
    assert hours["2026-04"] == 1.5 + 2.5 + 2 + 2.5 + 1.25


def test_the_schema_tells_what_each_column_means(base: sqlite3.Connection) -> None:
    for table, statement in base.execute("SELECT name, sql FROM sqlite_master WHERE type='table'"):
        columns = base.execute(f"PRAGMA table_info({table})").fetchall()
        assert statement.count(" -- ") == len(columns) + 1, table


def test_csv_holds_what_the_tables_hold(folder: Path, base: sqlite3.Connection) -> None:
    tables = [name for (name,) in base.execute("SELECT name FROM sqlite_master WHERE type='table'")]
    assert len(tables) == 20
    for table in tables:
        with (folder / "csv" / f"{table}.csv").open(newline="", encoding="utf-8") as file:
            heads, *rows = csv.reader(file)
        found = base.execute(f"SELECT * FROM {table}")
        assert [one[0] for one in found.description] == heads
        assert len(found.fetchall()) == len(rows), table
    with (folder / "csv" / "columns.csv").open(newline="", encoding="utf-8") as file:
        told = {(row["table"], row["column"]) for row in csv.DictReader(file)}
    assert {("pots", "volume_litres"), ("on_trees", "thickness_mm")} <= told


def test_json_is_of_the_published_shape(folder: Path) -> None:
    found = json.loads((folder / "journal.json").read_text("utf-8"))
    validator("data").validate(found)
    assert len(found["trees"]) == 25


def test_an_outside_reader_reads_the_collection(folder: Path) -> None:
    """python-dwca-reader, by the metafile alone."""
    term = "http://rs.tdwg.org/dwc/terms/"
    with DwCAReader(str(folder / "collection.zip")) as archive:
        assert archive.core_contains_term(f"{term}scientificName")
        assert archive.descriptor.core.type == f"{term}Occurrence"
        rows = {row.data[f"{term}catalogNumber"]: row for row in archive}
        heron = rows["heron"]
        assert heron.id == "sallowdrum:heron"
        assert heron.data[f"{term}scientificName"] == "Acer buergerianum"
        assert heron.data[f"{term}basisOfRecord"] == "LivingSpecimen"
        # `since 2009-21`, a spring, is EDTF and no date of ISO 8601.
        assert heron.data[f"{term}eventDate"] == ""
        assert heron.data[f"{term}verbatimEventDate"] == "2009-21"
        assert rows["anvil"].data[f"{term}eventDate"] == "2018-03"
        sizes = {one.data[f"{term}measurementType"]: one.data for one in heron.extensions}
        assert sizes["trunk"][f"{term}measurementUnit"] == "cm"
        assert archive.metadata.find("dataset/title").text.startswith("The yard at Sallowdrum")
        # Customers' trees are none of the collection.
        assert not {"gale", "tarn", "bosun"} & rows.keys()


def test_equal_journals_give_equal_bytes(folder: Path) -> None:
    session = open_session(str(folder.parents[2]), DAY, as_of=True, keeps=False)
    again = dict(data_files(dataset_of(session, KEEPER)))
    for name, content in again.items():
        assert (folder / name).read_bytes() == content, name


def test_a_cell_that_a_spreadsheet_would_reckon_with_stays_text() -> None:
    """OWASP, CSV Injection."""
    rows = [("=1+1", "-2.5", -2.5), ("@x", "+49 170", None), ("tunnel", "-rm", 1)]
    lines = csv_bytes(("a", "b", "c"), rows).decode().splitlines()
    assert lines[1:] == ["'=1+1,-2.5,-2.5", "'@x,'+49 170,", "tunnel,'-rm,1"]


def test_rows_that_name_each_other_come_in_an_order_that_holds() -> None:
    columns = (text("place", "handle"), text("within", "outer", "places"))
    rows = (("bench", "tunnel"), ("tunnel", "yard"), ("yard", None))
    base = sqlite3.connect(":memory:")
    base.deserialize(sqlite_of([DataTable("places", "the places", columns, ("place",), rows)]))
    found = [place for (place,) in base.execute("SELECT place FROM places ORDER BY rowid")]
    assert found == ["yard", "tunnel", "bench"]
    circle = (("a", "b"), ("b", "a"))
    with pytest.raises(ValueError, match="circle"):
        sqlite_of([DataTable("places", "the places", columns, ("place",), circle)])


# ------------------------------------------------------------------------------ who may have what

MONEY = re.compile(r"\b(38\.17|73\.19|17\.29|913\.37|118\.23|131\.71)\b")


@pytest.fixture(scope="module")
def planted(tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[DatasetView, str]]:
    """For each eyes the dataset of a journal with a word in every place, and all bytes of it."""
    into = tmp_path_factory.mktemp("planted data")
    PLANTED["plant"], PLANTED["named"] = planted_journal(into)
    session = open_session(str(into), date(2026, 6, 1))
    found = {}
    for name, eyes in (("keeper", KEEPER), ("helper", HELPER), ("public", PUBLIC),
                       ("owner", eyes_of("marrow"))):  # fmt: skip
        data = dataset_of(session, eyes)
        files = dict(data_files(data))
        base = sqlite3.connect(":memory:")
        base.deserialize(files.pop("journal.sqlite"))
        files["dump.sql"] = "\n".join(base.iterdump()).encode()
        archive = zipfile.ZipFile(io.BytesIO(files.pop("collection.zip")))
        files |= {one: archive.read(one) for one in archive.namelist()}
        found[name] = data, "\n".join(readings(*file) for file in files.items())
    return found


PLANTED: dict[str, object] = {}


def words_in(text: str) -> set[str]:
    plant = PLANTED["plant"]
    return {plant.where[word] for word in plant.words_in(text)}  # type: ignore[attr-defined]


def test_the_keeper_has_all_of_it(planted: dict[str, tuple[DatasetView, str]]) -> None:
    _, text = planted["keeper"]
    assert len(words_in(text)) > 500
    assert MONEY.search(text)


def test_the_public_has_no_word_no_name_and_no_sum(
    planted: dict[str, tuple[DatasetView, str]],
) -> None:
    data, text = planted["public"]
    assert len(data.trees) == 2
    assert words_in(text) == set()
    assert not MONEY.search(text)
    for word in ("hoshi", "yuki", "aki", "marrow", "wrenfold", "far-corner", "tray-7", ".txt"):
        assert not re.search(rf"(?<![\w-]){re.escape(word)}\b", text), word


def test_a_helper_has_no_money_and_nothing_private(
    planted: dict[str, tuple[DatasetView, str]],
) -> None:
    data, text = planted["helper"]
    assert not MONEY.search(text)
    assert data.people == () and data.accounts == () and data.details == {}
    assert not [where for where in words_in(text) if "private" in where or "contact" in where]


def test_an_owner_has_their_trees_alone(planted: dict[str, tuple[DatasetView, str]]) -> None:
    data, text = planted["owner"]
    assert {tree.owner for tree in data.trees} == {data.person}
    assert data.places == () and data.pots == () and data.accounts == () and data.shelf is None
    assert not MONEY.search(text)
    allowed = ("own name", "house", "for owner", "hoshi ", "tray-7 name", "grit name")
    assert [where for where in words_in(text) if not where.startswith(allowed)] == []
    assert archive_of(data)
    assert [t.rows for t in tables_of(data) if t.name in ("bookings", "charges", "visits")] == [
        ()
    ] * 3
