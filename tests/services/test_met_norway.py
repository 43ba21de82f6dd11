"""A forecast fetched from a service on this machine that speaks the documented shape."""

from __future__ import annotations

import gzip
import json
import ssl
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest
from msgspec.structs import replace

from backbud.climate.forecast import ForecastDay
from backbud.journal.weather.forecast import read_forecast
from backbud.services.errors import ServiceError
from backbud.services.fetch import fetch
from backbud.services.known import SERVICES

MET = SERVICES["met-norway"]
FILE = "weather/yard-forecast.csv"
SOON = {"total_seconds": 2.0, "wait_seconds": 0.3}


def fetched(journal: Path, named, now: datetime, **limits):
    return fetch(str(journal), named, MET, now, **{**SOON, **limits})


def test_a_forecast_comes_as_the_plain_file_that_a_keeper_could_write(met, named, journal, kit):
    met.answers(kit.COMPACT, kit.compact(kit.NOW, (-2.5, 1.0, -4.0)))
    came = fetched(journal, named, kit.NOW)
    assert (came.came, came.made) == ("new", "2027-03-06 16:20 UTC")
    lines = (journal / FILE).read_text().splitlines()
    assert lines[:3] == [
        "# Based on data from MET Norway, CC BY 4.0 "
        "(https://creativecommons.org/licenses/by/4.0/). What is foretold here, nobody measured.",
        "date,low C,high C,rain mm,wind m/s,gust m/s,made,source",
        "2027-03-07,-2.5,8.0,0.0,9.0,,2027-03-06 16:20,MET Norway",
    ]
    read = read_forecast((journal / FILE).read_text(), FILE, "yard")
    assert read.flaws == ()
    assert read.forecast.days[date(2027, 3, 8)] == ForecastDay(
        date(2027, 3, 8), 1.0, 8.0, 1.0, 9.0, None
    )


def test_it_is_told_who_asks_and_where_to_two_decimals_and_nothing_else(met, named, journal, kit):
    met.answers(kit.COMPACT, kit.compact(kit.NOW, (1.0, 1.0, 1.0)))
    fetched(journal, named, kit.NOW)
    ((path, headers),) = met.asked
    assert path == f"{kit.COMPACT}?lat=51.50&lon=0.10"
    assert headers["user-agent"].startswith("backbud/")
    assert headers["user-agent"].endswith(" una@example.org")
    assert set(headers) == {"accept", "accept-encoding", "connection", "host", "user-agent"}


def test_nobody_is_asked_before_the_last_answer_expires(met, named, journal, kit):
    met.answers(
        kit.COMPACT,
        kit.compact(kit.NOW, (1.0, 1.0, 1.0)),
        Expires="Sat, 06 Mar 2027 16:50:00 GMT",
    )
    fetched(journal, named, kit.NOW)
    again = fetched(journal, named, kit.NOW + timedelta(minutes=29))
    assert (again.came, len(met.asked)) == ("not asked", 1)
    fetched(journal, named, kit.NOW + timedelta(minutes=31))
    assert len(met.asked) == 2


def test_it_asks_only_for_what_changed(met, named, journal, kit):
    answer = kit.compact(kit.NOW, (1.0, 1.0, 1.0))
    marks = {"Last_Modified": "Sat, 06 Mar 2027 16:20:00 GMT", "ETag": '"a1"'}
    met.answers(kit.COMPACT, answer, **marks)
    fetched(journal, named, kit.NOW)
    before = (journal / FILE).read_bytes()
    met.replies[kit.COMPACT] = kit.with_body(b"", 304)
    again = fetched(journal, named, kit.NOW + timedelta(hours=2))
    assert (again.came, again.made) == ("the same", "2027-03-06 16:20 UTC")
    headers = met.asked[1][1]
    assert headers["if-modified-since"] == "Sat, 06 Mar 2027 16:20:00 GMT"
    assert headers["if-none-match"] == '"a1"'
    assert (journal / FILE).read_bytes() == before


def test_another_place_is_asked_for_at_once(met, named, journal, kit):
    met.answers(
        kit.COMPACT, kit.compact(kit.NOW, (1.0,) * 3), Expires="Sat, 06 Mar 2027 18:00:00 GMT"
    )
    fetched(journal, named, kit.NOW)
    fetched(journal, replace(named, latitude="48.00"), kit.NOW)
    assert len(met.asked) == 2


def test_packed_answers_are_read(met, named, journal, kit):
    body = gzip.compress(json.dumps(kit.compact(kit.NOW, (1.0,) * 3)).encode())
    met.replies[kit.COMPACT] = kit.with_body(body, Content_Encoding="gzip")
    assert fetched(journal, named, kit.NOW).came == "new"


def test_that_a_form_will_end_is_told(met, named, journal, kit):
    body = json.dumps(kit.compact(kit.NOW, (1.0,) * 3)).encode()
    met.replies[kit.COMPACT] = kit.with_body(body, 203)
    assert fetched(journal, named, kit.NOW).deprecated


# ------------------------------------------------------------------ broken services


def _slowly(handler):
    handler.send_response(200)
    handler.end_headers()
    for _ in range(100):
        handler.wfile.write(b" ")
        handler.wfile.flush()
        __import__("time").sleep(0.05)


def _never(handler):
    __import__("time").sleep(1.0)


def _broken_off(handler):
    handler.send_response(200)
    handler.send_header("Content-Type", "application/json")
    handler.send_header("Content-Length", "5000")
    handler.end_headers()
    handler.wfile.write(b"{")


def _endless(handler):
    handler.send_response(200)
    handler.send_header("Content-Type", "application/json")
    handler.end_headers()
    chunk = b" " * (1 << 20)
    for _ in range(1024):
        handler.wfile.write(chunk)


def _changed(change):
    def of(kit):
        answer = kit.compact(kit.NOW, (1.0, 1.0, 1.0))
        change(answer["properties"])
        return kit.with_body(json.dumps(answer).encode())

    return of


def _first(properties):
    return properties["timeseries"][0]["data"]["instant"]["details"]


BROKEN = {
    "answers nothing": (lambda kit: _never, "does not answer in time"),
    "drips": (lambda kit: _slowly, "did not end its answer within 0.4 seconds"),
    "breaks off": (lambda kit: _broken_off, "broke off its answer"),
    "1 GB": (lambda kit: _endless, "sends more than 4 MB"),
    "a bomb": (
        lambda kit: kit.with_body(gzip.compress(b" " * (64 << 20)), Content_Encoding="gzip"),
        "sends more than 4 MB",
    ),
    "sends elsewhere": (
        lambda kit: kit.with_body(b"", 302, Location="https://elsewhere.example/"),
        "sends to another server, https://elsewhere.example, which nobody agreed to",
    ),
    "in circles": (
        lambda kit: kit.with_body(b"", 302, Location=kit.COMPACT),
        "sends from one address to the next",
    ),
    "another type": (
        lambda kit: kit.with_body(b"<html>", sort="text/html"),
        "answers with text/html where JSON was expected",
    ),
    "no JSON": (lambda kit: kit.with_body(b"{no"), "no JSON"),
    "deep JSON": (lambda kit: kit.with_body(b"[" * 100000), "no JSON"),
    "another shape": (lambda kit: kit.with_body(b"[1]"), "has changed its form"),
    "an error": (lambda kit: kit.with_body(b"{}", 500), "answers 500"),
    "refused": (lambda kit: kit.with_body(b"{}", 403), "refuses the request (403)"),
    "too often": (lambda kit: kit.with_body(b"{}", 429), "was asked too often (429)"),
    "another unit": (
        _changed(lambda p: p["meta"]["units"].update(air_temperature="fahrenheit")),
        "air_temperature is no longer in celsius",
    ),
    "absurd": (_changed(lambda p: _first(p).update(air_temperature=812)), "cannot be"),
    "text for a number": (_changed(lambda p: _first(p).update(air_temperature="8")), "no number"),
    "no time": (_changed(lambda p: p["timeseries"][0].update(time="soon")), "is no time"),
    "hardly a day": (
        _changed(lambda p: p.update(timeseries=p["timeseries"][:20])),
        "no more than a day",
    ),
    "of last week": (
        _changed(lambda p: p["meta"].update(updated_at="2027-02-27T04:00:00Z")),
        "is of 2027-02-27 and was not used",
    ),
}


@pytest.mark.parametrize("how", BROKEN)
def test_a_broken_service_ends_in_one_line_and_the_last_forecast_stays(
    how, met, named, journal, kit
):
    reply, said = BROKEN[how]
    met.answers(kit.COMPACT, kit.compact(kit.NOW, (1.0, 1.0, 1.0)))
    fetched(journal, named, kit.NOW)
    before = (journal / FILE).read_bytes()
    met.replies[kit.COMPACT] = reply(kit)
    limits = {"total_seconds": 0.4} if how == "drips" else {}
    with pytest.raises(ServiceError) as error:
        fetched(journal, named, kit.NOW + timedelta(hours=3), **limits)
    assert said in str(error.value)
    assert "\n" not in str(error.value)
    assert (journal / FILE).read_bytes() == before


def test_a_server_that_refused_is_left_alone_for_a_while(met, named, journal, kit):
    met.replies[kit.COMPACT] = kit.with_body(b"{}", 429, Retry_After="14400")
    with pytest.raises(ServiceError, match="was asked too often"):
        fetched(journal, named, kit.NOW)
    with pytest.raises(ServiceError, match="refused lately and is left alone until 20:20 UTC"):
        fetched(journal, named, kit.NOW + timedelta(hours=3, minutes=59))
    assert len(met.asked) == 1
    met.answers(kit.COMPACT, kit.compact(kit.NOW, (1.0,) * 3))
    assert fetched(journal, named, kit.NOW + timedelta(hours=4)).came == "new"


def test_a_day_that_is_missing_in_the_middle_is_left_out(met, named, journal, kit):
    answer = kit.compact(kit.NOW, (1.0, 2.0, 3.0, 4.0))
    series = answer["properties"]["timeseries"]
    series[:] = [one for one in series if not one["time"].startswith("2027-03-08")]
    met.answers(kit.COMPACT, answer)
    fetched(journal, named, kit.NOW)
    days = read_forecast((journal / FILE).read_text(), FILE, "yard").forecast.days
    assert days[date(2027, 3, 7)].high_c == 8.0
    assert days.get(date(2027, 3, 8), ForecastDay(date(2027, 3, 8))).high_c is None
    assert days[date(2027, 3, 9)].high_c == 8.0


# ------------------------------------------------------------------ TLS


def _secure(authority, *hosts: str) -> ssl.SSLContext:
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    authority.issue_cert(*hosts).configure_cert(context)
    return context


def test_over_tls_only_a_certificate_that_fits_is_taken(
    authority, named, journal, kit, tmp_path, monkeypatch
):
    bundle = tmp_path / "authority.pem"
    authority.cert_pem.write_to_path(str(bundle))
    answer = kit.compact(kit.NOW, (1.0, 1.0, 1.0))
    with kit.met_server(_secure(authority, "localhost")) as fits:
        fits.answers(kit.COMPACT, answer)
        # Nobody has heard of whoever signed it.
        with pytest.raises(ServiceError, match=r"the certificate of https://localhost:.* not fit"):
            fetched(journal, replace(named, address=fits.url), kit.NOW)
        monkeypatch.setenv("SSL_CERT_FILE", str(bundle))
        assert fetched(journal, replace(named, address=fits.url), kit.NOW).came == "new"
    with kit.met_server(_secure(authority, "met.example")) as another:
        another.answers(kit.COMPACT, answer)
        with pytest.raises(ServiceError, match="does not fit: Hostname mismatch"):
            fetched(journal, replace(named, address=another.url), kit.NOW)


def test_without_tls_nobody_elsewhere_is_asked(named, journal, kit):
    with pytest.raises(ServiceError, match="only https"):
        fetched(journal, replace(named, address="http://met.example"), kit.NOW)
