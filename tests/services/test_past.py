"""Past days of a station fill gaps and nothing else."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from msgspec.structs import replace

from backbud.journal.read import read_journal
from backbud.services.errors import ServiceError
from backbud.services.past import fill
from backbud.services.run import run

NOW = datetime(2027, 3, 6, 16, 20, tzinfo=UTC)
HEAD = '"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME","PRCP","TMAX","TMIN"\n'


def rows(*days: str) -> bytes:
    """Rows of the access file of a station: tenths of mm and °C."""
    text = "".join(
        f'"UKE00105915","{day}","51.5","0.1","10","LONDON","12","85","-23"\n' for day in days
    )
    return (HEAD + text).encode()


@pytest.fixture
def station(met, named, kit):
    def at(*days: str, status: int = 200):
        met.replies["/access/UKE00105915.csv"] = kit.with_body(rows(*days), status, sort="text/csv")
        return replace(named, station="UKE00105915")

    return at


def read(journal):
    return read_journal(str(journal), NOW.date())


def test_only_gaps_are_filled_and_what_was_measured_wins(station, journal, met, kit):
    (journal / "diary.txt").write_text("2027-03-02  low 4 C, high 9 C, rain 0 mm\n")
    met.answers(kit.COMPACT, kit.compact(NOW, (1.0, 1.0, 1.0)))
    came = run(read(journal), station("2027-03-01", "2027-03-02", "2027-03-03", "2027-03-06"), NOW)
    assert came.failed == ()
    assert came.past.days == 2
    assert (journal / "weather/yard-past.csv").read_text().splitlines()[1:] == [
        "date,low C,high C,rain mm",
        "2027-03-01,-2.3,8.5,1.2",
        "2027-03-03,-2.3,8.5,1.2",
    ]
    # They stay when the station no longer has them, and nothing is written again.
    again = run(read(journal), station("2027-03-03"), NOW)
    assert (again.past.days, again.past.changed) == (0, False)


@pytest.mark.parametrize(
    ("status", "days", "said"),
    [
        (404, ("2027-03-01",), "has no station “UKE00105915”"),
        (500, ("2027-03-01",), "answers 500"),
        (200, (), "has no days that can be used"),
    ],
)
def test_a_station_that_gives_nothing_is_one_line(station, journal, status, days, said):
    with pytest.raises(ServiceError, match=said):
        fill(str(journal), station(*days, status=status), {}, NOW)


def test_without_a_service_the_last_forecast_is_told_with_its_age(station, journal, met, kit):
    (journal / "weather").mkdir()
    (journal / "weather/yard-forecast.csv").write_text("date,low,made\n2027-03-09,1,2027-03-04\n")
    met.replies[kit.COMPACT] = kit.with_body(b"", 500)
    came = run(read(journal), replace(station(), station=""), NOW)
    assert came.failed == (
        f"No forecast came: {met.url} answers 500. The last one, 2 days old, is used.",
    )
    (journal / "weather/yard-forecast.csv").write_text("date,low,made\n2027-03-09,1,2027-03-02\n")
    came = run(read(journal), replace(station(), station=""), NOW)
    assert came.failed[0].endswith("The last one is 4 days old, over 3, and is not used.")
