"""A journal that goes wrong goes in; the smallest that goes wrong in the same way comes out."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from hostile import Files

# So many smaller journals are tried; each takes a twentieth of a second, or its time limit.
MOST_TRIES = 400


def shrunk(files: Files, goes_wrong: Callable[[Files], bool], tries: int = MOST_TRIES) -> Files:
    """Take away files, lines, words and letters for as long as the rest `goes_wrong`."""
    left = [tries]

    def still(smaller: Files) -> bool:
        left[0] -= 1
        return left[0] >= 0 and goes_wrong(smaller)

    for name in sorted(files):
        if len(files) > 1 and still(rest := {n: d for n, d in files.items() if n != name}):
            files = rest
    for apart in (b"\n", b" ", b""):
        for name in sorted(files):
            files = _of_pieces(files, name, apart, still)
    return files


def _of_pieces(files: Files, name: str, apart: bytes, still: Callable[[Files], bool]) -> Files:
    """Without as many as can be of the pieces of a file, taken away by halves, then quarters."""
    data = files[name]
    pieces = data.split(apart) if apart else [data[i : i + 1] for i in range(len(data))]
    size = max(len(pieces) // 2, 1)
    while pieces:
        for kept in _without_runs(list(pieces), size):
            smaller = {**files, name: apart.join(kept)}
            if len(kept) < len(pieces) and still(smaller):
                files, pieces = smaller, kept
                break
        else:
            if size == 1:
                break
            size = max(size // 2, 1)
    return files


def _without_runs(pieces: list[bytes], size: int) -> Iterator[list[bytes]]:
    for start in range(0, len(pieces), size):
        yield pieces[:start] + pieces[start + size :]
