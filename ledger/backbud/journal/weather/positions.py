"""The cards of the places go in; where each place is, and in which half of the Earth, comes out.

There is one answer for a journal: whatever is turned by the hemisphere (the seasons of a date,
windows by months, the growing year) asks here, and so does the weather.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

from backbud.journal.events import Origin
from backbud.journal.notes import Notes
from backbud.journal.settings import SETTINGS_FILE
from backbud.journal.things import Thing, Things
from backbud.journal.weather.on_file import WeatherFiles
from backbud.journal.weather.position import own_position, taken_over
from backbud.journal.weather.record import Position
from backbud.publish.memory import MemoryOf

# What a card may say of where a place is.
SAYS_WHERE = ("latitude", "town")


class Positions:
    """Where the places of a journal are; each is sought when it is first asked for.

    `home`: the handle of the home place as the settings have it, or "". `memory`: the journal's.
    """

    def __init__(
        self, things: Things, home: str, files: WeatherFiles, memory: MemoryOf, notes: Notes
    ) -> None:
        self.files = files
        self._things, self._named_home = things, home
        self._memory, self._notes = memory, notes
        self._own: dict[str, Position] = {}

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
        position = self._resolved(place)
        latitude, southern = position.latitude, self.southern
        if (
            latitude is not None
            and southern is not None
            and southern is not (latitude < 0)
            and position.place == place.handle
        ):
            self._note_other_half(place)
        return position

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

    def note_what_turns_the_year(self) -> None:
        """Note that nobody says where home is, and each place in the other half of the Earth."""
        if self.southern is None and self._things.of_kind("tree"):
            self._note_unknown()
        for place in self._things.of_kind("place"):
            if any(place.detail(label) for label in (*SAYS_WHERE, "longitude")):
                self.of(place.handle)

    def _resolved(self, place: Thing) -> Position:
        first, *around = self._from_inside_out(place)
        position = self._own_of(first)
        for handle in around:
            if position.latitude is not None:
                break
            position = taken_over(position, self._own_of(handle))
        return position

    def _from_inside_out(self, place: Thing) -> Iterator[str]:
        site = self.outward(place)
        yield from site
        home = self.place(self.home)
        yield from (at for at in (self.outward(home) if home else ()) if at not in site)

    def _own_of(self, handle: str) -> Position:
        if handle not in self._own:
            place = self._things.by_handle[handle]
            self._own[handle] = own_position(
                place, lambda: self.files.stations(place), self._memory, self._notes
            )
        return self._own[handle]

    def _note_unknown(self) -> None:
        home = self.place(self.home)
        card = f"on the card of “{home.handle}”" if home else "on a card of home, place yard"
        self._notes.at(
            home.origin if home else Origin(SETTINGS_FILE, 1, 1),
            "unknown-hemisphere",
            "nobody says where home is, so the seasons are taken to be those of the north",
            f"Write {card}: latitude 52 N, or latitude 37.8 S, or town Seattle.",
            0,
            1 if home is None else len("place"),
            "warning",
        )

    def _note_other_half(self, place: Thing) -> None:
        half = "south" if self.southern else "north"
        self._notes.at(
            place.origin,
            "other-hemisphere",
            f"“{place.handle}” lies in the other half of the Earth than “{self.home}”; its seasons "
            f"are taken to be those of the {half} too",
            "Keep the trees of the other half in a journal of their own.",
            0,
            len("place"),
            "warning",
        )
