"""The weather files that places' cards name are read, each once, and what is wrong is noted."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import TYPE_CHECKING

from backbud.journal.notes import Notes
from backbud.journal.things import Line, Thing
from backbud.journal.weather.series import Series, Station, Until
from backbud.kept import Kept

if TYPE_CHECKING:
    from backbud.journal.read import Loaded


class WeatherFiles:
    """What the weather files of a journal say; each is read when it is first asked for.

    `loaded`: those that end in .txt, which were loaded with the diary. `texts`: where the bytes of
    the others are put, since problems show the line they speak of.
    """

    def __init__(
        self,
        folder: str,
        until: Until,
        loaded: Mapping[str, Loaded],
        texts: dict[str, bytes],
        notes: Notes,
        kept: Kept,
    ) -> None:
        self._folder, self._until, self._loaded = folder, until, loaded
        self._texts, self._notes, self._kept = texts, notes, kept
        self._series: dict[str, Series] = {}

    def of(self, place: Thing) -> dict[str, Series]:
        """The place's weather files by name, in the order of its card."""
        # Most journals have no weather file.
        if place.detail("weather") is None:
            return {}
        from backbud.journal.weather.named import files_named_by

        files: dict[str, Series] = {}
        for name, line in files_named_by(place):
            series = self._file(name, line)
            if series is not None:
                files.setdefault(name, series)
        return files

    def stations(self, place: Thing) -> list[Station]:
        """Where the files of a place say that they were measured."""
        return [series.station for series in self.of(place).values()]

    def _file(self, name: str, line: Line) -> Series | None:
        # The readers of all forms take time to load.
        from backbud.journal.weather.files import load_file, read_file, refused

        written = line.detail.words
        why = refused(self._folder, name)
        if why is not None:
            self._notes.at(line.where(written), *why, 0, len(written))
            return None
        if name not in self._series:
            loaded = self._loaded.get(name) or load_file(self._folder, name)
            self._texts[name] = loaded.data
            series = self._kept.once(
                ("weather file", name),
                (loaded, self._until),
                partial(read_file, loaded, self._until),
            )
            for flaw in series.flaws:
                self._notes.add(name, 0, flaw)
            self._series[name] = series
        return self._series[name]
