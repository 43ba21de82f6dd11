"""Makes the files of a large output in two processes, some files at a time."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

import msgspec

from backbud.journal.shared_out import SharedOut, shared_out

# A file's relative POSIX path and its bytes.
NamedFile = tuple[str, bytes]
_FILE = msgspec.msgpack.Decoder(NamedFile)


class SharedFiles:
    """Files that a copy of this process has begun to make; `files` is to be gone through once."""

    def __init__(self, makers: Sequence[Callable[[], Iterable[NamedFile]]], folder: str) -> None:
        """`makers`: each makes some of the files. `folder`: where a large file may lie."""
        self._makers = makers

        def pieces(part: int) -> Iterator[bytes]:
            return map(msgspec.msgpack.encode, makers[part]())

        self._shared: SharedOut | None = shared_out(len(makers), folder, pieces, apart=True)

    def files(self) -> Iterator[NamedFile]:
        """All of the files, made here and there; all here where there can be no copy."""
        if self._shared is None:
            for maker in self._makers:
                yield from maker()
            return
        with self._shared:
            for part, pieces in self._shared.parts():
                yield from self._makers[part]() if pieces is None else map(_FILE.decode, pieces)
