"""Many journals: one function of folder and day, mapped over them by pools that do not know it."""

from __future__ import annotations

from concurrent.futures import ProcessPoolExecutor
from functools import partial
from multiprocessing import get_context
from pathlib import Path

from distributed import Client, LocalCluster
from small import DAY, small_journals

from backbud import NotMade, Output, made_of

MADE = partial(made_of, day=DAY)


def with_failing(folder: Path, count: int) -> list[Path]:
    """So many journals; the second holds none, the third is full of mistakes."""
    folders = small_journals(folder, count)
    (folders[1] / "backbud.toml").unlink()
    (folders[2] / "journal.txt").write_text("tree hoshi\n2026-02-30\nhoshi\n  frobbed 3 qq\n")
    return folders


def check(folders: list[Path], made: list[Output | NotMade]) -> None:
    """Each is what this process makes of the same folder; the one that holds no journal is told."""
    assert made == [made_of(folder, DAY) for folder in folders]
    assert made[1] == NotMade(str(folders[1]), f"{folders[1]} holds no journal (no backbud.toml).")
    outputs = [one for one in made if isinstance(one, Output)]
    assert len(outputs) == len(folders) - 1
    assert all(one.trees == 1 and "index.html" in one.files for one in outputs)
    # No two journals are alike, so no answer stands in another's place.
    assert len({one.files["calendars/all.ics"] for one in outputs}) == len(outputs)
    assert [len(one.problems) > 0 for one in outputs] == [
        False,
        True,
        *[False] * (len(folders) - 3),
    ]


def test_a_pool_of_processes(tmp_path: Path) -> None:
    folders = with_failing(tmp_path, 12)
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as pool:
        check(folders, list(pool.map(MADE, folders)))


def test_an_engine_that_knows_nothing_of_it(tmp_path: Path) -> None:
    folders = with_failing(tmp_path / "journals", 6)
    with (
        LocalCluster(
            n_workers=2,
            threads_per_worker=1,
            host="127.0.0.1",
            dashboard_address=None,
            local_directory=str(tmp_path),
        ) as cluster,
        Client(cluster) as client,
    ):
        check(folders, client.gather(client.map(MADE, folders)))
