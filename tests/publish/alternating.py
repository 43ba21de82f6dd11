"""A process to be killed: it finishes what is left, waits for a word, then publishes for ever."""

from __future__ import annotations

import itertools
import os
import sys
import time


def files_of(number: int) -> dict[str, bytes]:
    """The set of that number: some files are in every set, some in a few, some change rarely."""
    files = {f"number-{number}.txt": b"", "index.html": b"set %d" % number}
    for count in range(80):
        size = (count * 997) % 6000
        version = number // (1 + count % 4)
        if (number + count) % 5:
            files[f"trees/{count % 9}/{count}.html"] = b"%d " % version * size
    files["way" if number % 2 else "way/deeper/index.html"] = b"%d" % number
    files["large.sqlite"] = b"%8d" % number * 40_000
    return files


def run(journal: str, number: int) -> None:
    from backbud.publish.commit import finish, publish

    # As on a slow disk: a random moment then often falls between two files.
    replace = os.replace

    def slow_replace(source: str, target: str) -> None:
        replace(source, target)
        time.sleep(0.0005)

    os.replace = slow_replace  # type: ignore[assignment]
    print(finish(journal), flush=True)
    sys.stdin.readline()
    for following in itertools.count(number):
        publish(journal, files_of(following))


if __name__ == "__main__":
    run(sys.argv[1], int(sys.argv[2]))
