"""Tells where every place lies, and whether home lies in the north or in the south.

There is one answer for a journal: whatever is turned by the hemisphere (the seasons of a date,
windows by months, the growing year) asks here, and so does the weather. What is wrong with the
answers is told of the cards, whoever asked.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from typing import TYPE_CHECKING

from backbud.journal.events import Origin
from backbud.journal.problems import PlacedFlaw, PlacedFlaws, WithFlaws, flaw_at
from backbud.journal.settings import SETTINGS_FILE
from backbud.journal.things import Thing, Things
from backbud.journal.weather.on_file import WeatherFiles
from backbud.journal.weather.position import own_position, taken_over
from backbud.journal.weather.record import Position
from backbud.publish.memory import MemoryOf
from backbud_grammar.act_words import LabelName

if TYPE_CHECKING:
    from backbud.journal.weather.town import Town

# What a card may say of where a place is; what else it says is of no use without.
SAYS_WHERE: tuple[LabelName, ...] = ("latitude", "town")
_SAYS_ANYTHING: tuple[LabelName, ...] = (*SAYS_WHERE, "longitude", "elevation", "weather")


class Positions:
    """Where the places of a journal are; each is sought when it is first asked for.

    `home`: the handle of the home place as the settings have it, or "". `memory`: the journal's.
    """

    def __init__(self, things: Things, home: str, files: WeatherFiles, memory: MemoryOf) -> None:
        self.files = files
        self._things, self._named_home, self._memory = things, home, memory
        self._own: dict[str, WithFlaws[Position]] = {}
        self._towns: dict[str, Town | None] = {}

    @cached_property
    def home(self) -> str:
        """The handle of the home place: that of the settings, else the first whose card says where
        it is, else the first; "" where no place has a card."""
        named = self.place(self._named_home)
        places = self._things.of_kind("place")
        first = next((p for p in places if any(p.detail(label) for label in SAYS_WHERE)), None)
        found = named or first or next(iter(places), None)
        return found.handle if found else ""

    @cached_property
    def southern(self) -> bool | None:
        """Whether home lies south of the equator; None where nobody says where it is."""
        home = self.place(self.home)
        latitude = self._resolved(home).latitude if home is not None else None
        return None if latitude is None else latitude < 0

    def of(self, handle: str) -> Position:
        """Where a place is: its own position, else that of what it is within, else home's."""
        place = self.place(handle)
        if place is None:
            return Position()
        return self._resolved(place)

    def place(self, written: str) -> Thing | None:
        """The place so called."""
        found = self._things.find(written) if written else None
        return found if found is not None and found.kind == "place" else None

    def outward(self, place: Thing) -> list[str]:
        """The place and the places it is within, from the inside out."""
        out: list[str] = []
        at: Thing | None = place
        while at is not None and at.handle not in out:
            out.append(at.handle)
            at = self.place(at.text("within"))
        return out

    def flaws(self) -> PlacedFlaws:
        """What is wrong with what the cards say of where places are."""
        flaws: list[PlacedFlaw] = []
        for place in self._things.of_kind("place"):
            if any(place.detail(label) for label in _SAYS_ANYTHING):
                flaws += self._own_of(place.handle).flaws
                flaws += self._in_other_half(place)
        return tuple(flaws)

    def flaws_of_home(self) -> PlacedFlaws:
        """That nobody says where home is, where there are trees whose year hangs on it."""
        if self.southern is not None or not self._things.of_kind("tree"):
            return ()
        home = self.place(self.home)
        card = f"on the card of “{home.handle}”" if home else "on a card of home, place yard"
        flaw = flaw_at(
            home.origin if home else Origin(SETTINGS_FILE, 1, 1),
            "unknown-hemisphere",
            "nobody says where home is, so the seasons are taken to be those of the north",
            f"Write {card}: latitude 52 N, or latitude 37.8 S, or town Seattle.",
            0,
            1 if home is None else len("place"),
            "warning",
        )
        return (flaw,)

    def flaws_without_weather(self) -> PlacedFlaws:
        """That nothing says when what is due at home, of whose weather nothing is known, where
        there are trees whose year hangs on it."""
        home = self.place(self.home)
        if home is None or not self._resolved(home).in_tropics or not self._things.of_kind("tree"):
            return ()
        flaw = flaw_at(
            home.origin,
            "unknown-season",
            "between the tropics months tell no season, and nothing is known of the weather of "
            f"“{home.handle}”: no work of the year is foretold",
            "Write twelve mean lows and highs, January first, on its card: "
            "low 24 24 25 25 26 26 25 25 25 25 25 24 C, and high; or name a weather file.",
            0,
            len("place"),
            "warning",
        )
        return (flaw,)

    def _resolved(self, place: Thing) -> Position:
        first, *around = self._from_inside_out(place)
        position = self._own_of(first).value
        for handle in around:
            if position.latitude is not None:
                break
            position = taken_over(position, self._own_of(handle).value)
        return position

    def _from_inside_out(self, place: Thing) -> Iterator[str]:
        site = self.outward(place)
        yield from site
        home = self.place(self.home)
        yield from (at for at in (self.outward(home) if home else ()) if at not in site)

    def _own_of(self, handle: str) -> WithFlaws[Position]:
        if handle not in self._own:
            place = self._things.by_handle[handle]
            self._own[handle] = own_position(
                place, lambda: self.files.stations(place), self._town_called
            )
        return self._own[handle]

    def _town_called(self, written: str) -> Town | None:
        """The town, sought together with those of all other cards: a search takes seconds."""
        if written not in self._towns:
            from backbud.journal.weather.town import towns_called

            open_ones = {
                place.text("town")
                for place in self._things.of_kind("place")
                if not (place.detail("latitude") and place.detail("longitude"))
            }
            self._towns = towns_called({written, *open_ones} - {""}, self._memory)
        return self._towns[written]

    def _in_other_half(self, place: Thing) -> PlacedFlaws:
        """That a place says of itself that it lies where the year goes the other way round."""
        position, southern = self._resolved(place), self.southern
        if (
            position.latitude is None
            or southern is None
            or southern is (position.latitude < 0)
            or position.place != place.handle
        ):
            return ()
        half = "south" if southern else "north"
        flaw = flaw_at(
            place.origin,
            "other-hemisphere",
            f"“{place.handle}” lies in the other half of the Earth than “{self.home}”; its seasons "
            f"are taken to be those of the {half} too",
            "Keep the trees of the other half in a journal of their own.",
            0,
            len("place"),
            "warning",
        )
        return (flaw,)
