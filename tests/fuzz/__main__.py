"""Send odd journals through everything: `python tests/fuzz --inputs 100000 --workers 2`.

Each fault is told once, with its seed and the smallest journal that shows it; the exit status is 1
where there was any. `--seed N` sends that one alone. What hangs outside Python, where no timer of
its own can ring, is ended by the process that watches.
"""

from __future__ import annotations

import argparse
import gc
import multiprocessing
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).parents[2]))

from hostile import Files, hostile
from shrink import shrunk
from through import SECONDS, Fault, fault_of

# A worker that says nothing for so long hangs where its own timer does not ring.
SILENT_SECONDS = 12 * SECONDS

TELL_EVERY = 1000
COLLECT_EVERY = 100


def main(arguments: list[str] | None = None) -> int:
    asked = argparse.ArgumentParser(prog="python tests/fuzz", description=__doc__)
    asked.add_argument("--inputs", type=int, default=1000, help="how many journals (1000)")
    asked.add_argument("--from", dest="first", type=int, default=0, help="the first seed (0)")
    asked.add_argument("--workers", type=int, default=2, help="processes side by side (2)")
    asked.add_argument("--seed", type=int, help="send this one alone, and show it")
    options = asked.parse_args(arguments)
    if options.seed is not None:
        return _one(options.seed)
    began = time.monotonic()
    found = run(options.first, options.inputs, options.workers)
    took = time.monotonic() - began
    print(
        f"{options.inputs} inputs from seed {options.first} in {took:.0f} s "
        f"({options.inputs / max(took, 1e-9):.1f} a second): {len(found)} sorts of fault, "
        f"{sum(found.values())} faults."
    )
    return 1 if found else 0


def _one(seed: int) -> int:
    files = hostile(seed)
    fault = fault_of(files)
    _show(files)
    print(fault.told if fault else f"Seed {seed}: nothing went wrong.")
    return 1 if fault else 0


@dataclass
class _Worker:
    """A process that sends its seeds through, and the last it told of."""

    process: BaseProcess
    pipe: Connection
    seeds: range
    at: int
    heard: float


class Told(NamedTuple):
    """What a worker says: which seed it is at, its fault, and the smallest journal that has it."""

    seed: int
    fault: Fault | None = None
    smallest: Files | None = None


def run(first: int, inputs: int, workers: int) -> dict[str, int]:
    """How often each sort of fault was met; each is printed as it is met first."""
    found: dict[str, int] = {}
    seeds = range(first, first + inputs)
    running = [_started(seeds[n::workers]) for n in range(workers)]
    while running:
        for pipe in wait([one.pipe for one in running], timeout=1.0):
            worker = next(one for one in running if one.pipe is pipe)
            try:
                told = worker.pipe.recv()
            except (EOFError, OSError):
                running.remove(worker)
                running += _after_its_end(worker, found)
                continue
            worker.at, worker.heard = told.seed, time.monotonic()
            if told.fault is not None:
                _tell(told, found)
            elif told.seed and told.seed % TELL_EVERY == 0:
                print(f"seed {told.seed} …", file=sys.stderr, flush=True)
        for worker in running:
            if time.monotonic() - worker.heard > SILENT_SECONDS:
                worker.process.kill()
    return found


def _started(seeds: range) -> _Worker:
    here, there = multiprocessing.Pipe(duplex=False)
    process = multiprocessing.Process(target=_work, args=(seeds, there))
    process.start()
    there.close()
    return _Worker(process, here, seeds, seeds.start, time.monotonic())


def _work(seeds: range, pipe: Connection) -> None:
    """Send each seed through; the first of each sort of fault is shrunk."""
    met: set[str] = set()
    # Of small journals little is left over: to look for it after every few takes a tenth.
    gc.disable()
    for number, seed in enumerate(seeds, start=1):
        pipe.send(Told(seed))
        if number % COLLECT_EVERY == 0:
            gc.collect()
        files = hostile(seed)
        fault = fault_of(files)
        if fault is None:
            continue
        smallest = None
        if fault.sort not in met and fault.sort != "overrun":
            smallest = shrunk(files, partial(_goes_wrong_so, pipe, Told(seed), fault))
        met.add(fault.sort)
        pipe.send(Told(seed, fault, smallest))
    pipe.send(Told(seeds.stop))


def _goes_wrong_so(pipe: Connection, alive: Told, fault: Fault, files: Files) -> bool:
    pipe.send(alive)
    again = fault_of(files)
    return again is not None and again.sort == fault.sort


def _after_its_end(worker: _Worker, found: dict[str, int]) -> Iterator[_Worker]:
    """Another worker for the seeds that are left, where one was ended before its last."""
    worker.process.join()
    if worker.at != worker.seeds.stop:
        why = "it hung outside Python, or ended the process"
        _tell(Told(worker.at, Fault("ended", why)), found)
        rest = range(worker.at + worker.seeds.step, worker.seeds.stop, worker.seeds.step)
        if rest:
            yield _started(rest)


def _tell(told: Told, found: dict[str, int]) -> None:
    assert told.fault is not None
    sort = told.fault.sort
    found[sort] = found.get(sort, 0) + 1
    if found[sort] == 1:
        print(f"== seed {told.seed}: {sort}\n{told.fault.told}")
        _show(told.smallest or {})
        sys.stdout.flush()


def _show(files: Files) -> None:
    for name, data in files.items():
        print(f"-- {name}\n{data.decode(errors='backslashreplace')}")


if __name__ == "__main__":
    sys.exit(main())
