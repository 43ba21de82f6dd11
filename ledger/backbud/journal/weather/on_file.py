"""Gives out the weather files of a place; each is read once, when it is first asked for."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from backbud.journal.load import Loaded
from backbud.journal.problems import PlacedFlaw, WithFlaws, flaw_at, placed
from backbud.journal.things import Line, Thing
from backbud.journal.weather.series import Series, Station, Until
from backbud.memo import Memo


class WeatherFiles:
    """What the weather files of a journal say; each is read when it is first asked for.

    `loaded`: those that end in .txt, which were loaded with the diary. `texts`: the bytes of each
    file that was read so far, since problems show the line they speak of.
    """

    def __init__(
        self,
        folder: str,
        until: Until,
        loaded: Mapping[str, Loaded],
        kept: Memo,
    ) -> None:
        self.texts: dict[str, bytes] = {}
        self._folder, self._until, self._loaded, self._kept = folder, until, loaded, kept
        self._series: dict[str, Series] = {}

    def of(self, place: Thing) -> WithFlaws[dict[str, Series]]:
        """The place's weather files by name, in the order of its card."""
        files: dict[str, Series] = {}
        flaws: list[PlacedFlaw] = []
        # Most journals have no weather file.
        if place.detail("weather") is None:
            return WithFlaws(files)
        from backbud.journal.weather.named import files_named_by

        for name, line in files_named_by(place):
            series, found = self._file(name, line)
            flaws += found
            if series is not None:
                files.setdefault(name, series)
        return WithFlaws(files, tuple(flaws))

    def stations(self, place: Thing) -> list[Station]:
        """Where the files of a place say that they were measured."""
        return [series.station for series in self.of(place).value.values()]

    def _file(self, name: str, line: Line) -> WithFlaws[Series | None]:
        # The readers of all forms take time to load.
        from backbud.journal.weather.files import load_file, read_file, refused

        written = line.detail.words
        why = refused(self._folder, name)
        if why is not None:
            return WithFlaws(None, (flaw_at(line.where(written), *why, 0, len(written)),))
        if name not in self._series:
            loaded = self._loaded.get(name) or load_file(self._folder, name)
            self.texts[name] = loaded.data
            self._series[name] = self._kept.once(
                ("weather file", name),
                (loaded, self._until),
                partial(read_file, loaded, self._until),
            )
        series = self._series[name]
        return WithFlaws(series, placed(name, 0, series.flaws))
