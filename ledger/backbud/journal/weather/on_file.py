"""Gives out the weather files of a place; each is read once, when it is first asked for."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import TYPE_CHECKING

from backbud.journal.load import Loaded
from backbud.journal.problems import PlacedFlaw, WithFlaws, flaw_at, placed
from backbud.journal.things import Line, Thing
from backbud.journal.weather.arrived import Arrived, arrived
from backbud.journal.weather.series import Series, Station, Until
from backbud.memo import Memo
from backbud_grammar.problems import Flaw

if TYPE_CHECKING:
    from backbud.climate.forecast import Forecast


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
        self._arrived: Arrived | None = None

    def arrived(self, find_place: Callable[[str], Thing | None]) -> Arrived:
        """The files of weather that came by themselves; looked for once."""
        if self._arrived is None:
            self._arrived = arrived(self._folder, find_place)
        return self._arrived

    def past(self, name: str) -> WithFlaws[Series | None]:
        """What such a file says of days that are over."""
        loaded, flaws = self._loaded_by_name(name)
        if loaded is None:
            return WithFlaws(None, flaws)
        series = self._read(name, loaded)
        return WithFlaws(series, placed(name, 0, series.flaws))

    def forecast(self, name: str, place: str) -> WithFlaws[Forecast | None]:
        """What such a file says of days to come."""
        from backbud.journal.weather.forecast import read_forecast

        loaded, flaws = self._loaded_by_name(name)
        if loaded is None:
            return WithFlaws(None, flaws)
        read = self._kept.once(
            ("forecast", name),
            (loaded, place),
            partial(read_forecast, loaded.data.decode(), name, place),
        )
        return WithFlaws(read.forecast, placed(name, 0, (*loaded.flaws, *read.flaws)))

    def _loaded_by_name(self, name: str) -> WithFlaws[Loaded | None]:
        """The bytes of a file that no card names; what is wrong with it is told of itself."""
        from backbud.journal.weather.files import load_file, refused

        why = refused(self._folder, name)
        if why is not None:
            return WithFlaws(
                None, placed(name, 0, (Flaw(why.code, 0, 1, 1, why.message, why.hint),))
            )
        loaded = load_file(self._folder, name)
        self.texts[name] = loaded.data
        return WithFlaws(loaded)

    def _read(self, name: str, loaded: Loaded) -> Series:
        from backbud.journal.weather.files import read_file

        return self._kept.once(
            ("weather file", name), (loaded, self._until), partial(read_file, loaded, self._until)
        )

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
        from backbud.journal.weather.files import load_file, refused

        written = line.detail.words
        why = refused(self._folder, name)
        if why is not None:
            return WithFlaws(None, (flaw_at(line.where(written), *why, 0, len(written)),))
        if name not in self._series:
            loaded = self._loaded.get(name) or load_file(self._folder, name)
            self.texts[name] = loaded.data
            self._series[name] = self._read(name, loaded)
        series = self._series[name]
        return WithFlaws(series, placed(name, 0, series.flaws))
