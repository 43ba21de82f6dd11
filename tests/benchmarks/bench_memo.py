"""A journal and a save go in; what each kind of slot of the memo earns at that save comes out.

Not part of the suite: `python tests/benchmarks/bench_memo.py [ACTS …]`. One process makes the
journal as `watch` does, and again after a save. Then, at one more save, whatever is found in a slot
is made again to see how long that takes, of this thread's own time, less what it takes to find it
there. What others are made from by identity earns more than is told: without it they would be made
again too.
"""

from __future__ import annotations

import re
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Hashable
from datetime import date
from pathlib import Path
from time import thread_time_ns
from typing import TypeVar

from generate import generate

from backbud.memo import Memo
from backbud.serve.rebuild import Rebuilder

T = TypeVar("T")
TODAY = date(2026, 11, 20)


def kind_of(slot: Hashable) -> str:
    """What kind of thing is in a slot."""
    kind = slot[0] if isinstance(slot, tuple) else str(slot)
    # The shelf's slots name their tree or material in one text.
    return re.sub(r"^(moves|same moves|shelf) .*", r"\1", str(kind))


class Measure:
    """What was found in slots, and how long it took to find it and to make it again, by kind."""

    def __init__(self) -> None:
        self.found: Counter[str] = Counter()
        self.made: Counter[str] = Counter()
        self.finding: Counter[str] = Counter()
        self.making: Counter[str] = Counter()
        self._once, self._inside = Memo.once, False

    def once(
        self, memo: Memo, slot: Hashable, inputs: tuple[object, ...], work: Callable[[], T]
    ) -> T:
        worked = []
        began = thread_time_ns()
        value: T = self._once(memo, slot, inputs, lambda: worked.append(1) or work())  # type: ignore[func-returns-value,return-value]
        if self._inside or worked:
            self.made[kind_of(slot)] += len(worked)
            return value
        kind, found = kind_of(slot), thread_time_ns()
        self.found[kind] += 1
        self.finding[kind] += found - began
        self._inside = True
        work()
        self._inside = False
        self.making[kind] += thread_time_ns() - found
        return value


def journal_to_save(folder: Path, acts: int) -> Callable[[int], None]:
    """Generate a journal; what comes back writes one more line of a tree into it."""
    generate(folder, acts)
    page = max(folder.glob("diary/**/*.txt"))
    text = page.read_text(encoding="utf-8")
    cards = "".join(path.read_text(encoding="utf-8") for path in folder.glob("cards/*.txt"))
    handles = set(re.findall(r"^tree (\S+)", cards, re.MULTILINE))
    tree = next(line for line in text.splitlines() if line in handles)
    day = next(line for line in reversed(text.splitlines()) if line[:1].isdigit())[:10]

    def save(count: int) -> None:
        planned = f"planned  feed, in {count % 9 + 2} weeks"
        page.write_text(f"{text}\n{day}\n\n{tree}\n  noted    seen {count} times\n  {planned}\n")

    return save


def measured(acts: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        save = journal_to_save(Path(folder), acts)
        rebuilder = Rebuilder(folder, lambda: TODAY)
        measure = Measure()
        for count in range(3):
            save(count)
            if count == 2:
                Memo.once = lambda *given: measure.once(*given)  # type: ignore[method-assign]
            news = rebuilder.rebuild()
            assert not news.failure, news.failure
        Memo.once = measure._once  # type: ignore[method-assign]
    print(f"{acts} acts\n earned ms  found  made  kind")
    for kind in {**measure.found, **measure.made}:
        earned = (measure.making[kind] - measure.finding[kind]) / 1e6
        print(f"{earned:10.1f} {measure.found[kind]:6} {measure.made[kind]:5}  {kind}", flush=True)


if __name__ == "__main__":
    for acts in sys.argv[1:] or ["20000", "100000"]:
        measured(int(acts))
