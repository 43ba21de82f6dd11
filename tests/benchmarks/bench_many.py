"""Many small journals go in; how the time to make all of them falls with the workers comes out.

Not part of the suite: `pytest tests/benchmarks/bench_many.py -s` (JOURNALS=200 for fewer). The same
function is mapped over the same folders by this process, by a pool of two processes, and by a local
cluster of two workers of an engine that we did not write. One journal in a hundred cannot be made.
Beside each stands what work that shares nothing gains from the second worker just then: on a busy
machine no more can be had.
"""

from __future__ import annotations

import os
import time
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from multiprocessing import get_context
from pathlib import Path

import pytest
from distributed import Client, LocalCluster
from small import DAY, small_journals

from backbud import NotMade, Output, made_of

JOURNALS = int(os.environ.get("JOURNALS", "1000"))
WORKERS = (1, 2)
MADE = partial(made_of, day=DAY)


@pytest.fixture(scope="module")
def journals(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    folders = small_journals(tmp_path_factory.mktemp("many"), JOURNALS)
    for broken in folders[::100]:
        (broken / "backbud.toml").unlink()
    return folders


def looked_at(made: Iterable[Output | NotMade]) -> tuple[int, int, int]:
    """How many were made, how many not, and the bytes of all."""
    count = failed = size = 0
    for one in made:
        if isinstance(one, NotMade):
            failed += 1
        else:
            count, size = count + 1, size + sum(map(len, one.files.values()))
    return count, failed, size


def by_pool(journals: list[Path], workers: int) -> tuple[float, tuple[int, int, int]]:
    with ProcessPoolExecutor(workers, mp_context=get_context("spawn")) as pool:
        list(pool.map(MADE, journals[1 : 1 + 4 * workers]))  # every worker has loaded all it needs
        start = time.perf_counter()
        found = looked_at(pool.map(MADE, journals, chunksize=5))
        return time.perf_counter() - start, found


def by_engine(
    journals: list[Path], workers: int, folder: Path
) -> tuple[float, tuple[int, int, int]]:
    with (
        LocalCluster(
            n_workers=workers,
            threads_per_worker=1,
            host="127.0.0.1",
            dashboard_address=None,
            local_directory=str(folder),
        ) as cluster,
        Client(cluster) as client,
    ):
        client.gather(client.map(MADE, journals[1 : 1 + 4 * workers], pure=False))
        start = time.perf_counter()
        found = looked_at(client.gather(client.map(MADE, journals)))
        return time.perf_counter() - start, found


def busy(step: int) -> int:
    """Work that shares nothing with any other: about as long as one journal takes."""
    return sum(range(step, step + 1_500_000))


def machine(workers: int) -> float:
    """The seconds for a hundred steps of such work: what the cores have left for us just now."""
    with ProcessPoolExecutor(workers, mp_context=get_context("spawn")) as pool:
        list(pool.map(busy, range(4 * workers)))
        start = time.perf_counter()
        list(pool.map(busy, range(100)))
        return time.perf_counter() - start


def test_how_it_scales(journals: list[Path], tmp_path: Path) -> None:
    broken = len(journals[::100])
    for name, run in (
        ("pool of processes", by_pool),
        ("distributed", lambda these, workers: by_engine(these, workers, tmp_path)),
    ):
        seconds = {}
        for workers in WORKERS:
            seconds[workers], (made, failed, size) = run(journals, workers)
            assert (made, failed) == (len(journals) - broken, broken)
            print(
                f"\n{name}, {workers} workers: {len(journals)} journals in "
                f"{seconds[workers]:.1f} s, {seconds[workers] / len(journals) * 1000:.0f} ms each, "
                f"{size / 1e6:.0f} MB made"
            )
        most = machine(1) / machine(2)
        print(f"work that shares nothing: two workers are {most:.2f} times as quick as one")
        print(f"{name}: two workers are {seconds[1] / seconds[2]:.2f} times as quick as one")
